/**
 * Driven stretches to windows. Where a lap's length is known they are whole laps, over which a slope of
 * the ground and a steady wind cancel; where it is not but the level clearly swings, whole swings; else
 * pieces of one length, cut by time.
 */
import type { Driven } from './driven'
import { swingSamples } from './swing'
import type { HeldWindow, RegularLog } from './types'
import { windowOf, type Range } from './window'

/** What tells a lap: its time, or the circle's radius, with which the level itself gives the time. */
export type LapLength = { readonly timeS: number } | { readonly radiusM: number }

/** As many pieces as a log is cut into at most: more would only be shorter. */
const MOST_PIECES = 40

/** More windows than this tell no more: of more, so many are taken, spread evenly over the log. */
const MOST_WINDOWS = 400

export interface CutWindows {
  readonly windows: readonly HeldWindow[]
  /** How many there were to take from. */
  readonly of: number
  readonly taken: 'laps' | 'swings' | 'pieces'
  /** Time of one swing, s; null unless they were taken. */
  readonly swingS: number | null
}

function meanOf(raw: Float64Array, { from, to }: Driven): number {
  let sum = 0
  for (let i = from; i < to; i++) sum += raw[i]!
  return sum / (to - from)
}

/** Samples in one lap of a stretch: T = 2 pi sqrt(R / a) where the radius tells it. */
function lapSamples(log: RegularLog, raw: Float64Array, stretch: Driven, lap: LapLength): number {
  if ('timeS' in lap) return lap.timeS * log.rateHz
  return 2 * Math.PI * Math.sqrt(lap.radiusM / Math.abs(meanOf(raw, stretch))) * log.rateHz
}

/** Cuts a stretch into `count` equal parts of `length` samples, not rounded, from its beginning. */
const partsOf = (log: RegularLog, { from, sign, startS }: Driven, length: number, count: number): Range[] =>
  Array.from({ length: count }, (_, part) => {
    const at = Math.round(part * length)
    return { from: from + at, to: from + Math.round((part + 1) * length), sign, startS: startS + at / log.rateHz }
  })

/**
 * Windows of all stretches.
 *
 * @param lap null where it is not known
 * @param sustainS shortest piece, s
 */
export function cutStretches(
  log: RegularLog, filtered: Float64Array, raw: Float64Array, stretches: readonly Driven[], lap: LapLength | null,
  sustainS: number,
): CutWindows {
  const cut = (ranges: readonly Range[], taken: CutWindows['taken'], swingS: number | null = null): CutWindows => {
    const windows = spreadEvenly(ranges).map((range) => windowOf(log, filtered, raw, range))
    return { windows, of: ranges.length, taken, swingS }
  }
  const whole = (lengthOf: (stretch: Driven) => number): Range[] => stretches.flatMap((stretch) => {
    const length = lengthOf(stretch)
    return partsOf(log, stretch, length, Math.floor((stretch.to - stretch.from) / length))
  })
  if (lap) {
    const laps = whole((stretch) => lapSamples(log, raw, stretch, lap))
    if (laps.length > 0) return cut(laps, 'laps')
  }
  const swing = swingSamples(log, raw, stretches)
  if (swing !== null) {
    const swings = Math.max(1, Math.ceil((sustainS * log.rateHz) / swing))
    return cut(whole(() => swings * swing), 'swings', swing / log.rateHz)
  }
  const total = stretches.reduce((sum, { from, to }) => sum + to - from, 0)
  const least = Math.max(2, sustainS * log.rateHz, total / MOST_PIECES)
  const pieces = stretches.flatMap((stretch) => {
    const length = stretch.to - stretch.from
    const count = Math.max(1, Math.floor(length / least))
    return partsOf(log, stretch, length / count, count)
  })
  return cut(pieces, 'pieces')
}

const spreadEvenly = (ranges: readonly Range[]): readonly Range[] => (ranges.length <= MOST_WINDOWS ? ranges
  : Array.from({ length: MOST_WINDOWS }, (_, i) => ranges[Math.floor(((i + 0.5) * ranges.length) / MOST_WINDOWS)]!))
