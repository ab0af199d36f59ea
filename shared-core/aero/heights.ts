/**
 * Ride height against speed. At a speed the axle's drop d must satisfy f(q ClA(d)) = d with the
 * spring curve f: a fixed point. Walking along the curve by its force F gives the pressure that
 * holds it, q(F) = F / ClA(d(F)), without any search for a fixed point; where q stops rising the car
 * can be held no lower: it falls to the ground (or its stops) by itself. Tyres that grow with speed lift
 * the whole: the ground sees the drop less their growth.
 *
 * Front and rear are coupled only through their own ClA: what the other end's height does to this
 * end's load is not modelled.
 */
import {
  boundedClaim, combine, exact, halfWidth, highEnd, lowEnd, mapClaim, minus, over, plus, scaled, untold, valueClaim,
  type Claim, type Uncertain,
} from '@core/uncertainty'
import { dropOn, forceOn, growthAt, plainDropOn, reachOf, solveRising, stiffnessOn, type AxleModel } from './axleModel'
import { claAt, claSlope } from './speedLaw'
import type { HeightState, SpeedLaw } from './types'

const STEPS = 80

/** Where an axle line is at a dynamic pressure. */
export interface AxleHeight {
  readonly state: HeightState
  /** Drop of the axle line against its hubs from the unloaded zero, mm. */
  readonly dropMm: Claim
  /** Rise of the hubs by the growth of the tyres, mm; null where none is known. */
  readonly growthMm: Uncertain | null
  readonly forceN: Claim
  /** Dynamic pressure, Pa, at which it came down or fell; null while it floats, or where that is not told. */
  readonly downAtPa: Uncertain | null
}

/** A law's ClA end (low or high) as a law of its own: how bounds walk through the curve. */
type End = (claim: Claim) => Uncertain | null

const plainEnd: End = (claim) => (claim.kind === 'value' ? claim.value : null)

/** Solves an axle at a dynamic pressure. */
export function heightAt(model: AxleModel, pressurePa: Uncertain): AxleHeight {
  const { law } = model
  const claim = law.claM2.claim
  const growthMm = growthAt(model, pressurePa)
  if (claim.kind === 'untold') return { state: 'untold', dropMm: claim, forceN: claim, growthMm, downAtPa: null }
  if (claim.kind === 'value') return plainHeight(model, pressurePa, plainEnd)
  const ends = ([lowEnd, highEnd] as const).map((end) => (end(claim) ? plainHeight(model, pressurePa, end) : null))
  const [low, high] = ends
  const bounds = (pick: (height: AxleHeight) => Claim): Claim => boundedClaim(
    low ? lowEnd(pick(low)) : null, high ? highEnd(pick(high)) : null, claim.reason,
  )
  return {
    state: low?.state === 'touching' || low?.state === 'unstable' ? low.state : 'untold',
    dropMm: bounds(({ dropMm }) => dropMm), forceN: bounds(({ forceN }) => forceN), growthMm, downAtPa: null,
  }
}

function plainHeight(model: AxleModel, pressurePa: Uncertain, end: End): AxleHeight {
  const { curve, law } = model
  const growthMm = growthAt(model, pressurePa)
  const risen = growthMm?.value ?? 0
  const claOf = claThrough(model, end)
  const q = pressurePa.value
  if (claOf(0) * q < 0) return lifting(law, pressurePa, growthMm, end)
  const walk = walkOf(model, end)
  if (walk.turn && q > walk.turn.pressurePa) return fallen(model, walk, 'unstable', growthMm, end)
  if (walk.touch && q >= walk.touch.pressurePa) return fallen(model, walk, 'touching', growthMm, end)
  const top = walk.turn?.forceN ?? walk.touch?.forceN ?? reachOf(model)
  const force = law.height
    ? solveRising((x) => x / claOf(plainDropOn(model, x) - risen), q, 0, top) : q * claOf(0)
  const at = dropOn(model, force)
  const cla = end(claAt(law, at.value - risen))!
  const outside = claAt(law, at.value - risen)
  const extrapolated = (outside.kind === 'value' && outside.extrapolated) || at.value > curve.rangeMm
  const stiffness = stiffnessOn(model, Math.max(at.value, 1e-3))
  const slope = claSlope(law)
  // F = q ClA(d - g), d = f(F): dF (1 - q ClA' / k) = q dClA + ClA dq + q ClA' (df - dg)
  const gain = 1 / (1 - (q * slope) / stiffness)
  const forceN = combine(force, [
    [cla, gain * q], [pressurePa, gain * cla.value], [at, gain * q * slope], [growthMm ?? exact(0), -gain * q * slope],
  ])
  const moves = at.value > 1e-9 ? 1 / stiffness : 0
  const dropMm = combine(at.value, [[at, 1], [forceN, moves]])
  return {
    state: 'free', forceN: valueClaim(forceN, extrapolated), growthMm, downAtPa: null,
    dropMm: moves > 0 ? valueClaim(dropMm, extrapolated) : heldDrop(model, forceN),
  }
}

