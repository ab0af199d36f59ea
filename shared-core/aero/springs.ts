/**
 * "What wheel rate holds h mm at V", both ways: the rate that leaves a wished clearance, and what each
 * spring of the builder's list would leave. The new spring is taken as straight, with the preload
 * (threshold) that the squat test found.
 */
import { springTheory, type Calibration } from '@core/calibration'
import type { Axle, Spring } from '@core/schema'
import {
  boundedClaim, combine, effectiveDof, exact, highEnd, lowEnd, mapClaim, minus, over, plus, scaled,
  standardUncertainty, statementOf, studentCdf, times, timesPositive, untold, type Claim, type Uncertain, type Untold,
} from '@core/uncertainty'
import { heightAt, type AxleModel } from './heights'
import { pressureAt } from './predict'
import { claAt, claSlope } from './speedLaw'
import type { NeededRate, SpringOutcome } from './types'

const NOTHING = exact(0)

/** Force that nothing moves under, N: the preload of the droop stop as the squat test found it. */
function preloadOf({ candidates, chosen }: Calibration): Uncertain {
  const fitted = candidates.find(({ shape }) => shape === chosen)
  if (!fitted?.fitted) return NOTHING
  return fitted.parameters.find(({ name }) => name === 'thresholdN')?.estimate ?? NOTHING
}

/** Two wheels carry an axle. */
const perWheel = (rate: Claim): Claim => mapClaim(rate, 'rises', (each) => scaled(each, 0.5))

/**
 * Axle rate that leaves a clearance (mm, zero or more) under the tray at a speed.
 *
 * @returns statements in N/mm; they can't be told where the touching drop is unknown or the clearance
 *   is more than there is at rest
 */
export function neededRate(
  model: AxleModel, axle: Axle, clearanceMm: number, speedMs: number, densityKgM3: Uncertain,
): NeededRate {
  const { curve, law } = model
  const touch = curve.touchMm
  const none = (because: Untold): NeededRate => {
    const nothing = untold('missing', because)
    return {
      axle, clearanceMm, speedMs, axleRateNPerMm: nothing, wheelRateNPerMm: nothing, presentRateNPerMm: nothing,
      presentWheelRateNPerMm: nothing,
    }
  }
  if (!touch) return none({ code: 'noTouchDrop', axle })
  const allowed = combine(touch.value - clearanceMm, [[touch, 1]])
  if (!(allowed.value > 2 * standardUncertainty(allowed))) return none({ code: 'noRoom' })
  const pressure = pressureAt(densityKgM3, speedMs)
  const preload = preloadOf(curve)
  const force = timesPositive(claAt(law, allowed.value), pressure)
  const rate = mapClaim(force, 'rises', (f) => over(minus(f, preload), allowed))
  const now = heightAt(model, pressure)
  const present: Claim = now.dropMm.kind === 'value' && now.forceN.kind === 'value' && now.dropMm.value.value > 0.01
    ? { kind: 'value', value: over(minus(now.forceN.value, preload), now.dropMm.value), extrapolated: now.dropMm.extrapolated }
    : untold('missing', { code: 'notFree', axle })
  return {
    axle, clearanceMm, speedMs, axleRateNPerMm: statementOf(rate),
    wheelRateNPerMm: statementOf(perWheel(rate)), presentRateNPerMm: statementOf(present),
    presentWheelRateNPerMm: statementOf(perWheel(present)),
  }
}

/** Outcome of a spring with a wheel rate at a speed, against a wished clearance. Two springs carry an axle. */
export function springOutcome(
  model: AxleModel, axle: Axle, spring: Pick<Spring, 'id'>, wheelRateNPerMm: Uncertain, clearanceMm: number,
  speedMs: number, densityKgM3: Uncertain,
): SpringOutcome {
  const head = { springId: spring.id, axle, wheelRateNPerMm: statementOf({ kind: 'value', value: wheelRateNPerMm, extrapolated: false }) }
  const touch = model.curve.touchMm
  if (!touch) {
    const nothing = untold('missing', { code: 'noTouchDrop', axle })
    return { ...head, clearanceMm: nothing, touchDownMs: nothing, probabilityHolds: null }
  }
  const rate = scaled(wheelRateNPerMm, 2)
  const preload = preloadOf(model.curve)
  const left = clearanceWith(model, rate, preload, touch, pressureAt(densityKgM3, speedMs))
  return {
    ...head, clearanceMm: statementOf(left),
    touchDownMs: statementOf(touchSpeed(model, rate, preload, touch, densityKgM3)),
    probabilityHolds: left.kind === 'value' ? probabilityOver(left.value, clearanceMm)
      : left.kind === 'atMost' && left.high.value < clearanceMm ? 0 : null,
  }
}

