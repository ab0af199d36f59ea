/** Stretches of a speed log in which the car slows down by itself, or speeds up all the way. */

/** A stretch by its first and one past its last reading, and the speeds at its ends, m/s. */
export interface SpeedStretch {
  readonly from: number
  readonly to: number
  readonly fromS: number
  readonly toS: number
  readonly startMs: number
  readonly endMs: number
}

/** Shortest stretch, s, and by which share of its largest speed it changes (common practice, no source). */
const SHORTEST_S = 1.5
const LEAST_CHANGE = 0.2
/** Slowing beyond this is braking, m/s2 (common practice, no source). */
const HARDEST_COAST_MS2 = 4
/** A car that changes its speed by less rolls at a steady one, m/s2. */
const LEAST_RATE_MS2 = 0.1
const LONGEST_GAP_S = 1
/** Time on each side that a speed is smoothed over, and that its change is taken from, s. */
const SMOOTH_S = 0.25
const RATE_S = 0.4

/**
 * Stretches that fall (`coast`) or rise (`fullThrottle`) without a turn, in the log's order.
 *
 * @param tS rising moments, s
 * @param vMs speeds, m/s, one for each moment
 */
export function speedStretches(
  tS: ArrayLike<number>, vMs: ArrayLike<number>, purpose: 'coast' | 'fullThrottle',
): SpeedStretch[] {
  const sign = purpose === 'coast' ? -1 : 1
  const smooth = smoothed(tS, vMs)
  const found: SpeedStretch[] = []
  const take = (from: number, to: number): void => {
    if (to - from < 2) return
    const [start, end] = [smooth[from]!, smooth[to - 1]!]
    const [fromS, toS] = [tS[from]!, tS[to - 1]!]
    if (toS - fromS < SHORTEST_S || sign * (end - start) < LEAST_CHANGE * Math.max(start, end)) return
    found.push({ from, to, fromS, toS, startMs: start, endMs: end })
  }
  let from = 0
  for (let i = 0; i < tS.length; i++) {
    const gap = i > 0 && tS[i]! - tS[i - 1]! > LONGEST_GAP_S
    const rate = sign * rateAt(tS, smooth, i)
    const goesOn = rate > LEAST_RATE_MS2 && (purpose === 'fullThrottle' || rate < HARDEST_COAST_MS2)
    if (goesOn && !gap) continue
    take(from, i)
    from = goesOn ? i : i + 1
  }
  take(from, tS.length)
  return found
}

/** Change of the speed per second about a reading, m/s2. */
function rateAt(tS: ArrayLike<number>, smooth: Float64Array, i: number): number {
  let [low, high] = [i, i]
  while (low > 0 && tS[low]! > tS[i]! - RATE_S) low -= 1
  while (high < tS.length - 1 && tS[high]! < tS[i]! + RATE_S) high += 1
  return high > low ? (smooth[high]! - smooth[low]!) / (tS[high]! - tS[low]!) : 0
}

function smoothed(tS: ArrayLike<number>, vMs: ArrayLike<number>): Float64Array {
  const out = new Float64Array(tS.length)
  let [low, high, sum] = [0, 0, 0]
  for (let i = 0; i < tS.length; i++) {
    for (; high < tS.length && tS[high]! <= tS[i]! + SMOOTH_S; high++) sum += vMs[high]!
    for (; tS[low]! < tS[i]! - SMOOTH_S; low++) sum -= vMs[low]!
    out[i] = sum / (high - low)
  }
  return out
}
