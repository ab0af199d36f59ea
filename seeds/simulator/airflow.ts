/** Blower runs and passes before a camera, from the same truth. */
import { SCHEMA_VERSION, type AirRun, type AirflowSession, type AirState, type Reading } from '@core/schema'
import { rounded, type Bench, type Forces } from './bench'

/** How the jet's speed falls off from its middle; both squares, so its mean square is plain to work out. */
export interface TrueJet {
  readonly middleMs: number
  /** Share of speed lost at the edges of the traverse, across and up. */
  readonly fallAcross: number
  readonly fallUp: number
  /**
   * Unevenness without a pattern: V squared at each point of the traverse is off by this share, while
   * the car meets the mean of the whole jet, `middleMs` squared. The falls then play no part.
   */
  readonly offShares?: readonly number[]
}

/** Points of the traverse, mm. */
export const TRAVERSE = [-60, -30, 0, 30, 60].flatMap((yMm) => [10, 30, 50].map((zMm) => ({ yMm, zMm })))

export const jetSpeed = ({ middleMs, fallAcross, fallUp }: TrueJet, yMm: number, zMm: number): number =>
  middleMs * (1 - fallAcross * (yMm / 60) ** 2 - fallUp * ((zMm - 30) / 20) ** 2)

/** Speed at a point of the traverse, by its place in the list. */
const speedAtPoint = (jet: TrueJet, index: number): number => {
  const { yMm, zMm } = TRAVERSE[index]!
  return jet.offShares ? jet.middleMs * Math.sqrt(1 + jet.offShares[index]!) : jetSpeed(jet, yMm, zMm)
}

/** Mean of half rho V squared that the car meets, Pa. */
export const jetPressure = (jet: TrueJet, densityKgM3: number): number => (jet.offShares
  ? 0.5 * densityKgM3 * jet.middleMs ** 2
  : TRAVERSE.reduce((sum, { yMm, zMm }) => sum + 0.5 * densityKgM3 * jetSpeed(jet, yMm, zMm) ** 2, 0) / TRAVERSE.length)

export interface RunPlan {
  readonly id: string
  readonly name: string
  readonly configurationId: string
  /** No device: only the bare bodywork meets the air. */
  readonly control: boolean
  readonly gaugeId: string
  readonly settle: AirRun['settle']
  readonly air: AirRun['air']
  /** Times that the air is put on. */
  readonly bursts: number
}

export interface BlowerPlan extends RunPlan { readonly jet: TrueJet; readonly setting: string }
export interface PassPlan extends RunPlan {
  /** True speed of each pass in the middle of the gates, m/s. */
  readonly speedsMs: readonly number[]
  readonly accelerationMs2: number
  readonly timeUS: number
}

/** Force of air of a dynamic pressure on the axles, N: device and bare bodywork together. */
export function airForces(bench: Bench, configurationId: string, control: boolean, pressurePa: number): Forces {
  const device = bench.truth.devices.find((each) => each.configurationId === configurationId)
  const of = (axle: 'front' | 'rear') =>
    pressurePa * (bench.truth.bareClAM2[axle] + (control ? 0 : device?.clAM2[axle] ?? 0))
  return { front: of('front'), rear: of('rear') }
}

const AT_REST: Forces = { front: 0, rear: 0 }

/** One blower run: off, on, off, on ... off, with a traverse. */
export function blowerRun(bench: Bench, plan: BlowerPlan): Extract<AirRun, { kind: 'blower' }> {
  const { draws, truth, chassis } = bench
  const gauge = bench.gauge(plan.gaugeId)
  const forces = airForces(bench, plan.configurationId, plan.control, jetPressure(plan.jet, truth.densityKgM3))
  const states: AirState[] = []
  const readings: Reading[] = []
  for (let i = 0; i <= 2 * plan.bursts; i++) {
    const on = i % 2 === 1
    bench.load(on ? forces : AT_REST, !on || plan.settle !== 'none')
    const id = `${plan.id}-state-${i + 1}`
    states.push({
      id, air: on ? 'on' : 'off', atS: i * 40, pass: null,
      touched: { front: on && bench.front.touched(), rear: on && bench.rear.touched() }, note: '', setAside: null,
    })
    readings.push(...bench.readings(id, gauge, 1))
    bench.creep()
  }
  bench.load(AT_REST, true)
  const { id: anemometerId, resolutionMs } = chassis.anemometers[0]!
  return {
    kind: 'blower', ...headOf(plan), states, readings, setting: plan.setting, jet: 'open',
    held: { how: 'wheelsLocked' },
    traverse: {
      anemometerId,
      points: TRAVERSE.map(({ yMm, zMm }, i) => ({
        id: `${plan.id}-point-${i + 1}`, yMm, zMm, weight: null,
        shownMs: [0, 1].map(() => rounded(
          speedAtPoint(plan.jet, i) / truth.anemometerFactor + draws.normal(0, 0.1), resolutionMs,
        )),
      })),
    },
  }
}

