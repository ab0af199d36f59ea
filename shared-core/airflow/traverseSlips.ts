/**
 * Speeds of a traverse that look like a slip of the decimal mark: V squared counts, so that one speed of
 * ten times its own makes up nearly the whole mean.
 *
 * A jet has edges, so a speed is held against all others by their median, not by their scatter, and has
 * to stand apart from the next of them: a real core goes over into its edge by steps, a slip does not
 * (the factors are common practice, no source).
 */
import { remark, type Remark } from '@core/remark'
import type { Traverse } from '@core/schema'
import { median } from '@core/uncertainty'

/** Times the median of the others; a slip at an edge of half the median is still five times as fast. */
const FACTOR = 5
/** Times the fastest speed that is not in doubt. */
const GAP = 3
/** Places by which a decimal mark slips at most. */
const MOST_PLACES = 3
/** More than this share of the readings are no slips but the jet. */
const MOST_SHARE = 1 / 3

export interface TraverseSlip {
  readonly pointId: string
  /** Number of the point and of its reading, from 1. */
  readonly point: number
  readonly repeat: number
  readonly shownMs: number
  /** The speed with its decimal mark moved to where the others are. */
  readonly suggestedMs: number
  /** Median of the other readings. */
  readonly othersMs: number
}

type Reading = Pick<TraverseSlip, 'pointId' | 'point' | 'repeat' | 'shownMs'>

/** The readings of a traverse that are probably a slip, in its order; none with fewer than two readings. */
export function traverseSlips({ points }: Traverse): TraverseSlip[] {
  const all = points.flatMap(({ id, shownMs }, at): Reading[] =>
    shownMs.map((shown, index) => ({ pointId: id, point: at + 1, repeat: index + 1, shownMs: shown })))
  const high = tooFast(all)
  const low = tooSlow(all.filter((each) => !high.includes(each)))
  const slips = all.filter((each) => high.includes(each) || low.includes(each))
  if (slips.length > Math.max(1, MOST_SHARE * all.length)) return []
  return slips.map((each) => {
    const othersMs = median(others(all, each))
    const moved = each.shownMs / 10 ** Math.round(Math.log10(each.shownMs / othersMs))
    return { ...each, suggestedMs: Number(moved.toPrecision(12)), othersMs }
  })
}

const others = (all: readonly Reading[], own: Reading): number[] =>
  all.filter((each) => each !== own).map((each) => each.shownMs)

function tooFast(all: readonly Reading[]): Reading[] {
  const found = all.filter((each) => {
    const usual = median(others(all, each))
    return usual > 0 && each.shownMs >= FACTOR * usual
  })
  const fastest = Math.max(0, ...all.filter((each) => !found.includes(each)).map((each) => each.shownMs))
  return found.every((each) => each.shownMs >= GAP * fastest) ? found : []
}

/** A slow speed may be the edge of the jet: only where its point was read as fast as all others is it a slip. */
function tooSlow(all: readonly Reading[]): Reading[] {
  if (all.length < 3) return []
  return all.filter((own) => {
    const usual = median(others(all, own))
    const here = median(others(all.filter((each) => each.pointId === own.pointId), own))
    const slowest = Math.min(here, usual)
    // A speed too slow for any slip of the mark is none: it is next to nothing, and adds as little.
    const slipped = own.shownMs * 10 ** MOST_PLACES >= slowest && FACTOR * own.shownMs <= slowest
    return slipped && here < FACTOR * usual
  })
}

/** The slips as remarks, to be settled before the load is believed. */
export const slipRemarks = (traverse: Traverse): Remark[] =>
  traverseSlips(traverse).map(({ point, repeat, shownMs, suggestedMs, othersMs }) =>
    remark('traverseSlip', { point, repeat, shownMs, suggestedMs, othersMs }))
