/**
 * One project of a world as the plain JSON of an exchange file, with its truth. Two set-ups, `a` and `b`,
 * are the same car under two names: any winner among them is a false one.
 */
import { Chance } from './draws'
import { Suspension, type Axles, type TrueCar } from './suspension'
import type { World } from './worlds'

const G = 9.809
const BASE_MM = 260
const HALF_TRACK_MM = 80
const CORNERS = ['frontLeft', 'frontRight', 'rearLeft', 'rearRight'] as const
const AT = '2031-06-01T08:00:00.000Z'
const SETTINGS = ['low', 'middle', 'high'] as const
const GRID = [-60, 0, 60].flatMap((yMm) => [10, 35, 60].map((zMm) => ({ yMm, zMm })))
const HEIGHT_STEP_MM = 0.05
const REPEAT_MM = 0.04
const GAUGE_SCALE_U = 0.005
const GAIN_U = 0.005
const FACTOR_U = 0.02
const TOUCH_U_MM = 0.03
/** Hook height of the line, mm, and where drag acts, mm above the ground. */
const HOOK_MM = 18
const GROWTH = { value: 1.2e-3, u: 1e-4 }

export interface Truth {
  /** Load on each axle by run, N: what the road would see. */
  readonly loadN: Readonly<Record<string, Axles>>
  readonly claM2: Axles
  /** Runs in which the tray was on the ground. */
  readonly grounded: ReadonlySet<string>
  /** Speed at which each end of the tray touches, m/s; null where it is not asked. */
  readonly touchMs: Axles | null
}

export interface Project { readonly exchange: unknown; readonly truth: Truth }

const rounded = (value: number, step: number): number => Number((Math.round(value / step) * step).toFixed(6))

/** The bench with its hidden errors, drawn from what the profile states of them. */
class Bench {
  readonly suspension: Suspension
  private readonly scale: number
  private readonly rest: Record<string, number>
  private count = 0

  constructor(private readonly chance: Chance, private readonly world: World, car: TrueCar) {
    this.suspension = new Suspension(car)
    this.scale = 1 + chance.normal(0, GAUGE_SCALE_U)
    this.rest = Object.fromEntries(CORNERS.map((corner) => [corner, chance.between(8, 9)]))
  }

  /** Four heights of one state, with what the tyres lift. */
  heights(
    stepId: string, forces: Axles, risenMm: Axles = { front: 0, rear: 0 },
  ): { readings: unknown[]; onGround: boolean } {
    const { world, chance } = this
    const { drops, onGround } = this.suspension.settle(forces, world.slidesN === 0)
    const lower = chance.normal(0, world.resettleMm)
    const readings = CORNERS.map((corner) => {
      const end = corner.startsWith('front') ? 'front' : 'rear'
      const height = this.rest[corner]! - drops[end] - lower + risenMm[end]
      this.count += 1
      return {
        id: `r${this.count}`, stepId, corner, at: AT, from: { kind: 'gauge' }, corrections: [], setAside: null,
        shownMm: rounded(height * this.scale + chance.normal(0, REPEAT_MM), HEIGHT_STEP_MM),
      }
    })
    return { readings, onGround }
  }
}

const step = (id: string, branch: string, placed: unknown[]) => ({
  id, branch, ramp: 1, placed, touched: { front: false, rear: false }, note: '', setAside: null,
})

interface Bag { readonly id: string; readonly massKg: number }

