/**
 * The sustained level. A level is held over T seconds where the filtered signal never falls below
 * it for the whole of T: the best window is the one whose least value is the largest. A peak of any
 * height inside or beside it changes nothing. The level stated is the mean of the unfiltered signal
 * over that window, with the uncertainty that its own noise and its memory leave.
 */
import { seriesMean } from './autocorrelation'
import type { HeldWindow, RegularLog } from './types'

export interface HeldOptions {
  readonly sustainS: number
  /** Which way counts: both turns, or one. */
  readonly direction: 'either' | 'positive' | 'negative'
  /** Most windows taken, best first; they do not overlap. */
  readonly most: number
  /** A further window must hold at least this share of the best. */
  readonly leastShare: number
}

/** Least value of every window of n samples (a queue of falling candidates; one look at each sample). */
export function slidingLeast(values: Float64Array, from: number, to: number, n: number, sign: 1 | -1): Float64Array {
  const out = new Float64Array(Math.max(0, to - from - n + 1))
  const queue = new Int32Array(to - from)
  let head = 0
  let tail = 0
  for (let i = from; i < to; i++) {
    while (tail > head && values[queue[tail - 1]!]! * sign >= values[i]! * sign) tail--
    queue[tail++] = i
    if (queue[head]! <= i - n) head++
    if (i - from >= n - 1) out[i - from - n + 1] = values[queue[head]!]! * sign
  }
  return out
}

interface Candidate { readonly from: number; readonly held: number; readonly sign: 1 | -1; readonly startS: number }

/** Windows in which a level was held, best first. Empty where no segment is as long as `sustainS`. */
export function heldWindows(
  log: RegularLog, filtered: Float64Array, raw: Float64Array, options: HeldOptions,
): HeldWindow[] {
  const n = Math.max(2, Math.round(options.sustainS * log.rateHz))
  const signs = ([1, -1] as const).filter((sign) =>
    options.direction === 'either' || (sign === 1) === (options.direction === 'positive'))
  const taken: Candidate[] = []
  const least = log.segments.flatMap((segment) => signs.map((sign) =>
    ({ segment, sign, values: slidingLeast(filtered, segment.from, segment.to, n, sign) })))
  while (taken.length < options.most) {
    const best = bestOf(least, taken, n, log.rateHz)
    if (!best || best.held <= 0 || best.held < options.leastShare * (taken[0]?.held ?? 0)) break
    taken.push(best)
  }
  return taken.map((each) => windowOf(log, filtered, raw, each, each.from + n))
}

function bestOf(
  least: readonly { segment: RegularLog['segments'][number]; sign: 1 | -1; values: Float64Array }[],
  taken: readonly Candidate[], n: number, rateHz: number,
): Candidate | null {
  let best: Candidate | null = null
  for (const { segment, sign, values } of least) {
    const near = taken.filter((each) => each.from > segment.from - n && each.from < segment.to)
      .map((each) => each.from - segment.from)
    for (let i = 0; i < values.length; i++) {
      if (best && values[i]! <= best.held) continue
      if (near.some((at) => Math.abs(at - i) < n)) continue
      best = { from: segment.from + i, held: values[i]!, sign, startS: segment.startS + i / rateHz }
    }
  }
  return best
}

/** The window of a candidate, up to `to`, with its level. */
function windowOf(
  log: RegularLog, filtered: Float64Array, raw: Float64Array, { from, held, sign, startS }: Candidate, to: number,
): HeldWindow {
  const { mean, u, dof } = seriesMean(raw, from, to)
  let peak = -Infinity
  for (let i = from; i < to; i++) peak = Math.max(peak, filtered[i]! * sign)
  const speed = log.speedMs && log.speedMs.subarray(from, to).reduce((sum, each) => sum + each, 0) / (to - from)
  return {
    fromS: startS, toS: startS + (to - from - 1) / log.rateHz, sign, levelMs2: mean * sign, uMs2: u, dof,
    heldMs2: held, peakMs2: peak, speedMs: speed,
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
  const held = slidingLeast(filtered, from, to, to - from, sign)[0]!
  const startS = segment.startS + (from - segment.from) / log.rateHz
  return windowOf(log, filtered, raw, { from, held, sign, startS }, to)
}
