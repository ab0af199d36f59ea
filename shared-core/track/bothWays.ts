/**
 * What a sensor shows of nothing (its bias, its lean, the slope it stood on at rest) lifts every level one
 * way round and lowers every one the other way. With both ways driven the mean of the two means is free of it.
 */
import type { LogRun } from '@core/schema'
import { fromSource, type Uncertain } from '@core/uncertainty'
import { spreadOf } from './repeats'
import { zeroSource } from './sources'

export interface BothWays {
  readonly mean: number
  readonly u: number
  readonly dof: number
  /** What is shown of nothing to the side: it lifts one way and lowers the other. */
  readonly zeroMs2: number
}

const signOf = ({ levelSigns }: LogRun, index: number): 1 | -1 => levelSigns?.[index] ?? 1

/**
 * The level from both ways round, with u from the scatter about each way's own mean; null where a way has
 * fewer than two windows.
 */
export function bothWays(run: LogRun): BothWays | null {
  const sides = ([1, -1] as const).map((sign) =>
    spreadOf(run.levelsMs2.filter((_, index) => signOf(run, index) === sign).map(({ value }) => value)))
  const [one, other] = sides as [ReturnType<typeof spreadOf>, ReturnType<typeof spreadOf>]
  if (!(one.count >= 2) || !(other.count >= 2)) return null
  const dof = one.count + other.count - 2
  const square = sides.reduce((sum, { deviation, count }) => sum + (count - 1) * deviation ** 2, 0) / dof
  return {
    mean: (one.mean + other.mean) / 2, u: Math.sqrt((square / 4) * (1 / one.count + 1 / other.count)), dof,
    zeroMs2: (one.mean - other.mean) / 2,
  }
}

/**
 * What the zero may have put into the run's level; null where nothing is known of it. With both ways driven it
 * cancels to first order: what is left is of second order, as a lean takes the cosine of the level and what is
 * shown of nothing ahead adds at right angles. That is as large as the zero to the side, which was seen, makes it.
 */
export function zeroPart(run: LogRun): Uncertain | null {
  const both = bothWays(run)
  if (both) return fromSource(0, both.zeroMs2 ** 2 / (2 * both.mean), zeroSource(run.id))
  if (!run.zeroUMs2) return null
  const signs = run.levelsMs2.reduce((sum, _, index) => sum + signOf(run, index), 0)
  return fromSource(0, (run.zeroUMs2 * signs) / run.levelsMs2.length, zeroSource(run.id))
}
