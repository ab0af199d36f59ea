/** Whether a stretch of heights stands still, so that its mean is a reading. */
import { windowMean } from '../film/mean'
import type { Corner } from '@core/schema'
import type { LiveHeights } from './bench'

export interface Calm {
  /** Mean of each corner over the stretch, mm, and its standard uncertainty from the scatter alone. */
  readonly meanMm: Partial<Record<Corner, number>>
  readonly uMm: Partial<Record<Corner, number>>
  readonly fromS: number
  readonly toS: number
}

/** Drift between the two halves of a stretch that counts as none, mm. */
const STILL_MM = 0.03
/** Halves whose means differ by more than this many of their joint u move. */
const CLEAR = 3
/** Frames of a stretch in which a corner may be lost, as a share. */
const LOST_SHARE = 0.1
const LEAST_FRAMES = 10

/**
 * The stretch from `fromS` to `toS`, if it is calm: nearly all its frames saw the marks, and the means
 * of its halves agree within their own scatter (neighbouring frames counted as alike as they are).
 * Shivering is calm as long as it shivers about one place.
 *
 * @param mostScatterMm standard deviation of single frames about the mean above which it is not, mm
 */
export function calmOver(
  frames: readonly LiveHeights[], corners: readonly Corner[], fromS: number, toS: number, mostScatterMm = Infinity,
): Calm | null {
  const inside = frames.filter(({ timeS }) => timeS >= fromS && timeS <= toS)
  const first = inside[0]
  const last = inside.at(-1)
  if (!first || !last || inside.length < LEAST_FRAMES) return null
  // The stretch is not there yet, or has a hole at one of its ends.
  if (last.timeS - first.timeS < 0.85 * (toS - fromS)) return null
  const meanMm: Partial<Record<Corner, number>> = {}
  const uMm: Partial<Record<Corner, number>> = {}
  const middleS = (first.timeS + last.timeS) / 2
  for (const corner of corners) {
    const seen = inside.flatMap(({ timeS, heightsMm }) => {
      const value = heightsMm[corner]
      return value === null || value === undefined ? [] : [{ timeS, value }]
    })
    if (seen.length < (1 - LOST_SHARE) * inside.length) return null
    const all = windowMean(seen)
    const a = windowMean(seen.filter(({ timeS }) => timeS <= middleS))
    const b = windowMean(seen.filter(({ timeS }) => timeS > middleS))
    if (!all || !a || !b) return null
    if (scatterOf(seen.map(({ value }) => value), all.mean) > mostScatterMm) return null
    if (Math.abs(a.mean - b.mean) > Math.max(STILL_MM, CLEAR * Math.hypot(a.u, b.u))) return null
    meanMm[corner] = all.mean
    uMm[corner] = all.u
  }
  return { meanMm, uMm, fromS: first.timeS, toS: last.timeS }
}

const scatterOf = (values: readonly number[], mean: number): number =>
  Math.sqrt(values.reduce((sum, each) => sum + (each - mean) ** 2, 0) / Math.max(1, values.length - 1))

/** The largest scatter of single frames about the mean of a calm stretch over its corners, mm. */
export const scatterIn = (frames: readonly LiveHeights[], corners: readonly Corner[], calm: Calm): number =>
  Math.max(...corners.map((corner) => {
    const values = frames.flatMap(({ heightsMm }) => (typeof heightsMm[corner] === 'number' ? [heightsMm[corner]] : []))
    return scatterOf(values, calm.meanMm[corner]!)
  }))

/** The largest change of any corner from one stretch to another over its joint u, and that change, mm, + is down. */
export function changeBetween(
  before: Calm, after: Calm, corners: readonly Corner[],
): { readonly dropMm: Partial<Record<Corner, number>>; readonly clear: Partial<Record<Corner, boolean>> } {
  const dropMm: Partial<Record<Corner, number>> = {}
  const clear: Partial<Record<Corner, boolean>> = {}
  for (const corner of corners) {
    const drop = (before.meanMm[corner] ?? Number.NaN) - (after.meanMm[corner] ?? Number.NaN)
    const u = Math.hypot(before.uMm[corner] ?? 0, after.uMm[corner] ?? 0)
    dropMm[corner] = drop
    clear[corner] = Math.abs(drop) > Math.max(2 * STILL_MM, CLEAR * u)
  }
  return { dropMm, clear }
}
