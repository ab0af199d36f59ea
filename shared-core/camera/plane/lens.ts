/** Two radial lens terms about the picture's middle, and their estimate from an edge known to be straight. */
import { solveSquare } from '@core/linear'
import type { Px } from '../raster/luminance'

export interface PictureSize { readonly widthPx: number; readonly heightPx: number }

/** Radial terms per squared half-diagonal and its fourth power; how far the lens' middle is off the picture's, px. */
export interface Lens { readonly k1: number; readonly k2: number; readonly offX: number; readonly offY: number }

/**
 * Where a straight-line lens would have shown the point: c + (p - c)(1 + k1 s^2 + k2 s^4), with c the
 * lens' middle, s the distance seen from it over half the picture's diagonal. Dimensionless, positive
 * for barrel distortion (the radial terms of Brown, Photogrammetric Engineering 32, 1966, taken from
 * the picture to the world).
 */
export function straightened(p: Px, { k1, k2, offX, offY }: Lens, { widthPx, heightPx }: PictureSize): Px {
  const cx = widthPx / 2 + offX
  const cy = heightPx / 2 + offY
  const dx = p.x - cx
  const dy = p.y - cy
  const square = (dx * dx + dy * dy) / ((widthPx * widthPx + heightPx * heightPx) / 4)
  const stretch = 1 + square * (k1 + k2 * square)
  return { x: cx + dx * stretch, y: cy + dy * stretch }
}

/** A mark on the edge with its standard uncertainty, px. */
export interface EdgeMark extends Px { readonly uPx: number }

/** Why an edge does not tell the lens. */
export type LensUntold = 'fewMarks' | 'throughMiddle' | 'tooBent'

export type LensFit =
  | {
      readonly kind: 'measured'
      readonly k1: number
      readonly k2: number
      /** Covariance of (k1, k2), already scaled by the misfit where that is above 1. */
      readonly covariance: readonly [readonly [number, number], readonly [number, number]]
      /** Change of (k1, k2) per px of the lens' middle along x and along y. */
      readonly perOffX: readonly [number, number]
      readonly perOffY: readonly [number, number]
      /** Root of chi-square over its degrees of freedom: how many times their u the marks stay off a line. */
      readonly misfit: number
      readonly dof: number
      /** How far the marks stay off the line after the fit, root mean square, px. */
      readonly leftPx: number
      /** 2 where the marks tell the second term, too; 1 where only knowledge bounds it. */
      readonly terms: 1 | 2
    }
  | { readonly kind: 'untold'; readonly why: LensUntold }

/** Fewest marks on the edge. */
export const LEAST_EDGE_MARKS = 3

/** An edge that leaves k1 less sure than this passes too near the middle, where nothing else is known. */
const SURE = 0.25

/** The kind of camera bounds what an edge tells by so many times its usual u: the edge counts before it. */
const WIDENED = 2

/** What is known of the lens without any edge. */
export interface LensBefore {
  readonly k1: { readonly value: number; readonly u: number }
  readonly k2: { readonly value: number; readonly u: number }
}

/**
 * What is known of the second term where nobody said what camera it is: zero within this and as much
 * as the first. A lens that keeps angles (equidistant) has k2 near 1.2 k1^2 (series of tan x / x).
 */
const secondTermU = (k1: number): number => 0.02 + Math.abs(k1)

/**
 * The lens terms that make the marks on a straight edge straight again: least squares of their
 * distances from a line, each by its own u, with what is known of the second term as one more
 * observation. Where the marks stay farther off than their u allows, the covariance is scaled by
 * chi-square over its degrees of freedom (Birge, Phys. Rev. 40, 1932). The more the edge stands away
 * from the middle and the longer it is, the better.
 *
 * @param marks three or more on one edge
 * @param size of the picture, px
 * @param before what is known of the lens without the edge: further observations, and what an edge
 *   must do better than; null for nothing
 */
export function lensFromEdge(
  marks: readonly EdgeMark[], size: PictureSize, before: LensBefore | null = null,
): LensFit {
  if (marks.length < LEAST_EDGE_MARKS) return { kind: 'untold', why: 'fewMarks' }
  const fitAt = (offX: number, offY: number): Fitted | null => fitWith(marks, size, before, { offX, offY })
  const best = fitAt(0, 0)
  if (!best) return { kind: 'untold', why: 'throughMiddle' }
  if (!staysInOrder(best.k1, best.k2)) return { kind: 'untold', why: 'tooBent' }
  // A line takes two; the terms are known before, or the first takes one.
  const dof = marks.length - (before ? 2 : 3)
  const misfit = dof > 0 ? Math.sqrt(best.chiSquare / dof) : 1
  const scale = Math.max(1, misfit) ** 2
  const covariance = best.covariance.map((row) => row.map((each) => each * scale))
  if (!(Math.sqrt(covariance[0]![0]!) < (before?.k1.u ?? SURE))) return { kind: 'untold', why: 'throughMiddle' }
  const step = 0.005 * size.widthPx
  const slope = (x: number, y: number): readonly [number, number] => {
    const [ahead, behind] = [fitAt(x * step, y * step), fitAt(-x * step, -y * step)]
    return ahead && behind ? [(ahead.k1 - behind.k1) / (2 * step), (ahead.k2 - behind.k2) / (2 * step)] : [0, 0]
  }
  return {
    kind: 'measured', k1: best.k1, k2: best.k2, covariance: covariance as [[number, number], [number, number]],
    perOffX: slope(1, 0), perOffY: slope(0, 1), misfit, dof, leftPx: best.leftPx,
    terms: Math.sqrt(covariance[1]![1]!) < 0.5 * (before?.k2.u ?? secondTermU(best.k1)) ? 2 : 1,
  }
}