/** Clearance of a straight spring: k d + F0 = q ClA(d), solved for d, nothing moving below F0. */
function clearanceWith(
  { law }: AxleModel, rate: Uncertain, preload: Uncertain, touch: Uncertain, pressure: Uncertain,
): Claim {
  const slope = pressure.value * claSlope(law)
  if (slope >= rate.value) return untold('noFixedPoint', { code: 'springHoldsNone' })
  const drop = (cla: Uncertain): Uncertain => {
    const at = dropAtCla(cla, rate, preload, pressure)
    return at.value > 0 ? at : NOTHING
  }
  const first = claAt(law, 0)
  const claim = law.height ? fixedDrop(law, rate, preload, pressure) : mapClaim(first, 'rises', drop)
  const free = mapClaim(claim, 'falls', (d) => minus(touch, d))
  if (free.kind === 'value' && free.value.value <= 0) return { kind: 'atMost', high: NOTHING, reason: 'touchedGround' }
  return free
}

const dropAtCla = (cla: Uncertain, rate: Uncertain, preload: Uncertain, pressure: Uncertain): Uncertain =>
  over(minus(times(cla, pressure), preload), rate)

function fixedDrop(law: AxleModel['law'], rate: Uncertain, preload: Uncertain, pressure: Uncertain): Claim {
  const slope = claSlope(law)
  const atRest = claAt(law, 0)
  if (atRest.kind !== 'value') return atRest
  const value = (pressure.value * atRest.value.value - preload.value) / (rate.value - pressure.value * slope)
  if (value <= 0) return { kind: 'value', value: NOTHING, extrapolated: false }
  const cla = claAt(law, value)
  if (cla.kind !== 'value') return cla
  const gain = 1 / (rate.value - pressure.value * slope)
  return {
    kind: 'value', extrapolated: cla.extrapolated,
    value: combine(value, [
      [cla.value, gain * pressure.value], [pressure, gain * cla.value.value], [preload, -gain], [rate, -gain * value],
    ]),
  }
}

function touchSpeed(
  { law }: AxleModel, rate: Uncertain, preload: Uncertain, touch: Uncertain, density: Uncertain,
): Claim {
  const force = plus(times(rate, touch), preload)
  const cla = claAt(law, touch.value)
  if (cla.kind === 'untold') return cla
  const speedAt = (end: Uncertain | null): Uncertain | null => {
    if (!end || end.value <= 2 * standardUncertainty(end)) return null
    const square = over(force, scaled(times(end, density), 0.5))
    const speed = Math.sqrt(Math.max(square.value, 1e-12))
    return combine(speed, [[square, 0.5 / speed]])
  }
  // A load that may be nothing touches at no speed that could be named.
  const [slow, fast] = [speedAt(highEnd(cla)), speedAt(lowEnd(cla))]
  if (cla.kind === 'value' && slow) return { kind: 'value', value: slow, extrapolated: cla.extrapolated }
  if (!slow && !fast) return untold('denominatorNearZero', { code: 'nearZero' })
  return boundedClaim(slow, fast, cla.kind === 'value' ? 'denominatorNearZero' : cla.reason)
}

function probabilityOver(a: Uncertain, limit: number): number {
  const u = standardUncertainty(a)
  if (u === 0) return Number(a.value >= limit)
  return studentCdf((a.value - limit) / u, effectiveDof(a))
}

/** What each spring of the list that may sit on an axle would leave; those without a rate are left out. */
export function springsThatHold(
  model: AxleModel, axle: Axle, springs: readonly Spring[], clearanceMm: number, speedMs: number,
  densityKgM3: Uncertain,
): SpringOutcome[] {
  return springs.flatMap((spring) => {
    const rate = spring.axle === null || spring.axle === axle ? springTheory(spring)?.wheelRateNPerMm : null
    return rate ? [springOutcome(model, axle, spring, rate, clearanceMm, speedMs, densityKgM3)] : []
  })
}
