/**
 * The traverse: the stream's mean of V squared over the points, never the mean of V, since the load
 * goes with V squared and an uneven jet has more of it than its mean speed tells.
 */
import { remark, type Remark } from '@core/remark'
import type { Chassis, Traverse } from '@core/schema'
import { combine, entered, exact, fromData, fromSource, known, plus, type Uncertain } from '@core/uncertainty'
import { fingerprint } from './fingerprint'
import { slipRemarks } from './traverseSlips'
import { splitUnevenness, type Unevenness } from './unevenness'

/**
 * Relative standard deviation of V squared assumed over a jet that was read at one point only (common
 * practice, no source).
 */
export const ASSUMED_UNEVENNESS = 0.2
/** Relative standard uncertainty of an anemometer that is not in the profile (common practice, no source). */
const UNKNOWN_FACTOR_U = 0.05

export interface TraverseResult {
  readonly meanSquareM2S2: Uncertain
  readonly unevenness: number | null
  readonly pointCount: number
  readonly remarks: readonly Remark[]
}

/** Places closer together than the jet changes tell the same: no grid counts for more than so many of them. */
const MOST_PLACES = 45

/**
 * Mean of V squared over a traverse; null without a point that was read.
 *
 * Sources: `anemometer:<id>:factor` (shared by everything read with it); rounding and repeats of this
 * traverse; and the unevenness, as the standard deviation of the mean over the points. Of that, what the
 * places explain belongs to the jet and the grid: runs of one session at one setting over one grid share
 * it. What differs from traverse to traverse is each one's own.
 *
 * @param scope the session's id
 * @param setting the blower setting, part of the names
 * @param others traverses of the session's other runs at that setting
 */
export function readTraverse(
  traverse: Traverse, chassis: Chassis, scope: string, setting: string, others: readonly Traverse[] = [],
): TraverseResult | null {
  const points = readPoints(traverse)
  const weights = sharesOf(points.map(({ weight }) => weight))
  if (!weights) return null
  const anemometer = chassis.anemometers.find(({ id }) => id === traverse.anemometerId)
  const remarks = anemometer ? [] : [remark('unknownAnemometer', { relativeU: UNKNOWN_FACTOR_U })]
  remarks.push(...slipRemarks(traverse))
  const factor = entered(
    anemometer?.factor ?? { value: 1, u: UNKNOWN_FACTOR_U }, 'anemometer', `anemometer:${traverse.anemometerId}:factor`,
  )
  const jet = `traverse:${scope}:${setting}`
  const same = `${jet}:${contentOf(points)}`
  const grid = `${jet}:${gridOf(points)}`

  const squares = squaresOf(points)
  const means = points.map(({ shownMs }) => meanOf(shownMs))
  const shown = squares.reduce((sum, each, i) => sum + weights[i]! * each, 0)
  const spread = evenness(squares, weights, shown)
  if (spread === null) remarks.push(remark('onePointTraverse', { relativeU: ASSUMED_UNEVENNESS }))

  const rounding = roundingOf(means, weights, points.map(({ shownMs }) => shownMs), anemometer?.resolutionMs ?? 0)
  const repeats = repeatsOf(means, weights, points.map(({ shownMs }) => shownMs))
  if (repeats === null) remarks.push(remark('noTraverseRepeats'))
  const split = spread && unevennessOf(points, others, spread.deviation / shown)
  const concentration = weights.reduce((sum, each) => sum + each * each, 0)
  const placesU = split === null ? null : shown * Math.sqrt(split.places * Math.max(concentration, 1 / MOST_PLACES))
  const parts = [
    exact(shown),
    fromSource(0, rounding, known('traverseRounding', `${same}:rounding`)),
    // Where other traverses tell how the readings scatter, their repeats are part of that.
    split && split.readingsDof > 0
      ? fromSource(0, shown * Math.sqrt(split.readings * concentration),
        fromData('traverseRepeats', `${same}:repeats`, split.readingsDof, `${grid}:readings`))
      : repeats ? fromSource(0, repeats.u, fromData('traverseRepeats', `${same}:repeats`, repeats.dof)) : exact(0),
    placesU === null
      ? fromSource(0, ASSUMED_UNEVENNESS * shown, known('unevenness', `${grid}:unevenness`))
      : fromSource(0, placesU, fromData('unevenness', `${grid}:unevenness`, points.length - 1)),
  ].reduce(plus)
  const c = factor.value
  return {
    meanSquareM2S2: combine(c * c * shown, [[parts, c * c], [factor, 2 * c * shown]]),
    unevenness: spread && spread.deviation / shown, pointCount: points.length, remarks,
  }
}