/** Bags laid down midway one by one, off again the same way where the world has it, a zero at both ends. */
function squatOf(bench: Bench, world: World, bags: readonly Bag[], chance: Chance, baseMm: number) {
  const up = bags.map((_, i) => i + 1)
  const counts = [0, ...up, ...(world.down ? up.slice(0, -1).reverse() : [])]
  if (world.down) counts.push(0)
  const places = bags.map(() => BASE_MM / 2 + chance.normal(0, 1))
  const readings: unknown[] = []
  const steps = counts.map((count, i) => {
    const id = `s${i}`
    const laid = bags.slice(0, count)
    const rear = laid.reduce((sum, { massKg }, j) => sum + (massKg * G * places[j]!) / baseMm, 0)
    const whole = laid.reduce((sum, { massKg }) => sum + massKg * G, 0)
    readings.push(...bench.heights(id, { front: whole - rear, rear }).readings)
    const placed = laid.map((bag) => ({ loadId: bag.id, xMm: BASE_MM / 2, yMm: 0, uPlaceMm: 1 }))
    return step(id, count === 0 ? 'zero' : i <= bags.length ? 'loading' : 'unloading', placed)
  })
  return {
    schemaVersion: 2, id: 'squat', chassisId: 'car', revision: 1, name: 'Squat', note: '', createdAt: AT, kind: 'squat',
    setup: {
      gaugeId: 'gauge', settle: world.slidesN > 0 ? 'none' : 'bounce', order: world.down ? 'upDown' : 'upOnly',
      assumedFrictionN: null, wished: null,
    },
    steps, readings, pictures: [],
  }
}

const state = (id: string, air: 'on' | 'off', atS: number, rest: object = {}) =>
  ({ id, air, atS, pass: null, touched: { front: false, rear: false }, note: '', setAside: null, ...rest })

const AIR = {
  temperatureK: { value: 293.15, u: 1e-6 }, pressurePa: { value: 100_000, u: 1e-3 }, heightM: null,
  relativeHumidity: { value: 0, u: 1e-9 },
}
/** Density of dry air of that state by the gas law, with a real gas's 0.04 % (both constants from memory). */
const density = (100_000 / (287.05 * 293.15)) * 1.0004

