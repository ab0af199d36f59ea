/**
 * Touch-down: the speed at which an axle's tray end reaches the ground, V^2 = F_touch / (1/2 rho ClA), the
 * growth of the tyres in both, with Fieller's interval for the ratio; and the car's, whichever end comes first.
 */
import type { RunResult } from '@core/airflow'
import { perAxleOf } from '@core/chassis'
import { remark, type Remark } from '@core/remark'
import { AXLES, type Axle } from '@core/schema'
import {
  boundedClaim, budget, combine, COVERAGE_FACTOR, COVERAGE_PROBABILITY, effectiveDof, exact, FAR_APART, highEnd,
  isCensored, lowEnd, minus, monteCarloNow, monteCarloStatement, over, ratioIntervalOf, scaled, standardUncertainty,
  statementOf, studentCdf, times, trialsOf, untold, upperBound, type Claim, type Statement, type Uncertain,
  type Untold,
} from '@core/uncertainty'
import { dropOn, forceOn, growthAt, reachOf, stiffnessOn, type AxleModel } from './axleModel'
import { touchRatio, walkCurve } from './heights'
import { claAt } from './speedLaw'
import type { TouchDown, TouchDowns } from './types'

const never = (axle: Axle): TouchDown =>
  ({ kind: 'never', divergesMs: null, speedMs: untold('rising', { code: 'notPressed', axle }) })

const outgrown = (axle: Axle): TouchDown =>
  ({ kind: 'never', divergesMs: null, speedMs: untold('missing', { code: 'tyresOutgrow', axle }) })

/** Touch-down of one axle with what later needs: its claim in m/s. */
export interface AxleTouchDown { readonly touch: TouchDown; readonly claim: Claim | null }

const nothing = (because: Untold): AxleTouchDown =>
  ({ touch: { kind: 'untold', speedMs: untold('missing', because), divergesMs: null }, claim: null })

/** Speed at which one axle touches in air of a density. */
export function axleTouchDown(axle: Axle, model: AxleModel | null, densityKgM3: Uncertain): AxleTouchDown {
  if (!model) return nothing({ code: 'noCurve', axle })
  const { curve, law } = model
  const touch = curve.touchMm
  if (!touch) return nothing({ code: 'noTouchDrop', axle })
  const cla = claAt(law, touch.value)
  if (cla.kind === 'untold') return { touch: { kind: 'untold', speedMs: cla, divergesMs: null }, claim: null }
  if (isCensored(cla)) return boundedTouch(model, cla, densityKgM3)
  if (cla.kind !== 'value') return nothing({ code: 'noLoad' })
  const walk = walkCurve(model, (drop) => highEnd(claAt(law, drop))?.value ?? NaN)
  if (walk.turn) return diverging(walk.turn, law, densityKgM3)
  const ratio = touchRatio(model, cla.value)
  if (!ratio) return notReached(axle, model, cla.value, densityKgM3)
  const reachMm = touch.value + (walk.touch && growthAt(model, exact(walk.touch.pressurePa))?.value || 0)
  return touching(axle, ratio.upper, perSquare(ratio.lower, densityKgM3), cla.extrapolated || reachMm > curve.rangeMm)
}

/** Where the tyres grow as fast as the axle comes down, or faster: never, or not below a speed. */
function notReached(axle: Axle, model: AxleModel, claM2: Uncertain, densityKgM3: Uncertain): AxleTouchDown {
  const touch = model.curve.touchMm!
  const stiffness = Math.max(...[touch.value, dropOn(model, reachOf(model)).value].map((mm) => stiffnessOn(model, mm)))
  const perPressure = minus(claM2, scaled(model.growthMmPerPa ?? exact(0), stiffness))
  if (perPressure.value + COVERAGE_FACTOR * standardUncertainty(perPressure) <= 0) {
    return { touch: outgrown(axle), claim: null }
  }
  if (perPressure.value > 0) return nothing({ code: 'tyresOutgrow', axle })
  return touching(axle, forceOn(model, touch), perSquare(perPressure, densityKgM3), true)
}

