/** Six worlds of the coverage study: a suspension, a bench and how the squat test is walked. */
import { SCHEMA_VERSION, type Chassis, type SquatSession } from '@core/schema'
import {
  Bench, drawShared, Draws, ladder, placeGravity, touchForce, trueDrop, type BenchTruth, type PlannedLoad,
  type TrueAxle, type TrueCurve,
} from '../../../seeds/simulator'

export interface World {
  readonly name: string
  readonly about: string
  /** The suspension of this session. */
  readonly axle: (draws: Draws) => TrueAxle
  readonly settle: SquatSession['setup']['settle']
  readonly ramps: number
  readonly gainU: number
  readonly resolutionMm: number
  readonly repeatabilityMm: number
  /** Null: the app has to learn it from repeats. */
  readonly toldRepeatabilityMm: number | null
  readonly scaleU: number
}

const plain = { gainU: 0.005, resolutionMm: 0.05, repeatabilityMm: 0.04, toldRepeatabilityMm: 0.04, scaleU: 0.005 }

/** Touches a little beyond the largest load's drop, or well before it in one session out of four. */
function axleOf(draws: Draws, curve: TrueCurve, frictionN: number): TrueAxle {
  const end = trueDrop(curve, RANGE_N)
  const share = draws.even() < 0.25 ? draws.between(0.8, 0.95) : draws.between(1.02, 1.2)
  return { curve, frictionN, touchMm: end * share }
}

/** Force of the largest load, about, N. */
export const RANGE_N = 9.4

export const WORLDS: readonly World[] = [
  {
    ...plain, name: 'linear', about: 'straight, car tapped before each reading', settle: 'tap', ramps: 1,
    axle: (draws) => axleOf(draws, { kind: 'linear', rateNPerMm: draws.between(2, 3.5) }, 0.1),
  },
  {
    ...plain, name: 'progressive', about: 'stiffening, friction from both branches, repeatability learned from repeats',
    settle: 'none', ramps: 3, toldRepeatabilityMm: null,
    axle: (draws) => axleOf(draws, {
      kind: 'progressive', rateNPerMm: draws.between(1.4, 2.2), growthNPerMm2: draws.between(0.15, 0.35),
    }, draws.between(0.1, 0.3)),
  },
  {
    ...plain, name: 'threshold', about: 'droop preload, car bounced before each reading', settle: 'bounce', ramps: 2,
    axle: (draws) => axleOf(draws, {
      kind: 'threshold', thresholdN: draws.between(0.8, 2), rateNPerMm: draws.between(1.8, 3),
    }, 0.1),
  },
  {
    ...plain, name: 'bump stop', about: 'two slopes with a knee, friction from both branches', settle: 'none', ramps: 2,
    axle: (draws) => axleOf(draws, {
      kind: 'stop', rateNPerMm: draws.between(1.6, 2.4), kneeMm: draws.between(1.4, 2.2),
      stopRateNPerMm: draws.between(5, 9),
    }, draws.between(0.1, 0.3)),
  },
  {
    ...plain, name: 'strong friction', about: 'friction a tenth of the range, repeatability learned from repeats',
    settle: 'none', ramps: 3, toldRepeatabilityMm: null,
    axle: (draws) => axleOf(draws, { kind: 'linear', rateNPerMm: draws.between(2, 3) }, draws.between(0.7, 1.2)),
  },
  {
    ...plain, name: 'shared gain', about: 'scale gain of 3 % unchecked, fine gauge: the gain is nearly all there is',
    settle: 'tap', ramps: 2, gainU: 0.03, resolutionMm: 0.01, repeatabilityMm: 0.01, toldRepeatabilityMm: 0.01,
    scaleU: 0.001,
    axle: (draws) => axleOf(draws, { kind: 'linear', rateNPerMm: draws.between(2, 3.5) }, 0.02),
  },
]