export function makeProject(world: World, seed: number): Project {
  const chance = new Chance(seed)
  const baseMm = BASE_MM + chance.normal(0, 0.5)
  const rate = { front: chance.between(2, 3), rear: chance.between(2.2, 3.4) }
  const claM2 = { front: chance.between(0.008, 0.013), rear: chance.between(0.013, 0.02) }
  const speeds = [chance.between(13, 15), chance.between(16, 18), chance.between(19, 21)]
  const press = (speedMs: number): Axles => {
    const q = 0.5 * density * speedMs ** 2
    return { front: q * claM2.front, rear: q * claM2.rear }
  }
  const at = (baseMm * 1.25)
  // Down on the diffuser between the middle and the highest speed.
  const middle = press((speeds[1]! + speeds[2]!) / 2)
  const roomMm = world.diffuser
    ? -0.25 * (middle.front / rate.front) + 1.25 * (middle.rear / rate.rear)
    : 30
  const car: TrueCar = {
    wheelbaseMm: baseMm, rate, slides: { front: world.slidesN, rear: world.slidesN },
    tray: world.diffuser ? { atMm: at, roomMm } : null,
  }
  const bench = new Bench(chance, world, car)
  const gain = 1 + chance.normal(0, GAIN_U)
  const bags = Array.from({ length: world.rungs }, (_, i): Bag =>
    ({ id: `bag${i}`, massKg: chance.between(0.2, 0.26) }))
  const loads = bags.map(({ id, massKg }) => ({
    id, name: id, note: '',
    weighings: [{
      id: 'w', at: AT, scaleId: 'scale', massKg: rounded(massKg / gain, 0.001), corrections: [], setAside: null,
    }],
  }))
  // On the ground loads would lie on the tray, so the squat test is made with the car on blocks.
  const squatBench = world.diffuser ? new Bench(new Chance(seed ^ 0x5bd1e995), world, { ...car, tray: null }) : bench
  const squat = squatOf(squatBench, world, bags, chance, baseMm)
  const growth = { front: chance.normal(GROWTH.value, GROWTH.u), rear: chance.normal(GROWTH.value, GROWTH.u) }
  const airflow = world.passes ? passesOf(bench, chance, speeds, press, growth)
    : jetOf(bench, world, chance, speeds, press, baseMm)
  const told = (mm: number) => ({ value: mm + chance.normal(0, TOUCH_U_MM), u: TOUCH_U_MM })
  // What the load brings the tray down by, less what the tyres have lifted it.
  const touchMs = { front: chance.between(29, 33), rear: chance.between(29, 33) }
  const room = (end: 'front' | 'rear') => press(touchMs[end])[end] / rate[end] - growth[end] * touchMs[end] ** 2
  const touchMm = world.passes ? { front: told(room('front')), rear: told(room('rear')) }
    : { front: null, rear: world.diffuser ? told(roomMm / 1.25) : null }
  return {
    exchange: {
      format: 'squatbench-exchange', schemaVersion: 2,
      chassis: {
        schemaVersion: 2, id: 'car', revision: 1, name: world.name, note: '', createdAt: AT,
        wheelbaseMm: { value: BASE_MM, u: 0.5 }, trackMm: { front: 2 * HALF_TRACK_MM, rear: 2 * HALF_TRACK_MM },
        massKg: null, cornerMassesKg: null, cgHeightMm: null,
        stations: {
          frontLeft: { xMm: 0, yMm: -HALF_TRACK_MM }, frontRight: { xMm: 0, yMm: HALF_TRACK_MM },
          rearLeft: { xMm: BASE_MM, yMm: -HALF_TRACK_MM }, rearRight: { xMm: BASE_MM, yMm: HALF_TRACK_MM },
        },
        trayTouchMm: touchMm,
        ...(world.diffuser && {
          trayEnds: { front: null, rear: { where: 'beyondAxle', beyondMm: { value: 0.25 * BASE_MM, u: 1 } } },
        }),
        tyres: world.passes ? {
          front: { rateNPerMm: null, growthMmPerMs2: GROWTH }, rear: { rateNPerMm: null, growthMmPerMs2: GROWTH },
        } : null,
        place: null,
        scales: [{ id: 'scale', name: 'Scale', resolutionKg: 0.001, gainU: Math.hypot(GAIN_U, 1e-3), checks: [] }],
        gauges: [{
          id: 'gauge', name: 'Gauge', reads: 'height', resolutionMm: HEIGHT_STEP_MM, scaleU: GAUGE_SCALE_U, zeroUMm: 0.05,
          repeatabilityUMm: REPEAT_MM,
        }],
        anemometers: [{ id: 'cups', name: 'Cups', factor: { value: 1, u: FACTOR_U }, resolutionMs: 0.1 }],
        loads, configurations: ['a', 'b'].map((id) => ({ id, name: id, note: '', wingAngleDeg: null })), springs: [],
      },
      sessions: [squat, airflow.session],
    },
    truth: { loadN: airflow.loadN, claM2, grounded: airflow.grounded, touchMs: world.passes ? touchMs : null },
  }
}

interface Air { readonly session: unknown; readonly loadN: Record<string, Axles>; readonly grounded: Set<string> }

const sessionOf = (runs: unknown[]) => ({
  schemaVersion: 2, id: 'air', chassisId: 'car', revision: 1, name: 'Air', note: '', createdAt: '2031-06-02T08:00:00.000Z',
  kind: 'airflow', squatSessionId: 'squat', pictures: [], runs,
})

