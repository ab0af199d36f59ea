/**
 * Interval of a ratio whose denominator may be near zero (E. C. Fieller, J. R. Stat. Soc. B 16 (1954)
 * 175): all ratios r for which numerator - r x denominator is not clearly away from zero.
 */
import { studentQuantile } from './distributions/studentT'
import { COVERAGE_PROBABILITY } from './interval'
import { covariance, effectiveDof, minus, scaled, variance, type Uncertain } from './uncertain'

export type RatioInterval =
  /** The denominator is clearly away from zero. */
  | { readonly kind: 'bounded'; readonly low: number; readonly high: number }
  /** It is not: the ratio is at most `below` or at least `above`; what lies between is excluded. */
  | { readonly kind: 'outside'; readonly below: number; readonly above: number }
  /** Neither is clearly away from zero: no ratio is excluded. */
  | { readonly kind: 'unbounded' }

/** Estimates of numerator and denominator, their variances and covariance, and degrees of freedom. */
export interface RatioInput {
  readonly numerator: number
  readonly denominator: number
  readonly varianceNumerator: number
  readonly varianceDenominator: number
  readonly covariance: number
  /** Infinity where the variances are taken as known. */
  readonly dof: number
}

/** Fieller's interval of numerator/denominator at a coverage probability. */
export function ratioInterval(input: RatioInput, probability = COVERAGE_PROBABILITY): RatioInterval {
  const t2 = studentQuantile((1 + probability) / 2, input.dof) ** 2
  const square = input.denominator ** 2 - t2 * input.varianceDenominator
  const mixed = input.numerator * input.denominator - t2 * input.covariance
  const constant = input.numerator ** 2 - t2 * input.varianceNumerator
  const discriminant = mixed ** 2 - square * constant
  if (square > 0) {
    // Rounding aside the discriminant cannot be negative here: the estimate itself is a root's neighbour.
    const root = Math.sqrt(Math.max(0, discriminant))
    return ordered(mixed, root, square, constant)
  }
  if (square === 0 || discriminant <= 0) return { kind: 'unbounded' }
  const { low, high } = ordered(mixed, Math.sqrt(discriminant), square, constant)
  return { kind: 'outside', below: low, above: high }
}

/** The two roots of square r^2 - 2 mixed r + constant, without cancellation. */
function ordered(mixed: number, root: number, square: number, constant: number) {
  const far = mixed + (mixed >= 0 ? root : -root)
  const one = far / square
  const other = far === 0 ? one : constant / far
  return { kind: 'bounded' as const, low: Math.min(one, other), high: Math.max(one, other) }
}

/**
 * Fieller's interval of a/b from their sources. The degrees of freedom are those of a - r b at the
 * estimated ratio.
 */
export function ratioIntervalOf(a: Uncertain, b: Uncertain, probability = COVERAGE_PROBABILITY): RatioInterval {
  return ratioInterval({
    numerator: a.value, denominator: b.value, varianceNumerator: variance(a), varianceDenominator: variance(b),
    covariance: covariance(a, b),
    dof: b.value === 0 ? effectiveDof(a) : effectiveDof(minus(a, scaled(b, a.value / b.value))),
  }, probability)
}
