/**
 * Ride height against speed. At a speed the axle's drop d must satisfy f(q ClA(d)) = d with the
 * spring curve f: a fixed point. Walking along the curve by its force F gives the pressure that
 * holds it, q(F) = F / ClA(d(F)), without any search for a fixed point; where q stops rising the car
 * can be held no lower: it falls to the ground (or its stops) by itself.
 *
 * Front and rear are coupled only through their own ClA: what the other end's height does to this
 * end's load is not modelled.
 */
import { dropAt, stiffnessAt, type Calibration } from '@core/calibration'
import {
  boundedClaim, combine, exact, highEnd, lowEnd, mapClaim, over, untold, valueClaim, type Claim,
  type Uncertain,
} from '@core/uncertainty'
import { claAt, claSlope } from './speedLaw'
import type { HeightState, SpeedLaw } from './types'

const STEPS = 80

/** The axle's curve and law at work together. */
export interface AxleModel { readonly curve: Calibration; readonly law: SpeedLaw }

/** Force at a drop on the settled curve, N, with its uncertainty: the inverse of the curve as drawn. */
export function forceAt(curve: Calibration, dropMm: Uncertain): Uncertain {
  const forceN = solveRising((force) => dropAt(curve, force).value, dropMm.value, 0, reachOf(curve))
  const stiffness = stiffnessAt(curve, dropMm.value)
  const own = dropAt(curve, forceN)
  return combine(forceN, [[own, -stiffness.value], [dropMm, stiffness.value]])
}

/** Forces up to which the curve is walked: past its range only as far as touching may need. */
const reachOf = ({ rangeN, rangeMm, touchMm }: Calibration): number =>
  rangeN * Math.max(1, touchMm ? (2 * touchMm.value) / rangeMm : 1) * 2

/** The x from low to high at which a rising function has this value. */
function solveRising(of: (x: number) => number, aim: number, low: number, high: number): number {
  let [below, above] = [low, high]
  for (let i = 0; i < 80 && above - below > 1e-12 * high; i++) {
    const middle = (below + above) / 2
    if (of(middle) < aim) below = middle
    else above = middle
  }
  return (below + above) / 2
}

/** Where an axle line is at a dynamic pressure. */
export interface AxleHeight {
  readonly state: HeightState
  /** Drop from the unloaded zero, mm. */
  readonly dropMm: Claim
  readonly forceN: Claim
  /** Dynamic pressure, Pa, at which it came down or fell; null while it floats, or where that is not told. */
  readonly downAtPa: Uncertain | null
}

/** A law's ClA end (low or high) as a law of its own: how bounds walk through the curve. */
type End = (claim: Claim) => Uncertain | null

/** Solves an axle at a dynamic pressure. */
export function heightAt(model: AxleModel, pressurePa: Uncertain): AxleHeight {
  const { law } = model
  const claim = law.claM2.claim
  if (claim.kind === 'untold') return { state: 'untold', dropMm: claim, forceN: claim, downAtPa: null }
  if (claim.kind === 'value') {
    return plainHeight(model, pressurePa, (each) => (each.kind === 'value' ? each.value : null))
  }
  const ends = ([lowEnd, highEnd] as const).map((end) => (end(claim) ? plainHeight(model, pressurePa, end) : null))
  const [low, high] = ends
  const bounds = (pick: (height: AxleHeight) => Claim): Claim => boundedClaim(
    low ? lowEnd(pick(low)) : null, high ? highEnd(pick(high)) : null, claim.reason,
  )
  return {
    state: low?.state === 'touching' || low?.state === 'unstable' ? low.state : 'untold',
    dropMm: bounds(({ dropMm }) => dropMm), forceN: bounds(({ forceN }) => forceN), downAtPa: null,
  }
}

function plainHeight({ curve, law }: AxleModel, pressurePa: Uncertain, end: End): AxleHeight {
  const claOf = (dropMm: number): number => end(claAt(law, dropMm))?.value ?? NaN
  const q = pressurePa.value
  if (claOf(0) * q < 0) return lifting(law, pressurePa, end)
  const walk = walkCurve(curve, claOf)
  const top = walk.touchForceN ?? Infinity
  if (walk.turn && q > walk.turn.pressurePa) return fallen({ curve, law }, walk, 'unstable', end)
  if (Number.isFinite(top) && q >= walk.touchPressurePa!) return fallen({ curve, law }, walk, 'touching', end)
  const force = law.height
    ? solveRising((x) => x / claOf(dropAt(curve, x).value), q, 0, walk.turn?.forceN ?? Math.min(top, reachOf(curve)))
    : q * claOf(0)
  const at = dropAt(curve, force)
  const cla = end(claAt(law, at.value))!
  const outside = claAt(law, at.value)
  const extrapolated = (outside.kind === 'value' && outside.extrapolated) || at.value > curve.rangeMm
  const stiffness = stiffnessAt(curve, Math.max(at.value, 1e-3)).value
  const slope = claSlope(law)
  // F = q ClA(d), d = f(F): dF (1 - q ClA' / k) = q dClA + ClA dq + q ClA' df
  const gain = 1 / (1 - (q * slope) / stiffness)
  const forceN = combine(force, [[cla, gain * q], [pressurePa, gain * cla.value], [at, gain * q * slope]])
  const moves = at.value > 1e-9 ? 1 / stiffness : 0
  const dropMm = combine(at.value, [[at, 1], [forceN, moves]])
  return {
    state: 'free', forceN: valueClaim(forceN, extrapolated), downAtPa: null,
    dropMm: moves > 0 ? valueClaim(dropMm, extrapolated) : heldDrop(curve, forceN),
  }
}

