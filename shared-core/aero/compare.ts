/**
 * One configuration against another. Errors that both share (scale, gauge, anemometer, the jet's
 * unevenness, the control run) cancel in the difference by the names of their sources.
 */
import { perAxleOf } from '@core/chassis'
import {
  COVERAGE_PROBABILITY, effectiveDof, errorOf, highEnd, lowEnd, minus, monotone, POWER, standardUncertainty,
  statementOf, studentCdf, studentQuantile, studentUpper, subtractClaims, told, variance, type Claim, type Uncertain,
} from '@core/uncertainty'
import { frontShareClaim } from './balance'
import type { Comparison, ConfigurationAero, Difference, Laws, Measure, Probability, RepeatsNeeded } from './types'

/**
 * The laws of a configuration in a measure; null where it has no control run. As read, every run
 * counts for both sides alike, so that a pass is never held against a blower run less its control.
 */
export const lawsIn = (aero: ConfigurationAero, measure: Measure): Laws | null =>
  (measure === 'asRead' ? aero.whole : aero.measure === measure ? aero : null)

/** The device alone where all have a control run, else the cars as they were read. */
export const commonMeasure = (aeros: readonly ConfigurationAero[]): Measure =>
  (aeros.every((each) => lawsIn(each, 'lessControl')) ? 'lessControl' : 'asRead')

/** A less B. */
export function compare(a: ConfigurationAero, b: ConfigurationAero): Comparison {
  const measure = commonMeasure([a, b])
  const one = lawsIn(a, measure)!
  const other = lawsIn(b, measure)!
  const ids = { configurationA: a.configurationId, configurationB: b.configurationId, measure }
  const total = differenceOf(subtractClaims(one.total.claM2.claim, other.total.claM2.claim))
  const { claim } = total.differenceM2
  return {
    ...ids, total,
    axles: perAxleOf((axle) =>
      differenceOf(subtractClaims(one.axles[axle].claM2.claim, other.axles[axle].claM2.claim))),
    balanceMove: statementOf(monotone(shareOf(one), shareOf(other), 'falls', minus)),
    ...(claim.kind === 'value' ? detectability(claim.value) : { smallestDetectableM2: null, shrinksM2: null, staysM2: null }),
  }
}

const shareOf = ({ axles }: Laws): Claim => frontShareClaim(axles.front.claM2.claim, axles.rear.claM2.claim)

function differenceOf(claim: Claim): Difference {
  const { probability, pValue } = chances(claim)
  return { differenceM2: told(claim), probabilityLarger: probability, pValue }
}

/** Chance that a quantity is above zero, given its estimate. */
function above(a: Uncertain): number {
  const u = standardUncertainty(a)
  if (u === 0) return a.value > 0 ? 1 : a.value < 0 ? 0 : 0.5
  return studentCdf(a.value / u, effectiveDof(a))
}

/** Probability of "larger", and the two-sided p-value of "no difference"; from bounds what they allow. */
export function chances(claim: Claim): { probability: Probability; pValue: number | null } {
  if (claim.kind === 'value') {
    const value = above(claim.value)
    const u = standardUncertainty(claim.value)
    const t = u > 0 ? Math.abs(claim.value.value) / u : claim.value.value === 0 ? 0 : Infinity
    const pValue = t === Infinity ? 0 : Math.min(1, 2 * studentUpper(t, effectiveDof(claim.value)))
    return { probability: { kind: 'is', value }, pValue }
  }
  const low = lowEnd(claim)
  const high = highEnd(claim)
  if (low && above(low) > 0.5) {
    return { probability: { kind: 'atLeast', value: above(low) }, pValue: Math.min(1, 2 * (1 - above(low))) }
  }
  if (high && above(high) < 0.5) {
    return { probability: { kind: 'atMost', value: above(high) }, pValue: Math.min(1, 2 * above(high)) }
  }
  return { probability: { kind: 'untold', value: NaN }, pValue: null }
}

function detectability(difference: Uncertain) {
  // What a further run draws anew. What the squat test, the instruments and the jet put in stays.
  const square = variance(errorOf(difference, 'reading', 'run'))
  return {
    smallestDetectableM2: detectable(standardUncertainty(difference), effectiveDof(difference)),
    shrinksM2: Math.sqrt(square), staysM2: Math.sqrt(Math.max(0, variance(difference) - square)),
  }
}

/** Smallest difference that would be found in 8 of 10 cases at 95 %, for a standard uncertainty. */
export const detectable = (u: number, dof: number): number =>
  (u === 0 ? 0 : (studentQuantile((1 + COVERAGE_PROBABILITY) / 2, dof) + studentQuantile(POWER, dof)) * u)

/**
 * How many times the present runs (each with its readings) are needed so that a wished difference
 * of total ClA, m^2, is detectable.
 */
export function repeatsNeeded({ shrinksM2, staysM2 }: Comparison, wishedM2: number): RepeatsNeeded {
  if (shrinksM2 === null || staysM2 === null || !(wishedM2 > 0)) return { kind: 'untold' }
  const allowed = wishedM2 / detectable(1, Infinity)
  const room = allowed ** 2 - staysM2 ** 2
  if (!(room > 0)) return { kind: 'outOfReach', leastM2: detectable(staysM2, Infinity) }
  return { kind: 'times', factor: Math.max(1, shrinksM2 ** 2 / room) }
}