type Point = Traverse['points'][number]

const readPoints = ({ points }: Traverse): Point[] => points.filter(({ shownMs }) => shownMs.length > 0)

const gridOf = (points: readonly Point[]): string =>
  fingerprint(points.map(({ yMm, zMm, weight }) => [yMm, zMm, weight]))
const contentOf = (points: readonly Point[]): string =>
  fingerprint(points.map(({ yMm, zMm, weight, shownMs }) => [yMm, zMm, weight, shownMs]))

/** Other traverses over the same places, each measurement once: a traverse copied from run to run is one. */
function apartFrom(points: readonly Point[], others: readonly Traverse[]): Point[][] {
  const grid = gridOf(points)
  const found = new Map(others.map(readPoints).filter((each) => gridOf(each) === grid)
    .map((each) => [contentOf(each), each]))
  found.delete(contentOf(points))
  return [...found.values()].filter((each) => each.some(({ shownMs }) => shownMs.some((shown) => shown > 0)))
}

/** Mean of V squared at each point. */
const squaresOf = (points: readonly Point[]): number[] =>
  points.map(({ shownMs }) => meanOf(shownMs.map((each) => each * each)))

/** The spread taken apart: by the other traverses, else by the readings' repeats, else it is all the places'. */
function unevennessOf(points: readonly Point[], others: readonly Traverse[], deviation: number): Unevenness {
  const alike = apartFrom(points, others)
  if (alike.length > 0) return splitUnevenness([points, ...alike].map(squaresOf))
  return { places: Math.max(0, deviation ** 2 - repeatsVariance(points)), readings: 0, readingsDof: 0 }
}

/** Relative variance that the readings' repeats leave in V squared of a point; 0 where nothing was repeated. */
function repeatsVariance(points: readonly Point[]): number {
  const squares = squaresOf(points)
  const dof = points.reduce((sum, { shownMs }) => sum + shownMs.length - 1, 0)
  if (dof === 0) return 0
  const scatter = points.reduce((sum, { shownMs }, i) =>
    sum + shownMs.reduce((one, each) => one + (each * each - squares[i]!) ** 2, 0), 0) / dof
  return (scatter * meanOf(points.map(({ shownMs }) => 1 / shownMs.length))) / meanOf(squares) ** 2
}

const meanOf = (values: readonly number[]): number => values.reduce((sum, each) => sum + each, 0) / values.length

/** Weights as shares that add to 1; equal where none is given. Null where nothing is left. */
function sharesOf(weights: readonly (number | null)[]): number[] | null {
  const given = weights.map((each) => each ?? 1)
  const total = given.reduce((sum, each) => sum + each, 0)
  return total > 0 ? given.map((each) => each / total) : null
}

/** Scatter of V squared over the jet and what it leaves in the weighted mean; null with one point. */
function evenness(
  squares: readonly number[], weights: readonly number[], mean: number,
): { deviation: number; u: number } | null {
  const concentration = weights.reduce((sum, each) => sum + each * each, 0)
  if (squares.length < 2 || concentration >= 1) return null
  const biased = squares.reduce((sum, each, i) => sum + weights[i]! * (each - mean) ** 2, 0)
  const deviation = Math.sqrt(biased / (1 - concentration))
  return { deviation, u: deviation * Math.sqrt(concentration) }
}

/** Rounding of the display: independent from point to point, and between readings that scatter past it. */
function roundingOf(
  means: readonly number[], weights: readonly number[], shown: readonly (readonly number[])[], resolution: number,
): number {
  return Math.hypot(...means.map((mean, i) => {
    const scattered = new Set(shown[i]!).size > 1
    return 2 * mean * weights[i]! * resolution / Math.sqrt(scattered ? 12 * shown[i]!.length : 12)
  }))
}

/** Scatter of repeats, pooled over the points; null where nothing was repeated. */
function repeatsOf(
  means: readonly number[], weights: readonly number[], shown: readonly (readonly number[])[],
): { u: number; dof: number } | null {
  const dof = shown.reduce((sum, each) => sum + each.length - 1, 0)
  if (dof === 0) return null
  const square = shown.reduce((sum, each, i) => sum + each.reduce((own, one) => own + (one - means[i]!) ** 2, 0), 0)
  const deviation = Math.sqrt(square / dof)
  const each = means.map((mean, i) => (2 * mean * weights[i]! * deviation) / Math.sqrt(shown[i]!.length))
  return { u: Math.hypot(...each), dof }
}
