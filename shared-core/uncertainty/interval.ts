/**
 * From an uncertain value to what may be said of it, by the law of propagation: coverage intervals
 * with Student's t at the effective degrees of freedom (JCGM 100:2008, G.6.4), never a rounded k = 2.
 */
import { studentQuantile } from './distributions/studentT'
import type { CoverageInterval, Statement } from './statement'
import { budget, effectiveDof, standardUncertainty, type Uncertain } from './uncertain'

/** The coverage probability of every interval of the product unless said otherwise. */
export const COVERAGE_PROBABILITY = 0.95

/** The symmetric interval of a value with standard uncertainty `u` and `dof` > 0 degrees of freedom. */
export function coverageInterval(
  value: number, u: number, dof: number, probability = COVERAGE_PROBABILITY,
): CoverageInterval {
  const half = u === 0 ? 0 : studentQuantile((1 + probability) / 2, dof) * u
  return { low: value - half, high: value + half, probability }
}

/** Half-width of the symmetric interval of an uncertain value, in its unit. */
export const halfWidth = (a: Uncertain, probability = COVERAGE_PROBABILITY): number =>
  coverageInterval(0, standardUncertainty(a), effectiveDof(a), probability).high

/**
 * The statement of a plain result.
 *
 * @param extrapolated true where the value lies outside the range in which readings support it
 * @param least the least that the measurand can be, such as 0 for a speed: the interval does not go below it
 */
export function intervalStatement(
  a: Uncertain, { probability = COVERAGE_PROBABILITY, extrapolated = false, least = -Infinity } = {},
): Extract<Statement, { kind: 'interval' }> {
  const u = standardUncertainty(a)
  const dof = effectiveDof(a)
  const { low, high } = coverageInterval(a.value, u, dof, probability)
  return {
    kind: 'interval', value: a.value, u, dof, interval: { low: Math.max(least, low), high, probability }, shortest: null,
    method: u === 0 ? 'exact' : 'propagation', budget: budget(a), extrapolated,
  }
}

/** The value that the measurand exceeds with the given one-sided probability. */
export const lowerBound = (a: Uncertain, probability = COVERAGE_PROBABILITY): number =>
  a.value - oneSided(a, probability)

/** The value that the measurand stays under with the given one-sided probability. */
export const upperBound = (a: Uncertain, probability = COVERAGE_PROBABILITY): number =>
  a.value + oneSided(a, probability)

/** How far an uncertain value may lie on one side with a probability, in its unit. */
export function oneSided(a: Uncertain, probability = COVERAGE_PROBABILITY): number {
  const u = standardUncertainty(a)
  return u === 0 ? 0 : studentQuantile(probability, effectiveDof(a)) * u
}
