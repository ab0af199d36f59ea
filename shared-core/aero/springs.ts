/**
 * "What wheel rate holds h mm at V", both ways: the rate that leaves a wished clearance, and what each
 * spring of the builder's list would leave. The measured curve is scaled by the rate of the new spring over
 * that of the fitted one: motion ratio, tyres, bends and stops stay those of the car. Collars are re-set to
 * the same ride height, so what holds the axle before it moves stays.
 */
import { springTheory, type Calibration } from '@core/calibration'
import type { Axle, Spring } from '@core/schema'
import {
  COVERAGE_FACTOR, effectiveDof, exact, lowerBound, mapClaim, minus, over, plus, scaled, standardUncertainty,
  statementOf, studentCdf, timesPositive, untold, type Claim, type Uncertain, type Untold,
} from '@core/uncertainty'
import { forceOn, growthAt, type AxleModel } from './axleModel'
import { aboveGround, clearanceOf, heightAt } from './heights'
import { pressureAt } from './predict'
import { claAt } from './speedLaw'
import { axleTouchDown } from './touchDown'
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
      presentWheelRateNPerMm: nothing, timesPresent: nothing,
    }
  }
  if (!touch) return none({ code: 'noTouchDrop', axle })
  const pressure = pressureAt(densityKgM3, speedMs)
  const growth = growthAt(model, pressure)
  const allowed = minus(growth ? plus(touch, growth) : touch, exact(clearanceMm))
  if (!(allowed.value > COVERAGE_FACTOR * standardUncertainty(allowed))) return none({ code: 'noRoom' })
  const preload = preloadOf(curve)
  const force = timesPositive(claAt(law, touch.value - clearanceMm), pressure)
  const rate = mapClaim(force, 'rises', (f) => over(minus(f, preload), allowed))
  const now = heightAt(model, pressure)
  const present: Claim = now.dropMm.kind === 'value' && now.forceN.kind === 'value' && now.dropMm.value.value > 0.01
    ? { kind: 'value', value: over(minus(now.forceN.value, preload), now.dropMm.value), extrapolated: now.dropMm.extrapolated }
    : untold('missing', { code: 'notFree', axle })
  return {
    axle, clearanceMm, speedMs, axleRateNPerMm: statementOf(rate),
    wheelRateNPerMm: statementOf(perWheel(rate)), presentRateNPerMm: statementOf(present),
    presentWheelRateNPerMm: statementOf(perWheel(present)),
    timesPresent: statementOf(timesPresent(axle, force, forceOn(model, allowed), preload)),
  }
}

/** How many times as stiff as now: what presses beyond the preload over what the curve takes at that drop. */
function timesPresent(axle: Axle, force: Claim, now: Uncertain, preload: Uncertain): Claim {
  const taken = minus(now, preload)
  if (!(taken.value > COVERAGE_FACTOR * standardUncertainty(taken))) return untold('missing', { code: 'notFree', axle })
  return mapClaim(force, 'rises', (f) => over(minus(f, preload), taken))
}

/** A spring's wheel rate, and that of the fitted one, N/mm; null where that is not known. */
export interface SpringRates { readonly own: Uncertain; readonly fitted: Uncertain | null }

/** Outcome of a spring at a speed, against a wished clearance. Two springs carry an axle. */
export function springOutcome(
  model: AxleModel, axle: Axle, spring: Pick<Spring, 'id'>, rates: SpringRates, clearanceMm: number, speedMs: number,
  densityKgM3: Uncertain,
): SpringOutcome {
  const { touchMm } = model.curve
  const head = { springId: spring.id, axle, wheelRateNPerMm: statementOf({ kind: 'value', value: rates.own, extrapolated: false }) }
  if (!touchMm) {
    const nothing = untold('missing', { code: 'noTouchDrop', axle })
    return { ...head, clearanceMm: nothing, touchDownMs: nothing, probabilityHolds: null }
  }
  const preloadN = preloadOf(model.curve)
  const ratio = over(rates.own, rates.fitted ?? meanRate(model, touchMm, preloadN))
  const sprung: AxleModel = { ...model, other: { ratio, preloadN } }
  const left = clearanceOf(sprung, heightAt(sprung, pressureAt(densityKgM3, speedMs)))!
  return {
    ...head, clearanceMm: statementOf(aboveGround(left)),
    touchDownMs: axleTouchDown(axle, sprung, densityKgM3).touch.speedMs,
    probabilityHolds: holdsProbability(left, clearanceMm),
  }
}

/** Rate of one wheel as measured, from rest to touching, where no rate of the fitted spring is known. */
const meanRate = (model: AxleModel, touchMm: Uncertain, preloadN: Uncertain): Uncertain =>
  scaled(over(minus(forceOn(model, touchMm), preloadN), touchMm), 0.5)

function holdsProbability(left: Claim, clearanceMm: number): number | null {
  if (left.kind === 'value') return probabilityOver(left.value, clearanceMm)
  if (left.kind === 'atMost') return left.high.value < clearanceMm ? 0 : null
  return left.kind === 'between' && lowerBound(left.low) >= clearanceMm ? 1 : null
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
  const rateOf = (spring: Spring | undefined) => (spring && springTheory(spring)?.wheelRateNPerMm) ?? null
  const fitted = rateOf(springs.find((each) => each.fitted && each.axle === axle))
  return springs.flatMap((spring) => {
    const own = spring.axle === null || spring.axle === axle ? rateOf(spring) : null
    return own ? [springOutcome(model, axle, spring, { own, fitted }, clearanceMm, speedMs, densityKgM3)] : []
  })
}
