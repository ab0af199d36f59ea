/** Fewer points for drawing, none of the extremes lost: the least and the largest of each bucket. */
import type { RegularLog, Stretch } from './types'

/** One bucket of the drawing. A break in the log leaves a bucket with NaN between its neighbours. */
export interface Envelope {
  readonly timeS: Float64Array
  readonly low: Float64Array
  readonly high: Float64Array
}

/**
 * Envelope of a column over a stretch of time.
 *
 * @param buckets at most this many (a chart's width in px is plenty), plus one per break
 */
export function envelope(log: RegularLog, column: Float64Array, stretch: Stretch, buckets: number): Envelope {
  const perBucket = Math.max(((stretch.toS - stretch.fromS) * log.rateHz) / buckets, 1)
  const time: number[] = []
  const low: number[] = []
  const high: number[] = []
  for (const { from, to, startS } of log.segments) {
    const first = Math.max(from, from + Math.ceil((stretch.fromS - startS) * log.rateHz - 1e-6))
    const last = Math.min(to, from + Math.floor((stretch.toS - startS) * log.rateHz + 1e-6) + 1)
    if (last <= first) continue
    if (time.length > 0) {
      time.push(startS + (first - from) / log.rateHz)
      low.push(NaN)
      high.push(NaN)
    }
    for (let i = first; i < last;) {
      const atS = startS + (i - from) / log.rateHz
      const bucket = Math.floor((i - first) / perBucket + 1e-9)
      const end = Math.min(last, first + Math.ceil((bucket + 1) * perBucket - 1e-9))
      let least = Infinity
      let most = -Infinity
      for (; i < end; i++) {
        const value = column[i]!
        if (value < least) least = value
        if (value > most) most = value
      }
      time.push(atS)
      low.push(least)
      high.push(most)
    }
  }
  return { timeS: Float64Array.from(time), low: Float64Array.from(low), high: Float64Array.from(high) }
}
