/**
 * The inverse: a drop under airflow to the force that makes it, live, by the law of propagation
 * (JCGM 100:2008), and what may honestly be said of it. Errors that curve and reading share (the
 * gauge's scale, say) cancel as far as they are shared, by the names of their sources.
 */
import {
  boundedClaim, CLEAR_OF_GROUND, combine, COVERAGE_FACTOR, exact, minus, oneSided, standardUncertainty, statementOf,
  untold, type CensorReason, type Claim, type Nothing, type Uncertain,
} from '@core/uncertainty'
import { signOf } from './fitData'
import { isThin, neighbourForces } from './neighbours'
import { axleOfCurve } from './points'
import { forceOnCurve, movedTo, overCurves, readCurves, type ReadCurve } from './readCurves'
import type { Calibration, DropReading, ForceReading } from './types'

/** How a drop can be read: plainly, or only as a bound. Shared by propagation and Monte Carlo. */
export type ReadingKind =
  | { readonly kind: 'plain'; readonly sign: number; readonly extrapolated: boolean }
  | { readonly kind: 'atLeast' | 'atMost'; readonly sign: number; readonly dropMm: Uncertain; readonly reason: CensorReason }
  /** Too few loads to know the shape: the forces of the points next to it are all that is known. */
  | { readonly kind: 'neighbours'; readonly sign: number; readonly openAbove: boolean }
  | { readonly kind: 'between'; readonly sign: number; readonly reason: CensorReason }
  | { readonly kind: 'atLeastNothing'; readonly reason: CensorReason }
  | Nothing

/** A drop this many standard uncertainties below none is a rise. */
const SURELY = 3

/** Force at no drop, as a share of the range, below which nothing is held. */
const HELD_SHARE = 1e-3

/** Reads a force from a drop. Units N and mm; drops + down; see `DropReading`. */
export function readForce(calibration: Calibration, reading: DropReading): ForceReading {
  const curves = readCurves(calibration)
  return forceReading(calibration, curves, reading, readingKind(calibration, curves, reading))
}

/** What kind of reading it is. One-sided decisions are taken at 95 %. */
export function readingKind(calibration: Calibration, curves: readonly ReadCurve[], reading: DropReading): ReadingKind {
  const kind = kindOnCurve(calibration, curves, reading)
  if (kind.kind === 'untold' || kind.kind === 'atLeastNothing' || !isThin(calibration)) return kind
  return { kind: 'neighbours', sign: kind.sign, openAbove: kind.kind === 'atLeast' }
}

/** The same, where the curve's shape is taken as known. */
function kindOnCurve(calibration: Calibration, curves: readonly ReadCurve[], reading: DropReading): ReadingKind {
  const { dropMm, branch } = reading
  const sign = signOf(branch)
  const { rangeMm, leastMm } = calibration
  const margin = oneSided(dropMm)
  const held = heldReason(calibration, curves, sign)
  const still = held !== null && dropMm.value - margin <= 0
  const clearMm = clearOfGround(calibration, dropMm)
  if (reading.touched || dropMm.value > clearMm) {
    // The other end may be down while this one is still held: then it says no more than nothing.
    if (still) return { kind: 'atLeastNothing', reason: 'touchedGround' }
    // Called a bound for what it read and seen by nobody, it says no more than that it was not clear of the ground:
    // else of two alike the one that read more would be the bound, and the other a value that stays under it.
    const most = reading.touched ? calibration.touchMm?.value ?? Infinity : clearMm
    const at = Math.max(0, Math.min(dropMm.value, most, rangeMm))
    return { kind: 'atLeast', sign, dropMm: movedTo(dropMm, at), reason: 'touchedGround' }
  }
  // Among many readings of nothing one in twenty seems to rise: it has to be surely up.
  if (dropMm.value < -SURELY * standardUncertainty(dropMm)) return rising(calibration, dropMm, margin, sign)
  if (dropMm.value - margin > rangeMm) {
    return { kind: 'atLeast', sign, dropMm: movedTo(dropMm, rangeMm), reason: 'beyondCalibratedRange' }
  }
  if (still) return { kind: 'between', sign, reason: held }
  if (sign < 0 && clearFriction(curves)) {
    const force = overCurves(calibration, curves, (each) => forceOnCurve(each, dropMm, sign))
    if (force.value - oneSided(force) < 0) return { kind: 'between', sign, reason: 'withinFriction' }
  }
  return { kind: 'plain', sign, extrapolated: dropMm.value > rangeMm || dropMm.value < Math.min(0, leastMm) - margin }
}

