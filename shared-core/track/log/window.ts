/**
 * One window of a log to its level: the mean of the unfiltered signal, blows left out, with the
 * uncertainty that its own noise and its memory leave.
 */
import { seriesMean } from './autocorrelation'
import { withoutBlows } from './blows'
import type { HeldWindow, RegularLog } from './types'

/** A range of samples with the way it goes and the time of its first sample. */
export interface Range { readonly from: number; readonly to: number; readonly sign: 1 | -1; readonly startS: number }

/** The level of a window. */
export function windowOf(
  log: RegularLog, filtered: Float64Array, raw: Float64Array, { from, to, sign, startS }: Range,
): HeldWindow {
  const { kept, leftOut } = withoutBlows(raw.subarray(from, to))
  const { mean, u, dof } = seriesMean(kept)
  let [least, peak] = [Infinity, -Infinity]
  for (let i = from; i < to; i++) {
    least = Math.min(least, filtered[i]! * sign)
    peak = Math.max(peak, filtered[i]! * sign)
  }
  const speed = log.speedMs && log.speedMs.subarray(from, to).reduce((sum, each) => sum + each, 0) / (to - from)
  return {
    fromS: startS, toS: startS + (to - from - 1) / log.rateHz, sign, levelMs2: mean * sign, uMs2: u, dof,
    heldMs2: least, peakMs2: peak, leftOut, speedMs: speed,
  }
}

/** A window that the builder chose by hand: null where it holds fewer than two samples or crosses a gap. */
export function chosenWindow(
  log: RegularLog, filtered: Float64Array, raw: Float64Array, ranges: readonly (readonly [number, number])[],
): HeldWindow | null {
  const [range] = ranges
  if (!range || ranges.length !== 1 || range[1] - range[0] < 2) return null
  const [from, to] = range
  const segment = log.segments.find((each) => from >= each.from && to <= each.to)!
  const sign = seriesMean(raw, from, to).mean < 0 ? -1 : 1
  return windowOf(log, filtered, raw, { from, to, sign, startS: segment.startS + (from - segment.from) / log.rateHz })
}
