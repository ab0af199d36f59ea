/**
 * In which order to drive a comparison. Blocks A B B A and B A A B: within a block a steady drift (tyres,
 * surface, battery) cancels, whatever its size; which of the two a block is, is drawn by lot, so that
 * nothing that comes and goes can follow the device. Two blocks of opposite kind cancel a bent drift, too.
 */
import { pairedPower } from './power'

export interface PlanQuestion {
  /** Relative gain that is to be found. */
  readonly wishedShare: number
  /** Relative standard deviation from run to run, of one configuration. */
  readonly runShare: number
  readonly power: number
  /** Two-sided level of significance. */
  readonly level: number
}

export interface PlanAnswer {
  /** Blocks of four runs, two pairs each; null where more than `MOST_BLOCKS` would be needed. */
  readonly blocks: number | null
  readonly runs: number | null
  /** Power that this many blocks have. */
  readonly power: number
  /** Relative gain that `power` finds with one, two, four and eight blocks: what shorter days are good for. */
  readonly detectable: readonly { readonly blocks: number; readonly share: number }[]
}

export const MOST_BLOCKS = 12

/** A pair's difference scatters by both its runs. */
const pairShare = (runShare: number): number => Math.SQRT2 * runShare

/** How many blocks find the wished gain. Shares above zero. */
export function planRuns({ wishedShare, runShare, power, level }: PlanQuestion): PlanAnswer {
  const effect = Math.log1p(wishedShare) / pairShare(runShare)
  let blocks: number | null = null
  for (let each = 1; each <= MOST_BLOCKS && blocks === null; each++) {
    if (pairedPower(2 * each, effect, level) >= power) blocks = each
  }
  return {
    blocks, runs: blocks === null ? null : 4 * blocks, power: pairedPower(2 * (blocks ?? MOST_BLOCKS), effect, level),
    detectable: [1, 2, 4, 8].map((each) => ({ blocks: each, share: detectableShare(each, runShare, power, level) })),
  }
}

/** The relative gain that so many blocks find with this power. */
function detectableShare(blocks: number, runShare: number, power: number, level: number): number {
  let [low, high] = [0, 100]
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2
    if (pairedPower(2 * blocks, middle, level) < power) low = middle
    else high = middle
  }
  return Math.expm1(high * pairShare(runShare))
}

/**
 * The order of so many blocks, balanced and drawn by lot: as many blocks begin with the one as with the
 * other, as near as their number allows.
 *
 * @param draws numbers from 0 to just under 1, one for each block
 */
export function drawnOrder<T>(before: T, after: T, blocks: number, draws: readonly number[]): T[] {
  const kinds = Array.from({ length: blocks }, (_, i) => i < Math.ceil(blocks / 2))
  for (let i = blocks - 1; i > 0; i--) {
    const j = Math.floor((draws[i] ?? 0) * (i + 1))
    ;[kinds[i], kinds[j]] = [kinds[j]!, kinds[i]!]
  }
  const turned = (draws[0] ?? 0) >= 0.5
  return kinds.flatMap((plain) => (plain !== turned ? [before, after, after, before] : [after, before, before, after]))
}
