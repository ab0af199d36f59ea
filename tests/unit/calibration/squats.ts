/** Squat sessions for tests: a simulated bench whose errors can be switched off. */
import {
  readForceByMonteCarlo, squatData, type Calibration, type CurveOf, type DropReading, type StatedForce,
} from '@core/calibration'
import { curvePoints } from '@core/calibration/points'
import type { CurvePoint } from '@core/calibration/types'
import type { Chassis, SquatSession } from '@core/schema'
import type { MonteCarloOptions } from '@core/uncertainty'
import {
  Bench, Draws, ladder, placeGravity, type BenchTruth, type PlannedLoad, type PlannedStep, type TrueAxle,
} from '../../../seeds/simulator'
import { car, loadOf } from '../chassis/car'

export interface SquatSpec {
  readonly front?: TrueAxle
  readonly rear?: TrueAxle
  readonly settle?: SquatSession['setup']['settle']
  readonly ramps?: number
  readonly down?: boolean
  /** Standard deviation of a reading; 0 leaves only rounding to a hundredth of a step. */
  readonly noiseMm?: number
  readonly driftMmPerStep?: number
  readonly chassis?: Partial<Chassis>
  readonly steps?: readonly PlannedStep[]
  readonly readingsPerStep?: number
  readonly assumedFrictionN?: SquatSession['setup']['assumedFrictionN']
  readonly wished?: SquatSession['setup']['wished']
  readonly seed?: number
}

export const BAGS_KG = [0.1, 0.15, 0.2, 0.25, 0.3]
const STEEL: TrueAxle = { curve: { kind: 'linear', rateNPerMm: 2.5 }, frictionN: 0, touchMm: null }

/** One bag more on both axle lines together (midway) for every rung. */
export const midwayRungs = (): PlannedLoad[][] =>
  BAGS_KG.map((_, i) => [{ loadId: `bag-${i + 1}`, xMm: 130, yMm: 0, uPlaceMm: 1 }])

export const fineGauge = { resolutionMm: 0.001, scaleU: 0.002, zeroUMm: 0.02, repeatabilityUMm: 0.005 }

/** A session and its chassis, with masses, heights and places as true as the spec leaves them. */
export function squat(spec: SquatSpec = {}): { session: SquatSession; chassis: Chassis; bench: Bench } {
  const base = car({ loads: BAGS_KG.map((kg, i) => loadOf(`bag-${i + 1}`, [kg])), ...spec.chassis })
  const chassis: Chassis = spec.chassis?.gauges ? base : { ...base, gauges: [{ ...base.gauges[0]!, ...fineGauge }] }
  const truth: BenchTruth = {
    gravityMs2: placeGravity(chassis), wheelbaseMm: chassis.wheelbaseMm.value,
    axles: { front: spec.front ?? STEEL, rear: spec.rear ?? STEEL }, rollStiffnessNmm: 26_000, scaleGain: 1,
    weighingKg: 0, gaugeScale: 0, gaugeZeroMm: 0, repeatabilityMm: spec.noiseMm ?? 0,
    driftMmPerStep: spec.driftMmPerStep ?? 0,
    loadsKg: Object.fromEntries(BAGS_KG.map((kg, i) => [`bag-${i + 1}`, kg])),
    restMm: { frontLeft: 6, frontRight: 6, rearLeft: 6.5, rearRight: 6.5 }, massKg: 1.5, cgHeightMm: 24,
    bareClAM2: { front: 0, rear: 0 }, devices: [], anemometerFactor: 1, densityKgM3: 1.2,
  }
  const bench = new Bench(new Draws(spec.seed ?? 1), truth, chassis)
  const steps = (spec.steps ?? ladder(midwayRungs(), spec.ramps ?? 1, spec.down ?? true)).map((step) => ({
    ...step, placed: step.placed.map((each) => ({ ...each, uPlaceMm: 0 })),
  }))
  const session = bench.squat({
    id: 'squat', name: 'Squat', gaugeId: chassis.gauges[0]!.id, settle: spec.settle ?? 'tap', order: 'upDown', steps,
    readingsPerStep: spec.readingsPerStep ?? 1, assumedFrictionN: spec.assumedFrictionN ?? null,
    wished: spec.wished ?? null,
  })
  return { session, chassis, bench }
}

/** Points of a session's curve per axle line or corner. */
export function squatPoints(session: SquatSession, chassis: Chassis, of: CurveOf): CurvePoint[] {
  const data = squatData(session, chassis)
  return data ? curvePoints(data, of) : []
}

/** The stated force, without a pause between its blocks. */
export function stated(calibration: Calibration, reading: DropReading, options: MonteCarloOptions): StatedForce {
  const run = readForceByMonteCarlo(calibration, reading, options)
  for (;;) {
    const step = run.next()
    if (step.done) return step.value
  }
}