/** Of a force per pressure, m^2, that per squared speed, N/(m/s)^2. */
const perSquare = (perPressure: Uncertain, density: Uncertain): Uncertain => scaled(times(perPressure, density), 0.5)

function touching(axle: Axle, forceN: Uncertain, divisor: Uncertain, extrapolated: boolean): AxleTouchDown {
  if (divisor.value + COVERAGE_FACTOR * standardUncertainty(divisor) <= 0) return { touch: never(axle), claim: null }
  const ends = ratioIntervalOf(forceN, divisor)
  if (ends.kind !== 'bounded' || divisor.value <= 0) {
    // One-sided from a 90 % two-sided interval: the load may be nothing, and then it never touches.
    const oneSided = ratioIntervalOf(forceN, divisor, 2 * COVERAGE_PROBABILITY - 1)
    const square = oneSided.kind === 'bounded' ? oneSided.low : oneSided.kind === 'outside' ? oneSided.above : 0
    if (!(square > 0)) return nothing({ code: 'nearZero' })
    const speedMs: Statement = {
      kind: 'atLeast', bound: Math.sqrt(square), probability: COVERAGE_PROBABILITY, reason: 'denominatorNearZero',
    }
    return { touch: { kind: 'touches', speedMs, divergesMs: null }, claim: null }
  }
  const speed = rootOf(over(forceN, divisor))
  const statement: Statement = {
    kind: 'interval', value: speed.value, u: standardUncertainty(speed), dof: effectiveDof(speed),
    interval: {
      low: Math.sqrt(Math.max(0, ends.low)), high: Math.sqrt(Math.max(0, ends.high)), probability: COVERAGE_PROBABILITY,
    },
    shortest: null, method: 'fieller', budget: budget(speed), extrapolated,
  }
  return {
    touch: { kind: 'touches', speedMs: statement, divergesMs: null },
    claim: { kind: 'value', value: speed, extrapolated },
  }
}

const rootOf = (a: Uncertain): Uncertain => {
  const root = Math.sqrt(Math.max(a.value, 1e-12))
  return combine(root, [[a, 0.5 / root]])
}

/** More load touches earlier: "at least" in ClA is "at most" in speed. */
function boundedTouch(model: AxleModel, cla: Claim, density: Uncertain): AxleTouchDown {
  const speed = (end: Uncertain | null): Uncertain | null => {
    const ratio = end && touchRatio(model, end)
    const divisor = ratio && perSquare(ratio.lower, density)
    return divisor && divisor.value > COVERAGE_FACTOR * standardUncertainty(divisor)
      ? rootOf(over(ratio.upper, divisor)) : null
  }
  const reason = cla.kind === 'value' ? 'memberCensored' : cla.reason
  const claim = boundedClaim(speed(highEnd(cla)), speed(lowEnd(cla)), reason)
  const kind = claim.kind === 'untold' ? 'untold' : 'touches'
  return { touch: { kind, speedMs: statementOf(claim), divergesMs: null }, claim: kind === 'untold' ? null : claim }
}

/** The speed past which no height holds; at the turn the pressure does not depend on the force. */
function diverging(
  turn: NonNullable<ReturnType<typeof walkCurve>['turn']>, law: AxleModel['law'], density: Uncertain,
): AxleTouchDown {
  const cla = highEnd(claAt(law, turn.dropMm))!
  const pressure: Uncertain = combine(turn.pressurePa, [
    [turn.forceAtTurn, turn.pressurePa / turn.forceN], [cla, -turn.pressurePa / cla.value],
  ])
  const speed = rootOf(scaled(over(pressure, density), 2))
  const claim: Claim = { kind: 'value', value: speed, extrapolated: false }
  return { touch: { kind: 'diverges', speedMs: statementOf(claim), divergesMs: speed.value }, claim }
}

