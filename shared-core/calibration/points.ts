/** From a squat session to the points of the load-drop curve of an axle line or a corner. */
import { axleOf, chassisMotion, groundEffect, type CornerDrops } from '@core/chassis'
import { cellOf, CORNERS, type Chassis, type Corner, type Gauge, type SquatSession } from '@core/schema'
import { COVERAGE_FACTOR, standardUncertainty, type Uncertain } from '@core/uncertainty'
import { branchOf, forceOn, motions, stepForces, type StepForces, type UnweighedLoad } from './history'
import { implausibleReadings, type ImplausibleReading } from './plausible'
import { readingsByCell, repeatabilityOf } from './repeatability'
import type { Settling } from './settling'
import { dropBetween, shownAtStep, type GaugeContext } from './shown'
import type { CurveOf, CurvePoint, Repeatability } from './types'
import { cornerZeros, zeroSteps, type CornerZero } from './zero'

/** Drops at one step, as far as they were read. */
export interface StepDrops extends StepForces {
  readonly corners: CornerDrops
  readonly axles: { readonly front: Uncertain | null; readonly rear: Uncertain | null }
  readonly rollRad: Uncertain | null
  readonly twistMm: Uncertain | null
}

/** A squat session with everything turned into forces and drops; the base of every curve and remark. */
export interface SquatData {
  readonly session: SquatSession
  readonly chassis: Chassis
  readonly gauge: Gauge
  readonly repeatability: Repeatability
  readonly settled: boolean
  readonly steps: readonly StepDrops[]
  readonly zeros: Partial<Readonly<Record<Corner, CornerZero>>>
  readonly unweighed: readonly UnweighedLoad[]
  /** Readings that can't be; nothing is made of them. */
  readonly implausible: readonly ImplausibleReading[]
}

/**
 * Reads a session; null where its gauge is not in the profile.
 *
 * @param repeatability by default as given or learned from repeats
 * @param settling how the car comes to rest, to be told as an error of its own; by default not at all
 */
export function squatData(
  session: SquatSession, chassis: Chassis, repeatability?: Repeatability, settling: Settling | null = null,
): SquatData | null {
  const gauge = chassis.gauges.find(({ id }) => id === session.setup.gaugeId)
  if (!gauge) return null
  const { steps, unweighed } = stepForces(session, chassis)
  const implausible = implausibleReadings(session, chassis, gauge, steps)
  const out = new Set(implausible.map(({ reading }) => reading))
  const readings = out.size > 0 ? session.readings.filter((each) => !out.has(each)) : session.readings
  const context: GaugeContext = {
    sessionId: session.id, gauge, repeatability: repeatability ?? repeatabilityOf({ ...session, readings }, gauge),
    settling,
  }
  const places = readingsByCell(readings)
  const zeros = cornerZeros(session, places, context)
  return {
    session, chassis, gauge, repeatability: context.repeatability, settled: session.setup.settle !== 'none',
    zeros, unweighed, implausible,
    steps: steps.map((each) => ({ ...each, ...dropsAt(each, places, zeros, context, chassis) })),
  }
}

function dropsAt(
  { step, index }: StepForces, places: ReturnType<typeof readingsByCell>, zeros: SquatData['zeros'],
  context: GaugeContext, chassis: Chassis,
): Pick<StepDrops, 'corners' | 'axles' | 'rollRad' | 'twistMm'> {
  const corners: { -readonly [C in Corner]?: Uncertain } = {}
  for (const corner of CORNERS) {
    const shown = shownAtStep(places.get(cellOf(step.id, corner)) ?? [], context)
    const drop = shown && dropBetween(context.gauge, zeros[corner]?.at(index) ?? null, shown)
    if (drop) corners[corner] = drop
  }
  const { axles, rollRad, twistMm } = chassisMotion(chassis, corners)
  return { corners, axles, rollRad, twistMm }
}

/** Drop of an axle line or corner at one step, mm; null where the readings do not tell it. */
export const dropOf = ({ corners, axles }: StepDrops, of: CurveOf): Uncertain | null =>
  (of.kind === 'axle' ? axles[of.axle] : corners[of.corner] ?? null)

/** The axle a curve belongs to. */
export const axleOfCurve = (of: CurveOf) => (of.kind === 'axle' ? of.axle : axleOf(of.corner))

/**
 * Points of a curve, one per step that has both a force and a drop. Steps that measure the zero give
 * none: they made the zero. Points set aside stay in the list, not used. Where a tray on the ground takes
 * part of the load off the axle, its drop is only a bound; where it may press the axle, or nobody told
 * where it touches, the step says nothing of that axle.
 */
export function curvePoints(data: SquatData, of: CurveOf): CurvePoint[] {
  const { steps, session, chassis, settled } = data
  const zeros = new Set(zeroSteps(session))
  const forces = steps.map(({ forces: each }) => each && forceOn(each, of))
  const motion = motions(forces.map((each) => each && each.value), session.steps, settled)
  return steps.flatMap((each, i): CurvePoint[] => {
    const forceN = forces[i]
    const dropMm = dropOf(each, of)
    if (!forceN || !dropMm || zeros.has(i)) return []
    const { step } = each
    const ground = groundEffect(chassis, axleOfCurve(of), step.touched)
    const tells = ground === 'none' || ground === 'relieved'
    return [{
      stepId: step.id, ramp: step.ramp, branch: branchOf(motion[i]!),
      turnN: Number.isNaN(motion[i]!.turnN) ? null : motion[i]!.turnN,
      forceN, dropMm, residual: null, used: step.setAside === null && standardUncertainty(dropMm) > 0 && tells,
      touched: ground !== 'none',
    }]
  })
}

/** How many points are plain readings, and at how many different loads clearly above none. */
export function plainCounts(points: readonly CurvePoint[]): { readings: number; loads: number } {
  const plain = points.filter(({ used, touched }) => used && !touched)
  const loaded = plain.filter(({ forceN }) => forceN.value > COVERAGE_FACTOR * standardUncertainty(forceN))
  return { readings: plain.length, loads: new Set(loaded.map(({ forceN }) => forceN.value.toPrecision(3))).size }
}
