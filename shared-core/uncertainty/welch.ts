/** Difference of two means whose scatters need not be equal (B. L. Welch, Biometrika 34 (1947) 28). */
import { studentUpper } from './distributions'
import { COVERAGE, coverageInterval } from './interval'
import type { CoverageInterval } from './statement'

/** Mean, standard deviation of a single value and number of values, 2 or more. */
export interface Sample { readonly mean: number; readonly deviation: number; readonly count: number }

export interface MeanDifference {
  /** First less second. */
  readonly value: number
  readonly u: number
  /** Welch-Satterthwaite. */
  readonly dof: number
  /** Two-sided p-value of no difference. */
  readonly pValue: number
  /** Probability that the first mean is above the second, given these values alone. */
  readonly probabilityAbove: number
  readonly interval: CoverageInterval
}

/** Sample of two or more values. */
export function sampleOf(values: readonly number[]): Sample {
  const count = values.length
  const mean = values.reduce((sum, each) => sum + each, 0) / count
  const square = values.reduce((sum, each) => sum + (each - mean) ** 2, 0)
  return { mean, deviation: Math.sqrt(square / (count - 1)), count }
}

/** First mean less second, with interval and p-value. Both samples need 2 or more values and some scatter in one. */
export function meanDifference(first: Sample, second: Sample, probability = COVERAGE): MeanDifference {
  const one = first.deviation ** 2 / first.count
  const other = second.deviation ** 2 / second.count
  const value = first.mean - second.mean
  const u = Math.sqrt(one + other)
  const dof = (one + other) ** 2 / (one ** 2 / (first.count - 1) + other ** 2 / (second.count - 1))
  const t = value / u
  return {
    value, u, dof, pValue: 2 * studentUpper(Math.abs(t), dof), probabilityAbove: studentUpper(-t, dof),
    interval: coverageInterval(value, u, dof, probability),
  }
}
