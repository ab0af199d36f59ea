/**
 * Whole projects with hidden truth: a car, its loads and squat test, then two configurations and the
 * bare car in the jet at three settings. Everything that a profile states with an uncertainty is drawn
 * anew for each project from that uncertainty.
 */
import type { Chassis, Load } from '@core/schema'
import { SCHEMA_VERSION } from '@core/schema'
import {
  airflowSession, Bench, blowerRun, Draws, drawShared, driveByRun, ladder, placeGravity, touchForce, TRAVERSE,
  type BenchTruth, type PlannedLoad, type TrueAxle, type TrueCurve, type TrueJet,
} from '../../../seeds/simulator'

const WHEELBASE_MM = 260
const MADE = '2031-05-04T08:00:00.000Z'
const BAG_KG = [0.15, 0.2, 0.2, 0.25, 0.25, 0.3]
const AIR = {
  temperatureK: { value: 293.15, u: 0.5 }, pressurePa: { value: 100_000, u: 150 }, heightM: null,
  relativeHumidity: { value: 0.5, u: 0.05 },
}
const SETTINGS = ['low', 'middle', 'high'] as const

export interface TrueProject {
  readonly clAM2: Readonly<Record<'a' | 'b', { readonly front: number; readonly rear: number }>>
  /** Configuration a with the bare bodywork, as a pass meets it. */
  readonly wholeClAM2: { readonly front: number; readonly rear: number }
  /** Speed at which configuration a touches with its first end, m/s. */
  readonly touchMs: number
  readonly densityKgM3: number
}

export interface Project {
  readonly chassis: Chassis
  readonly squat: ReturnType<Bench['squat']>
  readonly airflow: ReturnType<typeof airflowSession>
  /** Six passes of configuration a, three each way, gaining or losing speed. */
  readonly passes: ReturnType<typeof airflowSession>
  readonly truth: TrueProject
}

/** `fast`: the jet is strong enough to press the tray onto the ground in some runs or all. */
export function makeProject(seed: number, fast: boolean): Project {
  const draws = new Draws(seed)
  const settle = draws.even() < 0.5 ? 'bounce' as const : 'none' as const
  const nominalTouch = { front: draws.between(3.2, 4.2), rear: draws.between(3.2, 4.2) }
  const bare = profile(nominalTouch)
  const truth = drawTruth(draws, bare, nominalTouch)
  const chassis = weighed(new Bench(draws, truth, bare), bare)
  const bench = new Bench(draws, truth, chassis)
  const squat = bench.squat({
    id: 'squat', name: 'Squat', gaugeId: 'step-gauge', settle, order: 'upDown',
    steps: ladder(rungs(), 2, settle === 'none'),
  })
  const speeds = fast ? [draws.between(16, 30), draws.between(30, 36), draws.between(36, 42)]
    : [draws.between(12, 14), draws.between(15, 17), draws.between(18, 20)]
  const unevenness = draws.between(0.05, 0.2)
  const runs = SETTINGS.flatMap((setting, i) => {
    const jet: TrueJet = {
      middleMs: speeds[i]!, fallAcross: 0, fallUp: 0, offShares: TRAVERSE.map(() => draws.normal(0, unevenness)),
    }
    return (['control', 'a', 'b'] as const).map((what) => blowerRun(bench, {
      id: `${what}-${setting}`, name: `${what} ${setting}`, configurationId: what === 'control' ? 'a' : what,
      control: what === 'control', gaugeId: 'step-gauge', settle: 'bounce', air: AIR, bursts: 3, jet, setting,
    }))
  })
  const airflow = airflowSession(bench, 'jet', 'Jet', squat.id, runs)
  const passes = airflowSession(bench, 'passes', 'Passes', squat.id, [driveByRun(bench, {
    id: 'pass-a', name: 'Passes', configurationId: 'a', control: false, gaugeId: 'step-gauge', settle: 'bounce', air: AIR,
    bursts: 0, speedsMs: Array.from({ length: 6 }, () => draws.normal(15, 0.3)), accelerationMs2: draws.between(-2, 2),
    timeUS: 0.0005,
  })])
  return { chassis, squat, airflow, passes, truth: trueProject(truth) }
}

function trueProject({ axles, devices, densityKgM3, bareClAM2 }: BenchTruth): TrueProject {
  const clA = (id: string) => devices.find(({ configurationId }) => configurationId === id)!.clAM2
  const [a, b] = [clA('a'), clA('b')]
  // The bodywork's load presses the springs, too.
  const touch = (axle: 'front' | 'rear') =>
    Math.sqrt((2 * touchForce(axles[axle])!) / (densityKgM3 * (a[axle] + bareClAM2[axle])))
  const wholeClAM2 = { front: a.front + bareClAM2.front, rear: a.rear + bareClAM2.rear }
  return { clAM2: { a, b }, wholeClAM2, densityKgM3, touchMs: Math.min(touch('front'), touch('rear')) }
}