/** Nothing moves yet: the drop is none, or what the force's upper end would make it. */
function heldDrop(model: AxleModel, forceN: Uncertain): Claim {
  const most = forceN.value + 2 * Math.sqrt(forceN.parts.reduce((sum, { contribution }) => sum + contribution ** 2, 0))
  return { kind: 'between', low: exact(0), high: dropOn(model, most), reason: 'belowThreshold' }
}

function lifting(law: SpeedLaw, pressurePa: Uncertain, growthMm: Uncertain | null, end: End): AxleHeight {
  const cla = end(law.claM2.claim)!
  const forceN = combine(cla.value * pressurePa.value, [[cla, pressurePa.value], [pressurePa, cla.value]])
  return {
    state: 'free', forceN: valueClaim(forceN), growthMm, downAtPa: null,
    dropMm: { kind: 'atMost', high: exact(0), reason: 'rising' },
  }
}

/** Down on the tray: the force is at least what brought it there. */
function fallen(
  model: AxleModel, walk: CurveWalk, state: 'touching' | 'unstable', growthMm: Uncertain | null, end: End,
): AxleHeight {
  const touch = model.curve.touchMm
  const { turn } = walk
  const reason = state === 'touching' ? 'touchedGround' as const : 'noFixedPoint' as const
  const dropMm: Claim = touch
    ? { kind: 'atLeast', low: growthMm ? plus(touch, growthMm) : touch, reason }
    : untold('noFixedPoint', { code: 'noHeight' })
  if (state === 'touching') {
    const cla = end(claAt(model.law, touch!.value))
    const ratio = cla && touchRatio(model, cla)
    const downAtPa = ratio ? over(ratio.upper, ratio.lower) : null
    return { state, dropMm, growthMm, downAtPa, forceN: { kind: 'atLeast', low: touchForce(model, downAtPa), reason } }
  }
  const cla = end(claAt(model.law, turn!.dropMm))
  return {
    state, dropMm, growthMm, downAtPa: cla && over(turn!.forceAtTurn, cla),
    forceN: { kind: 'atLeast', low: turn!.forceAtTurn, reason },
  }
}

/** Force on the springs as the tray comes down: at its own drop, and what the tyres have grown by then. */
function touchForce(model: AxleModel, downAtPa: Uncertain | null): Uncertain {
  const touch = model.curve.touchMm!
  const growth = downAtPa && growthAt(model, downAtPa)
  return forceOn(model, growth ? plus(touch, growth) : touch)
}

/**
 * Dynamic pressure at which the tray touches, as a ratio, so that Fieller's interval serves: with the
 * stiffness k and growth c per pressure there, F(touch + c q) = q ClA gives q = (F - k c q0) / (ClA - k c),
 * all taken at the solution q0. Null where it is not reached: the tyres outgrow the drop.
 */
export function touchRatio(model: AxleModel, claM2: Uncertain): { upper: Uncertain; lower: Uncertain } | null {
  const touch = model.curve.touchMm!
  const { growthMmPerPa } = model
  if (!growthMmPerPa || !(claM2.value > 0)) return { upper: forceOn(model, touch), lower: claM2 }
  const reached = touchOn(model, () => claM2.value)
  if (!reached) return null
  const risen = growthMmPerPa.value * reached.pressurePa
  const forceN = forceOn(model, combine(touch.value + risen, [[touch, 1]]))
  const stiffness = stiffnessOn(model, touch.value + risen)
  return {
    upper: combine(forceN.value - stiffness * risen, [[forceN, 1]]),
    lower: minus(claM2, scaled(growthMmPerPa, stiffness)),
  }
}

export interface CurveWalk {
  /** Force and pressure at touching; null where it is not known when it touches, or it never does. */
  readonly touch: { readonly forceN: number; readonly pressurePa: number } | null
  /** Where the pressure that holds the car stops rising, if before touching. */
  readonly turn: {
    readonly forceN: number
    /** Height at the turn against the ground, mm. */
    readonly dropMm: number
    readonly pressurePa: number
    readonly forceAtTurn: Uncertain
  } | null
}

type ClaOf = (dropMm: number) => number
const SETTLED = 1e-12

