/**
 * Launches: the mean acceleration over the first metres, from the moment the car moves, and the speed
 * that the air had on the way. The load goes with the mean of V squared, so the speed stated is its root.
 */
import type { Driven } from './driven'
import type { HeldWindow, RegularLog, Segment } from './types'
import { windowOf } from './window'

/** A stretch begins within this of where its car began to move, s. */
const BEGINS_WITHIN_S = 1

/**
 * The sample at which a stretch's level sets in: the place that parts the unfiltered signal around it into two
 * means with the least squares left (D. V. Hinkley, Biometrika 57 (1970) 1).
 */
function onset(log: RegularLog, raw: Float64Array, at: number, segment: Segment): number {
  const reach = Math.round(BEGINS_WITHIN_S * log.rateHz)
  const [first, last] = [Math.max(segment.from, at - reach), Math.min(segment.to, at + reach)]
  let whole = 0
  for (let i = first; i < last; i++) whole += raw[i]!
  let [best, most, before] = [at, -Infinity, 0]
  for (let i = first; i < last - 1; i++) {
    before += raw[i]!
    const [n, m] = [i + 1 - first, last - i - 1]
    const told = before ** 2 / n + (whole - before) ** 2 / m
    if (told > most) [best, most] = [i + 1, told]
  }
  return best
}

/**
 * One window for each stretch that is long enough for `overM` metres; the stretches untrimmed.
 *
 * @param overM metres from the start over which the mean is taken
 */
export function launches(
  log: RegularLog, filtered: Float64Array, raw: Float64Array, stretches: readonly Driven[], overM: number,
): HeldWindow[] {
  return stretches.flatMap((stretch): HeldWindow[] => {
    const segment = log.segments.find((each) => stretch.from >= each.from && stretch.from < each.to)!
    const from = onset(log, raw, stretch.from, segment)
    const startS = segment.startS + (from - segment.from) / log.rateHz
    let [speedMs, pathM, square] = [0, 0, 0]
    for (let i = from; i < segment.to; i++) {
      const step = (raw[i]! * stretch.sign) / log.rateHz
      pathM += (speedMs + step / 2) / log.rateHz
      speedMs += step
      square += speedMs * speedMs
      if (pathM < overM) continue
      const to = i + 1
      const level = windowOf(log, filtered, raw, { sign: stretch.sign, from, to, startS })
      return [{ ...level, speedMs: Math.sqrt(square / (to - from)) }]
    }
    return []
  })
}
