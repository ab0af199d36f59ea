/**
 * The stretches in which the car was driven at a level. Where one begins and ends is told by time alone:
 * the moment at which the smoothed signal crosses half of the usual level, and so many seconds after it.
 * Half a level is far from any noise, and nothing between the two ends is chosen by its own height, so
 * that a mean over a stretch is no lucky one, however long the log or however hard the car shakes.
 */
import { median } from '@core/uncertainty'
import { rangesOf } from './rest'
import type { RegularLog, Stretch } from './types'

export interface Driven {
  /** Range of samples of the regular series, ends trimmed. */
  readonly from: number
  readonly to: number
  readonly sign: 1 | -1
  /** Time of the first sample, s. */
  readonly startS: number
}

export interface DrivenOptions {
  /** Shortest stretch that counts, and the time over which the signal is smoothed to find it, s. */
  readonly sustainS: number
  /** Left out at either end of a stretch, s. */
  readonly settleS: number
  readonly direction: 'either' | 'positive' | 'negative'
  /** The rest is never driven. */
  readonly rest: Stretch | null
}

/** A sample belongs to the level where the smoothed signal is above this share of it ... */
const ENTERS = 0.5
/** ... and stays in until it falls below this one. */
const LEAVES = 0.35
/** Samples that count for the usual level: above this share of the largest. */
const COUNTS = 0.4
/** Smoothing is widened until its noise is this small beside the level. */
const MOST_NOISE_SHARE = 0.06
const WIDEST_SMOOTHING = 4

/** Centred moving mean over n samples of every segment; narrower at its ends. */
export function movingMean(log: RegularLog, values: Float64Array, n: number): Float64Array {
  const out = new Float64Array(values.length)
  const half = Math.floor(n / 2)
  for (const { from, to } of log.segments) {
    const sums = new Float64Array(to - from + 1)
    for (let i = from; i < to; i++) sums[i - from + 1] = sums[i - from]! + values[i]!
    for (let i = from; i < to; i++) {
      const reach = Math.min(half, i - from, to - 1 - i)
      const [a, b] = [i - from - reach, i - from + reach + 1]
      out[i] = (sums[b]! - sums[a]!) / (b - a)
    }
  }
  return out
}

/** The usual level of a smoothed signal: median of what lies above a share of its largest; 0 without any. */
export function usualLevel(smoothed: Float64Array): number {
  let most = 0
  for (const value of smoothed) most = Math.max(most, Math.abs(value))
  if (most === 0) return 0
  const high: number[] = []
  const step = Math.max(1, Math.floor(smoothed.length / 20_000))
  for (let i = 0; i < smoothed.length; i += step) {
    const value = Math.abs(smoothed[i]!)
    if (value > COUNTS * most) high.push(value)
  }
  return high.length === 0 ? most : median(high)
}

/** Smooths as much as the noise asks for: from `sustainS` up to four times as long. */
function smoothed(log: RegularLog, raw: Float64Array, sustainS: number): Float64Array {
  let out: Float64Array = new Float64Array(0)
  for (let times = 1; times <= WIDEST_SMOOTHING; times *= 2) {
    const n = Math.max(3, Math.round(times * sustainS * log.rateHz))
    out = movingMean(log, raw, n)
    let square = 0
    for (let i = 0; i < raw.length; i++) square += (raw[i]! - out[i]!) ** 2
    const noise = Math.sqrt(square / Math.max(1, raw.length) / n)
    if (noise <= MOST_NOISE_SHARE * usualLevel(out)) break
  }
  return out
}

/** Stretches driven at a level, in the order driven. Empty where none is as long as `sustainS`. */
export function drivenStretches(log: RegularLog, raw: Float64Array, options: DrivenOptions): Driven[] {
  const smooth = smoothed(log, raw, options.sustainS)
  const usual = usualLevel(smooth)
  if (!(usual > 0)) return []
  const resting = new Uint8Array(raw.length)
  for (const [from, to] of options.rest ? rangesOf(log, options.rest) : []) resting.fill(1, from, to)
  const trim = Math.round(options.settleS * log.rateHz)
  const least = Math.max(2, Math.round(options.sustainS * log.rateHz))
  const signs = ([1, -1] as const).filter((sign) =>
    options.direction === 'either' || (sign === 1) === (options.direction === 'positive'))
  return signs.flatMap((sign) => log.segments.flatMap(({ from, to, startS }) => {
    const found: Driven[] = []
    for (let i = from; i < to; i++) {
      if (resting[i] || smooth[i]! * sign < ENTERS * usual) continue
      const first = i
      while (i < to && !resting[i] && smooth[i]! * sign >= LEAVES * usual) i++
      const [a, b] = [first + trim, i - trim]
      if (b - a >= least) found.push({ from: a, to: b, sign, startS: startS + (a - from) / log.rateHz })
    }
    return found
  })).sort((a, b) => a.from - b.from)
}
