/**
 * A blow (a kerb, a landing) is no level: samples that stand out from their window by more than four
 * robust standard deviations take no part in its mean. The rule is Hampel's, median and median
 * absolute deviation (F. R. Hampel, J. Am. Stat. Assoc. 69 (1974) 383; L. Davies and U. Gather, ibid.
 * 88 (1993) 782). Of normal noise it leaves out six samples in a hundred thousand, as many above as below.
 */
import { median } from '@core/uncertainty'

/** Robust standard deviations from the median beyond which a sample is a blow. */
const MOST_DEVIATIONS = 4
/** Standard deviation of normal noise over its median absolute deviation: 1 / normal quantile(0.75). */
const DEVIATION_OVER_MAD = 1.4826

/** The values without blows, in their order, and how many were left out. */
export function withoutBlows(values: Float64Array): { kept: Float64Array; leftOut: number } {
  const middle = median(values)
  const away = values.map((value) => Math.abs(value - middle))
  const limit = MOST_DEVIATIONS * DEVIATION_OVER_MAD * median(away)
  // A signal that stands still for half of the window has no spread to judge by.
  if (limit === 0) return { kept: values, leftOut: 0 }
  const kept = values.filter((_, index) => away[index]! <= limit)
  return { kept, leftOut: values.length - kept.length }
}
