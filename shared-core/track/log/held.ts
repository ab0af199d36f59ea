/**
 * The sustained level. A level is held over T seconds where the filtered signal never falls below it
 * for the whole of T; the best is the one whose least value is the largest. What counts is every
 * stretch that never falls below a share of the best, cut into pieces of T from its middle: where a
 * piece lies is not chosen by its own height, so its mean is no lucky one, however long the log. The
 * level stated is the mean of the unfiltered signal over a piece, blows left out, with the
 * uncertainty that its own noise and its memory leave.
 */
import { seriesMean } from './autocorrelation'
import { withoutBlows } from './blows'
import type { HeldWindow, RegularLog } from './types'

export interface HeldOptions {
  readonly sustainS: number
  /** Which way counts: both turns, or one. */
  readonly direction: 'either' | 'positive' | 'negative'
  /** Most windows taken; of more, this many spread evenly over the log. */
  readonly most: number
  /** A stretch counts where it never falls below this share of the best level held. */
  readonly leastShare: number
}

/** The windows taken, in the order driven, and how many there were to take from. */
export interface HeldWindows { readonly windows: readonly HeldWindow[]; readonly of: number }

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

interface Candidate { readonly from: number; readonly sign: 1 | -1; readonly startS: number }

/** Windows in which a level was held. Empty where no segment is as long as `sustainS`. */
export function heldWindows(
  log: RegularLog, filtered: Float64Array, raw: Float64Array, options: HeldOptions,
): HeldWindows {
  const n = Math.max(2, Math.round(options.sustainS * log.rateHz))
  const signs = ([1, -1] as const).filter((sign) =>
    options.direction === 'either' || (sign === 1) === (options.direction === 'positive'))
  const best = Math.max(...signs.map((sign) => bestHeld(log, filtered, n, sign)))
  if (!(best > 0)) return { windows: [], of: 0 }
  const found = signs.flatMap((sign) => piecesOf(log, filtered, n, sign, options.leastShare * best))
    .sort((a, b) => a.from - b.from)
  const taken = found.length <= options.most ? found
    : Array.from({ length: options.most }, (_, i) => found[Math.floor(((i + 0.5) * found.length) / options.most)]!)
  return { windows: taken.map((each) => windowOf(log, filtered, raw, each, each.from + n)), of: found.length }
}

/** The largest level held for n samples one way, m/s2; minus infinity where no segment is as long. */
function bestHeld(log: RegularLog, filtered: Float64Array, n: number, sign: 1 | -1): number {
  let best = -Infinity
  for (const { from, to } of log.segments) {
    for (const least of slidingLeast(filtered, from, to, n, sign)) if (least > best) best = least
  }
  return best
}

/** Every stretch of n samples or more that stays at or above a level, cut into pieces of n from its middle. */
function piecesOf(log: RegularLog, filtered: Float64Array, n: number, sign: 1 | -1, level: number): Candidate[] {
  return log.segments.flatMap(({ from, to, startS }) => {
    const found: Candidate[] = []
    for (let i = from; i < to; i++) {
      if (filtered[i]! * sign < level) continue
      const first = i
      while (i < to && filtered[i]! * sign >= level) i++
      const count = Math.floor((i - first) / n)
      const spare = Math.floor((i - first - count * n) / 2)
      for (let piece = 0; piece < count; piece++) {
        const at = first + spare + piece * n
        found.push({ from: at, sign, startS: startS + (at - from) / log.rateHz })
      }
    }
    return found
  })
}

/** The window of a candidate, up to `to`, with its level. */
function windowOf(
  log: RegularLog, filtered: Float64Array, raw: Float64Array, { from, sign, startS }: Candidate, to: number,
): HeldWindow {
  const { kept, leftOut } = withoutBlows(raw.subarray(from, to))
  const { mean, u, dof } = seriesMean(kept)
  let [held, peak] = [Infinity, -Infinity]
  for (let i = from; i < to; i++) {
    held = Math.min(held, filtered[i]! * sign)
    peak = Math.max(peak, filtered[i]! * sign)
  }
  const speed = log.speedMs && log.speedMs.subarray(from, to).reduce((sum, each) => sum + each, 0) / (to - from)
  return {
    fromS: startS, toS: startS + (to - from - 1) / log.rateHz, sign, levelMs2: mean * sign, uMs2: u, dof,
    heldMs2: held, peakMs2: peak, leftOut, speedMs: speed,
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
  const startS = segment.startS + (from - segment.from) / log.rateHz
  return windowOf(log, filtered, raw, { from, sign, startS }, to)
}