interface Fitted { k1: number; k2: number; covariance: number[][]; chiSquare: number; leftPx: number }

/** Levenberg-Marquardt with the lens' middle held; null where it finds no minimum. */
function fitWith(
  marks: readonly EdgeMark[], size: PictureSize, before: LensBefore | null,
  { offX, offY }: Pick<Lens, 'offX' | 'offY'>,
): Fitted | null {
  const residuals = (k1: number, k2: number, priorU: number): number[] => {
    const points = marks.map((each) => straightened(each, { k1, k2, offX, offY }, size))
    const known = before
      ? [(k1 - before.k1.value) / (WIDENED * before.k1.u), (k2 - before.k2.value) / (WIDENED * before.k2.u)]
      : [k2 / priorU]
    return [...offLine(points, marks).map((off, i) => off / marks[i]!.uPx), ...known]
  }
  const cost = (values: readonly number[]): number => values.reduce((sum, each) => sum + each * each, 0)
  let k1 = 0
  let k2 = 0
  let damping = 1e-3
  for (let round = 0; round < 200; round++) {
    const priorU = secondTermU(k1)
    const here = residuals(k1, k2, priorU)
    const columns = [[1e-5, 0], [0, 1e-5]].map(([a, b]) => {
      const ahead = residuals(k1 + a!, k2 + b!, priorU)
      const behind = residuals(k1 - a!, k2 - b!, priorU)
      return ahead.map((each, i) => (each - behind[i]!) / 2e-5)
    })
    const normal = columns.map((one) => columns.map((other) => one.reduce((sum, each, i) => sum + each * other[i]!, 0)))
    const slope = columns.map((one) => -one.reduce((sum, each, i) => sum + each * here[i]!, 0))
    const damped = normal.map((row, i) => row.map((each, j) => (i === j ? each * (1 + damping) + 1e-9 : each)))
    const step = solveSquare(damped, [...slope])
    if (!step) return null
    const [next1, next2] = [k1 + step[0]!, k2 + step[1]!]
    const better = cost(residuals(next1, next2, priorU)) <= cost(here) * (1 + 1e-12)
    if (better) {
      k1 = next1
      k2 = next2
    }
    damping = better ? damping / 5 : damping * 8
    if (damping > 1e12) return null
    if (better && (Math.hypot(step[0]!, step[1]!) < 1e-9 || Math.abs(k1) > 10)) return ended(normal, here)
  }
  return null

  function ended(normal: number[][], values: readonly number[]): Fitted | null {
    const [[a, b], [, d]] = normal as [[number, number], [number, number]]
    const determinant = a * d - b * b
    if (!(determinant > 0)) return null
    const chiSquare = values.slice(0, before ? undefined : -1).reduce((sum, each) => sum + each * each, 0)
    const left = values.slice(0, marks.length).reduce((sum, each, i) => sum + (each * marks[i]!.uPx) ** 2, 0)
    return {
      k1, k2, covariance: [[d / determinant, -b / determinant], [-b / determinant, a / determinant]], chiSquare,
      leftPx: Math.sqrt(left / marks.length),
    }
  }
}

/** A lens shows nothing twice: what lies farther out in the world is shown farther out. */
function staysInOrder(k1: number, k2: number): boolean {
  for (let s = 0; s <= 1; s += 0.05) if (1 + 3 * k1 * s * s + 5 * k2 * s ** 4 < 0.1) return false
  return true
}

/** Off-line distances of points from the line through them by total least squares, each weighed by its mark's u. */
function offLine(points: readonly Px[], marks: readonly EdgeMark[]): number[] {
  const weights = marks.map(({ uPx }) => 1 / uPx ** 2)
  const total = weights.reduce((sum, each) => sum + each, 0)
  const mx = points.reduce((sum, { x }, i) => sum + weights[i]! * x, 0) / total
  const my = points.reduce((sum, { y }, i) => sum + weights[i]! * y, 0) / total
  let xx = 0
  let yy = 0
  let xy = 0
  points.forEach(({ x, y }, i) => {
    xx += weights[i]! * (x - mx) ** 2
    yy += weights[i]! * (y - my) ** 2
    xy += weights[i]! * (x - mx) * (y - my)
  })
  const angle = Math.atan2(2 * xy, xx - yy) / 2
  return points.map(({ x, y }) => -Math.sin(angle) * (x - mx) + Math.cos(angle) * (y - my))
}
