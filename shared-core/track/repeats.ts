/** What a run's repeats tell about themselves: one that stands out, a drift from first to last. */
import { studentQuantile, studentUpper } from '@core/uncertainty'

/** Level of significance at which a remark is made: seldom enough to be worth reading. */
const REMARK_LEVEL = 0.01

export interface Spread { readonly mean: number; readonly deviation: number; readonly count: number }

/** Mean, standard deviation (n - 1; 0 for one value) and number. */
export function spreadOf(values: readonly number[]): Spread {
  const count = values.length
  const mean = values.reduce((sum, each) => sum + each, 0) / count
  const square = values.reduce((sum, each) => sum + (each - mean) ** 2, 0)
  return { mean, deviation: count > 1 ? Math.sqrt(square / (count - 1)) : 0, count }
}

/**
 * Critical value of Grubbs' two-sided test for one outlier (F. E. Grubbs, Technometrics 11 (1969) 1):
 * the largest |x - mean|/s that chance gives with probability 1 - `level`. Three values or more.
 */
export function grubbsCritical(count: number, level = REMARK_LEVEL): number {
  const t2 = studentQuantile(1 - level / (2 * count), count - 2) ** 2
  return ((count - 1) / Math.sqrt(count)) * Math.sqrt(t2 / (count - 2 + t2))
}

/** Index of the value that stands out by Grubbs' test at 1 %, null where none does. */
export function outstanding(values: readonly number[]): number | null {
  if (values.length < 4) return null
  const { mean, deviation, count } = spreadOf(values)
  if (deviation === 0) return null
  const farthest = values.reduce((at, each, index) =>
    (Math.abs(each - mean) > Math.abs(values[at]! - mean) ? index : at), 0)
  return Math.abs(values[farthest]! - mean) / deviation > grubbsCritical(count) ? farthest : null
}

/**
 * Change per repeat by an ordinary straight line over 1, 2, ..., n with its two-sided p-value; null
 * with fewer than four values.
 */
export function trend(values: readonly number[]): { perRepeat: number; pValue: number } | null {
  const n = values.length
  if (n < 4) return null
  const { mean } = spreadOf(values)
  const middle = (n - 1) / 2
  const square = (n * (n * n - 1)) / 12
  const perRepeat = values.reduce((sum, each, index) => sum + (index - middle) * (each - mean), 0) / square
  const rest = values.reduce((sum, each, index) => sum + (each - mean - perRepeat * (index - middle)) ** 2, 0)
  if (rest === 0) return { perRepeat, pValue: perRepeat === 0 ? 1 : 0 }
  const t = Math.abs(perRepeat) / Math.sqrt(rest / (n - 2) / square)
  return { perRepeat, pValue: 2 * studentUpper(t, n - 2) }
}

/** True where the trend is too strong for chance at 1 %. */
export const drifts = (found: ReturnType<typeof trend>): boolean => found !== null && found.pValue < REMARK_LEVEL
