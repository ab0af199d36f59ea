/** The projective map from picture to a plane, by the normalised direct linear transform. */
import type { Px } from '../raster/luminance'
import { symmetricEigen } from './linear'

/** Nine entries row by row, scaled so that the last is 1: (x, y, 1) maps to (h0 x + h1 y + h2, ..) / w. */
export type Homography = readonly number[]

/** Maps a point; infinite where the point lies on the map's vanishing line. */
export function mapBy(h: Homography, { x, y }: Px): Px {
  const w = h[6]! * x + h[7]! * y + h[8]!
  return { x: (h[0]! * x + h[1]! * y + h[2]!) / w, y: (h[3]! * x + h[4]! * y + h[5]!) / w }
}

/**
 * The homography that takes each `from` to its `to`: exact for four points, least squares of the
 * algebraic error for more. Points are first shifted to their mean and scaled to a mean distance of
 * the root of two (Hartley, In defense of the eight-point algorithm, IEEE PAMI 19, 1997; the
 * algorithm is 4.2 in Hartley and Zisserman, Multiple View Geometry, 2nd ed.).
 *
 * @returns null with fewer than four points, where three of four lie on a line, or where the map
 *   folds (a point's place would pass through infinity: the corners were taken in a wrong order)
 */
export function homography(from: readonly Px[], to: readonly Px[]): Homography | null {
  if (from.length < 4 || from.length !== to.length) return null
  const a = normalise(from)
  const b = normalise(to)
  if (!a || !b || hasCollinearTriple(a.points) || hasCollinearTriple(b.points)) return null
  const rows: number[][] = []
  a.points.forEach(({ x, y }, i) => {
    const { x: u, y: v } = b.points[i]!
    rows.push([-x, -y, -1, 0, 0, 0, u * x, u * y, u], [0, 0, 0, -x, -y, -1, v * x, v * y, v])
  })
  const normal = Array.from({ length: 9 }, (_, i) =>
    Array.from({ length: 9 }, (__, j) => rows.reduce((sum, row) => sum + row[i]! * row[j]!, 0)))
  const { vectors } = symmetricEigen(normal)
  const n = vectors[0]!
  const h = undo(n, a, b)
  if (!h) return null
  const depths = from.map(({ x, y }) => h[6]! * x + h[7]! * y + h[8]!)
  return depths.every((w) => w > 0) || depths.every((w) => w < 0) ? h : null
}

interface Normalised { readonly points: Px[]; readonly x: number; readonly y: number; readonly scale: number }

function normalise(points: readonly Px[]): Normalised | null {
  const n = points.length
  const x = points.reduce((sum, p) => sum + p.x, 0) / n
  const y = points.reduce((sum, p) => sum + p.y, 0) / n
  const spread = points.reduce((sum, p) => sum + Math.hypot(p.x - x, p.y - y), 0) / n
  if (!(spread > 0)) return null
  const scale = Math.SQRT2 / spread
  return { points: points.map((p) => ({ x: (p.x - x) * scale, y: (p.y - y) * scale })), x, y, scale }
}

/** Only asked of exactly four points: more may hold collinear triples and still span the plane. */
function hasCollinearTriple(points: readonly Px[]): boolean {
  if (points.length !== 4) return false
  return [[0, 1, 2], [0, 1, 3], [0, 2, 3], [1, 2, 3]].some(([i, j, k]) => {
    const a = points[i!]!
    const b = points[j!]!
    const c = points[k!]!
    return Math.abs((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)) < 1e-3
  })
}

/** Takes the normalisations back: T_to^-1 N T_from, last entry 1. */
function undo(n: readonly number[], a: Normalised, b: Normalised): Homography | null {
  const m = [0, 1, 2].map((row) => {
    const [p, q, r] = [n[3 * row]!, n[3 * row + 1]!, n[3 * row + 2]!]
    return [p * a.scale, q * a.scale, r - a.scale * (p * a.x + q * a.y)]
  })
  const bottom = m[2]!
  const h = [
    ...m[0]!.map((each, j) => each / b.scale + b.x * bottom[j]!),
    ...m[1]!.map((each, j) => each / b.scale + b.y * bottom[j]!),
    ...bottom,
  ]
  const last = h[8]!
  if (!(Math.abs(last) > 1e-12 * Math.max(...h.map(Math.abs)))) return null
  return h.map((each) => each / last)
}
