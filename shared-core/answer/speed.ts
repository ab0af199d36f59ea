/** The one speed that the answer is told at: asked by the builder, else a round one inside what was read. */
import type { ConfigurationResult } from '@core/analysis'
import type { Chassis } from '@core/schema'
import { fromKept, toKept, unitFor, type UnitChoice } from '@core/units'
import type { AnswerSpeed } from './types'

/** Speeds read of a set-up, m/s. */
export interface SpeedRange { readonly lowMs: number; readonly highMs: number }

/** Steps of a round figure, in the builder's unit, the roundest first. */
const STEPS = [10, 5, 2, 1, 0.5] as const

/**
 * The roundest figure inside a range, in a unit; of several the one nearest its middle. Where none lies inside, the
 * middle to a tenth of the unit.
 */
export function roundInside({ lowMs, highMs }: SpeedRange, units: Pick<UnitChoice, 'speed'>): number {
  const unit = unitFor('speed', units as UnitChoice)
  const [low, high] = [fromKept(lowMs, unit), fromKept(highMs, unit)]
  const middle = (low + high) / 2
  for (const step of STEPS) {
    const near = Math.round(middle / step)
    const inside = [near, near - 1, near + 1].map((each) => each * step).find((each) => each >= low && each <= high)
    if (inside !== undefined && inside > 0) return toKept(inside, unit)
  }
  return toKept(Math.round(middle * 10) / 10, unit)
}

/** Speeds that all these set-ups were read at; where they have none in common, those of the first. Null without any. */
export function rangeRead(all: readonly ConfigurationResult[]): SpeedRange | null {
  const read = all.map(({ aero: { total: { lowMs, highMs } } }) => ({ lowMs, highMs }))
    .filter(({ lowMs, highMs }) => Number.isFinite(lowMs) && Number.isFinite(highMs) && lowMs > 0)
  const [first] = read
  if (!first) return null
  const common = {
    lowMs: Math.max(...read.map(({ lowMs }) => lowMs)), highMs: Math.min(...read.map(({ highMs }) => highMs)),
  }
  return common.lowMs <= common.highMs ? common : first
}

/**
 * @param all the set-ups in question, the best first
 */
export function answerSpeed(
  { askedSpeedMs }: Pick<Chassis, 'askedSpeedMs'>, all: readonly ConfigurationResult[], units: Pick<UnitChoice, 'speed'>,
): AnswerSpeed | null {
  if (askedSpeedMs !== undefined) return { speedMs: askedSpeedMs, from: 'asked' }
  const range = rangeRead(all)
  return range && { speedMs: roundInside(range, units), from: 'round' }
}

/** Speeds nearer to each other than this share are one. */
const SAME_SPEED = 0.02

/**
 * Speeds at which loads are tabled, the slowest first: the answer's, and the ends of what was read of any of the
 * set-ups. Empty where nothing was read.
 */
export function toldSpeeds(
  chassis: Pick<Chassis, 'askedSpeedMs'>, all: readonly ConfigurationResult[], units: Pick<UnitChoice, 'speed'>,
): number[] {
  const answer = answerSpeed(chassis, all, units)
  if (!answer) return []
  const ends = all.flatMap(({ aero: { total: { lowMs, highMs } } }) => [lowMs, highMs])
    .filter((each) => Number.isFinite(each) && each > 0)
  const wanted = ends.length > 0 ? [answer.speedMs, Math.min(...ends), Math.max(...ends)] : [answer.speedMs]
  return wanted
    .filter((each, i) => wanted.findIndex((other) => Math.abs(other - each) <= SAME_SPEED * each) === i)
    .sort((a, b) => a - b)
}
