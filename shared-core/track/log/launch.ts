/**
 * Launches: the mean acceleration over the first metres, from the moment the car moves, and the speed
 * that the air had on the way. The load goes with the mean of V squared, so the speed stated is its root.
 */
import type { Driven } from './driven'
import type { HeldWindow, RegularLog } from './types'
import { windowOf } from './window'

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
    let [speedMs, pathM, square] = [0, 0, 0]
    for (let i = stretch.from; i < segment.to; i++) {
      const step = (raw[i]! * stretch.sign) / log.rateHz
      pathM += (speedMs + step / 2) / log.rateHz
      speedMs += step
      square += speedMs * speedMs
      if (pathM < overM) continue
      const to = i + 1
      const level = windowOf(log, filtered, raw, { ...stretch, to })
      return [{ ...level, speedMs: Math.sqrt(square / (to - stretch.from)) }]
    }
    return []
  })
}