/** Gates of a pass, mm from the first. */
const GATES = { secondMm: 1500, thirdMm: 3000 }

/** Passes out and back before the camera, each with a reading at rest before and one after all. */
export function driveByRun(bench: Bench, plan: PassPlan): Extract<AirRun, { kind: 'driveBy' }> {
  const { draws, truth } = bench
  const gauge = bench.gauge(plan.gaugeId)
  const states: AirState[] = []
  const readings: Reading[] = []
  const add = (air: AirState['air'], pass: AirState['pass']) => {
    const id = `${plan.id}-state-${states.length + 1}`
    states.push({
      id, air, atS: states.length * 60, pass,
      touched: { front: air === 'on' && bench.front.touched(), rear: air === 'on' && bench.rear.touched() },
      note: '', setAside: null,
    })
    readings.push(...bench.readings(id, gauge, 1))
    bench.creep()
  }
  plan.speedsMs.forEach((speed, i) => {
    bench.load(AT_REST, true)
    add('off', null)
    const forces = airForces(bench, plan.configurationId, plan.control, 0.5 * truth.densityKgM3 * speed ** 2)
    // Gaining speed lifts the front and presses the rear: m a h / L.
    const shift = (truth.massKg * plan.accelerationMs2 * truth.cgHeightMm) / truth.wheelbaseMm
    bench.load({ front: forces.front - shift, rear: forces.rear + shift }, true)
    add('on', { direction: i % 2 === 0 ? 'out' : 'back', timing: timingOf(speed, plan, draws) })
  })
  bench.load(AT_REST, true)
  add('off', null)
  return { kind: 'driveBy', ...headOf(plan), states, readings }
}

/** Moments at the gates of a car that has its speed midway between first and third gate. */
function timingOf(speedMs: number, { accelerationMs2: a, timeUS }: PassPlan, draws: Bench['draws']) {
  const middle = GATES.thirdMm / 2000
  const start = Math.sqrt(speedMs ** 2 - 2 * a * middle)
  const timeTo = (metres: number) =>
    (a === 0 ? metres / start : (-start + Math.sqrt(start ** 2 + 2 * a * metres)) / a)
  const stamp = (metres: number) => Number((5 + timeTo(metres) + draws.normal(0, timeUS)).toFixed(5))
  return {
    distanceMm: { value: GATES.secondMm, u: 2 }, distanceFarMm: { value: GATES.thirdMm, u: 2 },
    firstS: stamp(0), secondS: stamp(GATES.secondMm / 1000), thirdS: stamp(GATES.thirdMm / 1000), uTimeS: timeUS,
  }
}

const headOf = ({ id, name, configurationId, control, gaugeId, settle, air }: RunPlan) => ({
  id, name, configurationId, control, datum: 'hubToChassis' as const, settle, gaugeId, air,
  staticDropMm: { front: 0, rear: 0 }, note: '', setAside: null,
})

/** A session of runs read by one squat test. */
export function airflowSession(
  bench: Bench, id: string, name: string, squatSessionId: string, runs: readonly AirRun[],
): AirflowSession {
  return {
    schemaVersion: SCHEMA_VERSION, id, chassisId: bench.chassis.id, revision: 1, name, note: '',
    createdAt: bench.moment(), kind: 'airflow', squatSessionId, runs: [...runs], pictures: [],
  }
}