const RUNGS_KG = [0.06, 0.1, 0.12, 0.14, 0.16, 0.18, 0.2]
const GAUGE_ID = 'gauge'

/** A car whose front axle is under study; the rear is loaded alike. */
function chassisOf(world: World, touchMm: number): Chassis {
  return {
    schemaVersion: SCHEMA_VERSION, id: 'study', revision: 1, name: 'Study', note: '', createdAt: '2031-01-01T00:00:00.000Z',
    wheelbaseMm: { value: 260, u: 0.5 }, trackMm: { front: 160, rear: 160 }, massKg: null, cornerMassesKg: null,
    cgHeightMm: null,
    stations: {
      frontLeft: { xMm: 0, yMm: -80 }, frontRight: { xMm: 0, yMm: 80 },
      rearLeft: { xMm: 260, yMm: -80 }, rearRight: { xMm: 260, yMm: 80 },
    },
    trayTouchMm: { front: { value: touchMm, u: TOUCH_U_MM }, rear: null }, tyres: null,
    place: { latitudeDeg: 48, heightM: 300 },
    scales: [{ id: 'scale', name: 'Scale', resolutionKg: 0.001, gainU: world.gainU, checks: [] }],
    gauges: [{
      id: GAUGE_ID, name: 'Gauge', reads: 'height', resolutionMm: world.resolutionMm, scaleU: world.scaleU, zeroUMm: 0.05,
      repeatabilityUMm: world.toldRepeatabilityMm,
    }],
    anemometers: [], loads: [], configurations: [], springs: [],
  }
}

const TOUCH_U_MM = 0.03

/** One session of a world: the documents, and the bench to read further drops from. */
export interface StudySession {
  readonly chassis: Chassis
  readonly session: SquatSession
  readonly bench: Bench
  readonly draws: Draws
  readonly touchN: number
}

export function studySession(world: World, seed: number): StudySession {
  const draws = new Draws(seed)
  const axle = world.axle(draws)
  const bare = chassisOf(world, axle.touchMm! + draws.normal(0, TOUCH_U_MM))
  const ids = RUNGS_KG.map((_, i) => `bag-${i + 1}`)
  const truth: BenchTruth = {
    ...drawShared(draws, bare, GAUGE_ID), gravityMs2: placeGravity(bare) + draws.normal(0, 5e-4),
    axles: { front: axle, rear: { ...axle, touchMm: null } }, rollStiffnessNmm: 26_000, weighingKg: 0.0003,
    repeatabilityMm: world.repeatabilityMm, driftMmPerStep: 0,
    loadsKg: Object.fromEntries(ids.map((id, i) => [id, RUNGS_KG[i]! + draws.between(-0.005, 0.005)])),
    restMm: { frontLeft: draws.between(5, 7), frontRight: draws.between(5, 7), rearLeft: 6, rearRight: 6 },
    massKg: 1.5, cgHeightMm: 24, bareClAM2: { front: 0, rear: 0 }, devices: [], anemometerFactor: 1, densityKgM3: 1.2,
  }
  const scaleBench = new Bench(draws, truth, bare)
  const chassis: Chassis = {
    ...bare,
    loads: ids.map((id) => ({
      id, name: id, note: '',
      weighings: [1, 2].map((n) => ({
        id: `${id}-${n}`, at: bare.createdAt, scaleId: 'scale', massKg: scaleBench.weigh(truth.loadsKg[id]!),
        corrections: [], setAside: null,
      })),
    })),
  }
  const bench = new Bench(draws, truth, chassis)
  const rungs = ids.map((loadId): PlannedLoad[] => [{ loadId, xMm: 0, yMm: 0, uPlaceMm: 2 }])
  const session = bench.squat({
    id: 'squat', name: 'Study', gaugeId: GAUGE_ID, settle: world.settle, order: 'upDown',
    steps: ladder(rungs, world.ramps, true),
  })
  return { chassis, session, bench, draws, touchN: touchForce(axle)! }
}