/** Both set-ups in the jet at three settings, a traverse with each run. */
function jetOf(
  bench: Bench, world: World, chance: Chance, speeds: readonly number[], press: (speedMs: number) => Axles,
  baseMm: number,
): Air {
  const factor = 1 + chance.normal(0, FACTOR_U)
  const hook = { heightMm: HOOK_MM + chance.normal(0, 1), dragAtMm: chance.between(25, 40) }
  const loadN: Record<string, Axles> = {}
  const grounded = new Set<string>()
  const settle = world.slidesN > 0 ? 'none' : 'bounce'
  const runs = SETTINGS.flatMap((setting, i) => {
    const speed = speeds[i]!
    const places = GRID.map(() => 1 + chance.normal(0, world.placeUneven))
    return ['a', 'b'].map((set) => {
      const id = `${set}-${setting}`
      const road = press(speed)
      loadN[id] = road
      const pull = 0.5 * density * speed ** 2 * 0.02
      // On the road drag is met at the ground; here by the line at its hook: less moment about the ground.
      const moved = world.heldByLine ? (pull * hook.heightMm) / baseMm : 0
      const onSprings = { front: road.front + moved, rear: road.rear - moved }
      const none = { front: 0, rear: 0 }
      const states = ['off', 'on', 'off', 'on', 'off'] as const
      const kept = settle === 'none' ? states.slice(0, 2) : states
      const readings: unknown[] = []
      if (settle === 'none') bench.suspension.settle(none, true)
      const stated = kept.map((air, k) => {
        const read = bench.heights(`${id}-${k}`, air === 'on' ? onSprings : none)
        readings.push(...read.readings)
        if (read.onGround) grounded.add(id)
        return state(`${id}-${k}`, air, 20 * k, { touched: { front: false, rear: read.onGround } })
      })
      return {
        id, name: id, configurationId: set, control: false, datum: 'hubToChassis', settle, gaugeId: 'gauge', air: AIR,
        states: stated, readings, staticDropMm: { front: 0, rear: 0 }, note: '', setAside: null, kind: 'blower', setting,
        jet: 'open',
        held: world.heldByLine ? {
          how: 'line', hookHeightMm: { value: HOOK_MM, u: 1 }, hookXMm: { value: 0, u: 1 }, fallDeg: { value: 0, u: 0.2 },
          pullN: { value: pull + chance.normal(0, 0.02), u: 0.02 },
        } : { how: 'wheelsLocked' },
        traverse: {
          anemometerId: 'cups',
          points: GRID.map((place, k) => {
            const trueMs = speed * Math.sqrt(Math.max(0, places[k]!))
            const shownMs = rounded((trueMs * (1 + chance.normal(0, world.speedNoise))) / factor, 0.1)
            return { id: `p${k}`, ...place, weight: null, shownMs: [shownMs] }
          }),
        },
      }
    })
  })
  return { session: sessionOf(runs), loadN, grounded }
}

/** Six passes of each set-up, three each way, read from the ground on tyres that have grown. */
function passesOf(
  bench: Bench, chance: Chance, speeds: readonly number[], press: (speedMs: number) => Axles, growth: Axles,
): Air {
  const loadN: Record<string, Axles> = {}
  const runs = SETTINGS.flatMap((setting, i) => ['a', 'b'].map((set) => {
    const id = `${set}-${setting}`
    const speed = speeds[i]!
    loadN[id] = press(speed)
    const readings: unknown[] = []
    const none = { front: 0, rear: 0 }
    const states = Array.from({ length: 9 }, (_, k) => {
      const on = k > 0 && k < 7
      const stateId = `${id}-${k}`
      const own = speed * (1 + chance.normal(0, 0.002))
      const grown = on ? { front: growth.front * own ** 2, rear: growth.rear * own ** 2 } : none
      readings.push(...bench.heights(stateId, on ? press(own) : none, grown).readings)
      const time = (far: number) => far / own + chance.normal(0, 1e-4)
      return state(stateId, on ? 'on' : 'off', 60 * k, on ? {
        pass: {
          direction: k % 2 === 0 ? 'back' : 'out',
          timing: {
            distanceMm: { value: 1500, u: 1 }, distanceFarMm: { value: 3000, u: 1 },
            firstS: time(0) + 5, secondS: time(1.5) + 5, thirdS: time(3) + 5, uTimeS: 1e-4,
          },
        },
      } : {})
    })
    return {
      id, name: id, configurationId: set, control: false, datum: 'groundToChassis', settle: 'bounce', gaugeId: 'gauge',
      air: AIR, states, readings, staticDropMm: { front: 0, rear: 0 }, note: '', setAside: null, kind: 'driveBy',
    }
  }))
  return { session: sessionOf(runs), loadN, grounded: new Set() }
}