/** Pressure that holds an axle at a force, Pa: q = F / ClA(d(F) - c q); and the drop against the ground there. */
function holding(model: AxleModel, claOf: ClaOf, forceN: number): { pressurePa: number; dropMm: number } {
  const drop = plainDropOn(model, forceN)
  const growth = model.growthMmPerPa?.value ?? 0
  let pressurePa = forceN / claOf(drop)
  for (let i = 0; growth > 0 && i < 60; i++) {
    const next = forceN / claOf(drop - growth * pressurePa)
    if (Math.abs(next - pressurePa) <= SETTLED * Math.abs(next)) break
    pressurePa = next
  }
  return { pressurePa, dropMm: drop - growth * pressurePa }
}

/** Where the drop against the ground first reaches the tray's; null where it does not within reach. */
function touchOn(model: AxleModel, claOf: ClaOf): CurveWalk['touch'] {
  const touch = model.curve.touchMm
  if (!touch) return null
  if (!model.growthMmPerPa) {
    const forceN = forceOn(model, touch).value
    return { forceN, pressurePa: forceN / claOf(touch.value) }
  }
  const top = reachOf(model)
  const down = (forceN: number): boolean => holding(model, claOf, forceN).dropMm >= touch.value
  const first = Array.from({ length: STEPS }, (_, i) => (top * (i + 1)) / STEPS).find(down)
  if (first === undefined) return null
  const forceN = solveRising((x) => holding(model, claOf, x).dropMm, touch.value, first - top / STEPS, first)
  return { forceN, pressurePa: holding(model, claOf, forceN).pressurePa }
}

const claThrough = ({ law }: AxleModel, end: End): ClaOf => (dropMm) => end(claAt(law, dropMm))?.value ?? NaN

/** Walks do not depend on the pressure: one of each model and end serves every speed. */
const walked = new WeakMap<AxleModel, Map<End, CurveWalk>>()

function walkOf(model: AxleModel, end: End): CurveWalk {
  const known = walked.get(model) ?? new Map<End, CurveWalk>()
  walked.set(model, known)
  const walk = known.get(end) ?? walkCurve(model, claThrough(model, end))
  known.set(end, walk)
  return walk
}

/** Walks the curve from rest to touching (or to its end) and looks where the holding pressure turns. */
export function walkCurve(model: AxleModel, claOf: ClaOf): CurveWalk {
  const touch = touchOn(model, claOf)
  const last = touch?.forceN ?? model.curve.rangeN * (model.other?.ratio.value ?? 1)
  const pressure = (force: number) => holding(model, claOf, force).pressurePa
  let best = 0
  for (let i = 1; i <= STEPS; i++) {
    const force = (last * i) / STEPS
    const q = pressure(force)
    // Where ClA has fallen to nothing or below, any pressure is held.
    if (!(q > 0)) return { touch: touch && { ...touch, pressurePa: Infinity }, turn: null }
    if (q < best * (1 - 1e-9)) return { touch: null, turn: turnNear(model, claOf, last, i) }
    best = q
  }
  return { touch: touch && { ...touch, pressurePa: best }, turn: null }
}

function turnNear(model: AxleModel, claOf: ClaOf, last: number, step: number): NonNullable<CurveWalk['turn']> {
  const pressure = (force: number) => holding(model, claOf, force).pressurePa
  let low = (last * Math.max(0, step - 2)) / STEPS
  let high = (last * step) / STEPS
  for (let i = 0; i < 60; i++) {
    const [a, b] = [low + (high - low) / 3, high - (high - low) / 3]
    if (pressure(a) < pressure(b)) low = a
    else high = b
  }
  const forceN = (low + high) / 2
  const at = dropOn(model, forceN)
  const { pressurePa, dropMm } = holding(model, claOf, forceN)
  return { forceN, dropMm, pressurePa, forceAtTurn: combine(forceN, [[at, -stiffnessOn(model, at.value)]]) }
}

/**
 * What may be stated of a clearance. There is none below the ground: where the interval reaches it, the tray may lie
 * there, and what is told is "between" the ground and the upper end.
 */
export function aboveGround(clearance: Claim): Claim {
  const low = lowEnd(clearance)
  const high = highEnd(clearance)
  if (!low || !high || low.value - halfWidth(low) >= 0) return clearance
  return { kind: 'between', low: exact(0), high, reason: 'mayTouch' }
}

/** What is left under the tray at an axle line, mm; null where the touching drop is not known. */
export function clearanceOf({ curve }: AxleModel, { dropMm, growthMm, state }: AxleHeight): Claim | null {
  const touch = curve.touchMm
  if (!touch) return null
  if (state === 'touching' || state === 'unstable') {
    return { kind: 'atMost', high: exact(0), reason: state === 'touching' ? 'touchedGround' : 'noFixedPoint' }
  }
  const room = growthMm ? plus(touch, growthMm) : touch
  return mapClaim(dropMm, 'falls', (drop) => minus(room, drop))
}