/** Up to here a drop is clearly short of the one at which the tray touches, mm; Infinity where none is told. */
function clearOfGround({ touchMm }: Calibration, dropMm: Uncertain): number {
  return touchMm ? touchMm.value - oneSided(minus(touchMm, dropMm), CLEAR_OF_GROUND) : Infinity
}

/** A car that rises: told from readings of a lifted axle where there are any. */
function rising({ of, leastMm, leastN }: Calibration, dropMm: Uncertain, margin: number, sign: number): ReadingKind {
  if (!(leastN < 0)) {
    // A load beyond the other axle lifts this one.
    return untold('rising', { code: 'noneLifted', axle: axleOfCurve(of) })
  }
  // Away from rest in this direction friction holds the other way.
  if (dropMm.value + margin < leastMm) {
    return { kind: 'atMost', sign: -sign, dropMm: movedTo(dropMm, leastMm), reason: 'beyondCalibratedRange' }
  }
  return { kind: 'plain', sign: -sign, extrapolated: dropMm.value < leastMm }
}

/** Why nothing moves at first, if so: a threshold holds from whichever side it is reached, friction only going up. */
function heldReason(calibration: Calibration, curves: readonly ReadCurve[], sign: number): CensorReason | null {
  const top = curves[0]!
  const from = HELD_SHARE * calibration.rangeN
  const threshold = curves.reduce((sum, each) =>
    sum + (each.shape.startsWith('threshold') ? each.weight * each.theta[0]! : 0), 0)
  if (top.shape.startsWith('threshold') || threshold > 10 * from) return 'belowThreshold'
  return sign > 0 && clearFriction(curves) && top.frictionN.value > from ? 'withinFriction' : null
}

function clearFriction(curves: readonly ReadCurve[]): boolean {
  const { frictionN } = curves[0]!
  const assumed = frictionN.parts.some(({ source }) => source.group === 'friction')
  return frictionN.value > (assumed ? 0 : COVERAGE_FACTOR * standardUncertainty(frictionN))
}

/** The reading by propagation, once its kind is known. */
export function forceReading(
  calibration: Calibration, curves: readonly ReadCurve[], { dropMm }: DropReading, kind: ReadingKind,
): ForceReading {
  if (kind.kind === 'untold') {
    return censored(kind, null)
  }
  if (kind.kind === 'atLeastNothing') {
    return censored({ kind: 'atLeast', low: exact(0), reason: kind.reason }, exact(0))
  }
  const { sign } = kind
  if (kind.kind === 'neighbours') {
    const { lowN, highN } = neighbourForces(calibration, dropMm, sign)
    return censored(boundedClaim(lowN, kind.openAbove ? null : highN, 'tooFewLoads'), lowN)
  }
  const at = (drop: Uncertain) =>
    overCurves(calibration, curves, (each) => forceOnCurve(each, drop, sign))
  if (kind.kind === 'plain') {
    const forceN = at(dropMm)
    const claim: Claim = { kind: 'value', value: forceN, extrapolated: kind.extrapolated }
    return { forceN, boundN: null, claim, statement: statementOf(claim) }
  }
  if (kind.kind === 'between') {
    const highN = overCurves(calibration, curves, (each) => mostForce(each, dropMm, sign))
    return censored({ kind: 'between', low: exact(0), high: highN, reason: kind.reason }, null)
  }
  const boundN = at(kind.dropMm)
  if (kind.kind === 'atMost') return censored({ kind: 'atMost', high: boundN, reason: kind.reason }, boundN)
  return censored({ kind: 'atLeast', low: boundN, reason: kind.reason }, boundN)
}

const censored = (claim: Claim, boundN: Uncertain | null): ForceReading =>
  ({ forceN: null, boundN, claim, statement: statementOf(claim) })

/**
 * The most that may press while nothing clearly moves. At the knee the slope jumps, so the drop's
 * part is the chord up to what the reading may hide, and the parameters' part is that at its end.
 */
function mostForce(read: ReadCurve, dropMm: Uncertain, sign: number): Uncertain {
  const from = Math.max(dropMm.value, 0)
  const reach = Math.max(dropMm.value + oneSided(dropMm), from + 1e-6 * read.curve.span.rangeMm)
  const startN = forceOnCurve(read, exact(from), sign).value
  const end = forceOnCurve(read, exact(reach), sign)
  return combine(startN, [[end, 1], [dropMm, (end.value - startN) / (reach - from)]])
}