/** Runs in which an end was seen on the ground at a speed below what is foretold of it. */
export function touchedEarlier({ axles }: TouchDowns, runs: readonly RunResult[]): Remark[] {
  return runs.flatMap(({ flow, runId, axles: read }) => AXLES.flatMap((axle) => {
    const said = axles[axle].speedMs
    if (!flow || !read[axle].touched || said.kind !== 'interval') return []
    if (!(upperBound(flow.speedMs) < said.interval.low)) return []
    const values = { axle, seenMs: flow.speedMs.value, lowMs: said.interval.low }
    return [remark('touchedEarlier', values, { kind: 'run', runId })]
  }))
}

const TRIALS = 20_000
const SEED = 1

/** Touch-down of both ends and of the car. */
export function touchDowns(
  models: Readonly<Record<Axle, AxleModel | null>>, densityKgM3: Uncertain,
): TouchDowns {
  const ends = perAxleOf((axle) => axleTouchDown(axle, models[axle], densityKgM3))
  const axles = perAxleOf((axle) => ends[axle].touch)
  return { axles, ...firstOf(ends) }
}

function firstOf({ front, rear }: Record<Axle, AxleTouchDown>): Pick<TouchDowns, 'firstMs' | 'frontFirst'> {
  if (front.touch.kind === 'never') return { firstMs: rear.touch.speedMs, frontFirst: rear.claim ? 0 : null }
  if (rear.touch.kind === 'never') return { firstMs: front.touch.speedMs, frontFirst: front.claim ? 1 : null }
  if (surelyLater(rear.touch, front.touch)) return { firstMs: front.touch.speedMs, frontFirst: 1 }
  if (surelyLater(front.touch, rear.touch)) return { firstMs: rear.touch.speedMs, frontFirst: 0 }
  const one = front.claim
  const other = rear.claim
  if (!one && !other) return { firstMs: front.touch.speedMs, frontFirst: null }
  if (!one || !other) {
    // Whatever the other end does, the car is down when this one is.
    const high = highEnd((one ?? other)!)
    const firstMs = high ? statementOf({ kind: 'atMost', high, reason: 'memberCensored' }) : untold('missing', { code: 'oneEnd' })
    return { firstMs, frontFirst: null }
  }
  if (one.kind === 'value' && other.kind === 'value') return firstOfValues(front, rear, one.value, other.value)
  const lows = [lowEnd(one), lowEnd(other)]
  const highs = [highEnd(one), highEnd(other)].filter((each): each is Uncertain => each !== null)
  const low = lows[0] && lows[1] ? smaller(lows[0], lows[1]) : null
  const high = highs.length > 0 ? highs.reduce(smaller) : null
  return { firstMs: statementOf(boundedClaim(low, high, 'memberCensored')), frontFirst: null }
}

/** At no speed below a bound that lies past all that the other's may be. */
const surelyLater = (one: TouchDown, other: TouchDown): boolean =>
  one.speedMs.kind === 'atLeast' && other.speedMs.kind === 'interval' && one.speedMs.bound >= other.speedMs.interval.high

const smaller = (a: Uncertain, b: Uncertain): Uncertain => (a.value <= b.value ? a : b)

function firstOfValues(
  front: AxleTouchDown, rear: AxleTouchDown, one: Uncertain, other: Uncertain,
): Pick<TouchDowns, 'firstMs' | 'frontFirst'> {
  const apart = minus(other, one)
  const u = standardUncertainty(apart)
  const frontFirst = u > 0 ? studentCdf(apart.value / u, effectiveDof(apart)) : Number(apart.value > 0)
  const first = apart.value > 0 ? front : rear
  if (Math.abs(apart.value) > FAR_APART * u) return { firstMs: first.touch.speedMs, frontFirst }
  const trials = trialsOf([{
    weight: 1, inputs: [one, other],
    // No speed is below none, however far a source of few degrees of freedom is drawn.
    model: (inputs, outputs) => { outputs[0] = Math.max(0, Math.min(inputs[0]!, inputs[1]!)) },
  }], 1)
  const { outputs } = monteCarloNow(trials, { seed: SEED, fixedTrials: TRIALS })
  const extrapolated = [front, rear].some(({ claim }) => claim?.kind === 'value' && claim.extrapolated)
  return { firstMs: monteCarloStatement(outputs[0]!, smaller(one, other), { extrapolated }), frontFirst }
}