/** Nothing moves yet: the drop is none, or what the force's upper end would make it. */
function heldDrop(curve: Calibration, forceN: Uncertain): Claim {
  const most = forceN.value + 2 * Math.sqrt(forceN.parts.reduce((sum, { contribution }) => sum + contribution ** 2, 0))
  return { kind: 'between', low: exact(0), high: dropAt(curve, most), reason: 'belowThreshold' }
}

function lifting(law: SpeedLaw, pressurePa: Uncertain, end: End): AxleHeight {
  const cla = end(law.claM2.claim)!
  const forceN = combine(cla.value * pressurePa.value, [[cla, pressurePa.value], [pressurePa, cla.value]])
  return {
    state: 'free', forceN: valueClaim(forceN), downAtPa: null,
    dropMm: { kind: 'atMost', high: exact(0), reason: 'rising' },
  }
}

/** Down on the tray: the force is at least what brought it there. */
function fallen({ curve, law }: AxleModel, walk: CurveWalk, state: 'touching' | 'unstable', end: End): AxleHeight {
  const touch = curve.touchMm
  const { turn } = walk
  const pressure = (forceN: Uncertain, dropMm: number): Uncertain | null => {
    const cla = end(claAt(law, dropMm))
    return cla && over(forceN, cla)
  }
  if (!touch) {
    const none = untold('noFixedPoint', { code: 'noHeight' })
    return {
      state, dropMm: none, forceN: { kind: 'atLeast', low: turn!.forceAtTurn, reason: 'noFixedPoint' },
      downAtPa: pressure(turn!.forceAtTurn, turn!.dropMm),
    }
  }
  const reason = state === 'touching' ? 'touchedGround' as const : 'noFixedPoint' as const
  const low = state === 'touching' ? forceAt(curve, touch) : turn!.forceAtTurn
  return {
    state, forceN: { kind: 'atLeast', low, reason }, dropMm: { kind: 'atLeast', low: touch, reason },
    downAtPa: pressure(low, state === 'touching' ? touch.value : turn!.dropMm),
  }
}

export interface CurveWalk {
  /** Force and pressure at touching; null where it is not known when it touches. */
  readonly touchForceN: number | null
  readonly touchPressurePa: number | null
  /** Where the pressure that holds the car stops rising, if before touching. */
  readonly turn: {
    readonly forceN: number
    readonly dropMm: number
    readonly pressurePa: number
    readonly forceAtTurn: Uncertain
  } | null
}

/** Walks the curve from rest to touching (or to its end) and looks where the holding pressure turns. */
export function walkCurve(curve: Calibration, claOf: (dropMm: number) => number): CurveWalk {
  const touch = curve.touchMm
  const touchForceN = touch ? forceAt(curve, touch).value : null
  const last = touchForceN ?? curve.rangeN
  const pressure = (force: number) => force / claOf(dropAt(curve, force).value)
  let best = 0
  for (let i = 1; i <= STEPS; i++) {
    const force = (last * i) / STEPS
    const q = pressure(force)
    // Where ClA has fallen to nothing or below, any pressure is held.
    if (!(q > 0)) return { touchForceN, touchPressurePa: touchForceN === null ? null : Infinity, turn: null }
    if (q < best * (1 - 1e-9)) return { touchForceN, touchPressurePa: null, turn: turnNear(curve, pressure, last, i) }
    best = q
  }
  return { touchForceN, touchPressurePa: touchForceN === null ? null : best, turn: null }
}

function turnNear(
  curve: Calibration, pressure: (force: number) => number, last: number, step: number,
): NonNullable<CurveWalk['turn']> {
  let low = (last * Math.max(0, step - 2)) / STEPS
  let high = (last * step) / STEPS
  for (let i = 0; i < 60; i++) {
    const [a, b] = [low + (high - low) / 3, high - (high - low) / 3]
    if (pressure(a) < pressure(b)) low = a
    else high = b
  }
  const forceN = (low + high) / 2
  const at = dropAt(curve, forceN)
  const stiffness = stiffnessAt(curve, at.value).value
  return { forceN, dropMm: at.value, pressurePa: pressure(forceN), forceAtTurn: combine(forceN, [[at, -stiffness]]) }
}

/** What is left under the tray at an axle line, mm; null where the touching drop is not known. */
export function clearanceOf({ curve }: AxleModel, { dropMm, state }: AxleHeight): Claim | null {
  const touch = curve.touchMm
  if (!touch) return null
  if (state === 'touching' || state === 'unstable') {
    return { kind: 'atMost', high: exact(0), reason: state === 'touching' ? 'touchedGround' : 'noFixedPoint' }
  }
  return mapClaim(dropMm, 'falls', (drop) => combine(touch.value - drop.value, [[touch, 1], [drop, -1]]))
}