function profile(touch: { front: number; rear: number }): Chassis {
  return {
    schemaVersion: SCHEMA_VERSION, id: 'project', revision: 1, name: 'Project', note: '', createdAt: MADE,
    wheelbaseMm: { value: WHEELBASE_MM, u: 0.3 }, trackMm: { front: 160, rear: 160 }, massKg: { value: 1.5, u: 0.002 },
    cornerMassesKg: { frontLeft: 0.35, frontRight: 0.35, rearLeft: 0.4, rearRight: 0.4 },
    cgHeightMm: { value: 25, u: 2 },
    stations: {
      frontLeft: { xMm: 0, yMm: -80 }, frontRight: { xMm: 0, yMm: 80 },
      rearLeft: { xMm: WHEELBASE_MM, yMm: -80 }, rearRight: { xMm: WHEELBASE_MM, yMm: 80 },
    },
    trayTouchMm: { front: { value: touch.front, u: 0.05 }, rear: { value: touch.rear, u: 0.05 } },
    tyres: null, place: { latitudeDeg: 47, heightM: 400 },
    scales: [{ id: 'kitchen-scale', name: 'Kitchen scale', resolutionKg: 0.001, gainU: 0.004, checks: [] }],
    gauges: [{
      id: 'step-gauge', name: 'Step gauge', reads: 'height', resolutionMm: 0.05, scaleU: 0.01, zeroUMm: 0.05,
      repeatabilityUMm: 0.04,
    }],
    anemometers: [{ id: 'cups', name: 'Cups', resolutionMs: 0.1, factor: { value: 1, u: 0.02 } }],
    loads: [],
    configurations: ['a', 'b'].map((id) => ({ id, name: id, note: '', wingAngleDeg: null })), springs: [],
  }
}

function drawCurve(draws: Draws): TrueCurve {
  const rateNPerMm = draws.between(1.2, 2)
  const kind = draws.whole(0, 4)
  if (kind <= 1) return { kind: 'linear', rateNPerMm }
  if (kind <= 3) return { kind: 'progressive', rateNPerMm, growthNPerMm2: draws.between(0.1, 0.3) }
  return { kind: 'threshold', rateNPerMm, thresholdN: draws.between(0.4, 0.8) }
}

function drawTruth(draws: Draws, chassis: Chassis, touch: { front: number; rear: number }): BenchTruth {
  const axle = (which: 'front' | 'rear'): TrueAxle =>
    ({ curve: drawCurve(draws), frictionN: draws.between(0.1, 0.3), touchMm: draws.normal(touch[which], 0.05) })
  const device = (configurationId: string) =>
    ({ configurationId, clAM2: { front: draws.between(0.012, 0.018), rear: draws.between(0.014, 0.02) } })
  const { temperatureK: t, pressurePa: p, relativeHumidity: h } = AIR
  const temperature = draws.normal(t.value, t.u)
  const celsius = temperature - 273.15
  // Vapour pressure over water by the Magnus formula (WMO-No. 8), ideal moist air.
  const vapour = draws.normal(h.value, h.u) * 611.2 * Math.exp((17.62 * celsius) / (243.12 + celsius))
  return {
    ...drawShared(draws, chassis, 'step-gauge'), gravityMs2: placeGravity(chassis),
    axles: { front: axle('front'), rear: axle('rear') }, rollStiffnessNmm: 26_000, weighingKg: 0.0004,
    repeatabilityMm: 0.04, driftMmPerStep: draws.between(-0.002, 0.002),
    loadsKg: Object.fromEntries(bags().map(({ id, kg }) => [id, kg + draws.between(-0.004, 0.004)])),
    restMm: { frontLeft: 6, frontRight: 6, rearLeft: 6, rearRight: 6 }, massKg: 1.5, cgHeightMm: draws.normal(25, 2),
    bareClAM2: { front: draws.between(0.001, 0.003), rear: draws.between(0.001, 0.003) },
    devices: [device('a'), device('b')], anemometerFactor: draws.normal(1, 0.02),
    densityKgM3: (draws.normal(p.value, p.u) - 0.378 * vapour) / (287.05 * temperature),
  }
}

const bags = () => (['front', 'rear'] as const).flatMap((end) => BAG_KG.map((kg, i) => ({ id: `${end}-${i + 1}`, end, kg })))

function weighed(bench: Bench, chassis: Chassis): Chassis {
  const loads: Load[] = bags().map(({ id }) => ({
    id, name: id, note: '',
    weighings: [1, 2].map((n) => ({
      id: `${id}-${n}`, at: bench.moment(), scaleId: 'kitchen-scale', massKg: bench.weigh(bench.truth.loadsKg[id]!),
      corrections: [], setAside: null,
    })),
  }))
  return { ...chassis, loads }
}

function rungs(): PlannedLoad[][] {
  return BAG_KG.map((_, i) => (['front', 'rear'] as const).map((end): PlannedLoad => ({
    loadId: `${end}-${i + 1}`, xMm: end === 'front' ? 0 : WHEELBASE_MM, yMm: 0, uPlaceMm: 2,
  })))
}
