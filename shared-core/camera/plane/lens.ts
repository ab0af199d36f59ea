/** One radial lens term about the picture's middle, and its estimate from an edge known to be straight. */
import { combine, entered, type Uncertain } from '@core/uncertainty'
import type { Px } from '../raster'

export interface PictureSize { readonly widthPx: number; readonly heightPx: number }

/**
 * Where a straight-line lens would have shown the point: c + (p - c)(1 + k1 r^2 / R^2), with c the
 * picture's middle, r the distance seen and R half the picture's diagonal. k1 is dimensionless,
 * positive for barrel distortion.
 */
export function straightened(p: Px, k1: number, { widthPx, heightPx }: PictureSize): Px {
  const cx = widthPx / 2
  const cy = heightPx / 2
  const dx = p.x - cx
  const dy = p.y - cy
  const stretch = 1 + (k1 * (dx * dx + dy * dy)) / (cx * cx + cy * cy)
  return { x: cx + dx * stretch, y: cy + dy * stretch }
}

/** Off-line distances of points from the line through them by total least squares. */
function offLine(points: readonly Px[]): number[] {
  const n = points.length
  const mx = points.reduce((sum, { x }) => sum + x, 0) / n
  const my = points.reduce((sum, { y }) => sum + y, 0) / n
  let xx = 0
  let yy = 0
  let xy = 0
  for (const { x, y } of points) {
    xx += (x - mx) ** 2
    yy += (y - my) ** 2
    xy += (x - mx) * (y - my)
  }
  const angle = Math.atan2(2 * xy, xx - yy) / 2
  const nx = -Math.sin(angle)
  const ny = Math.cos(angle)
  return points.map(({ x, y }) => nx * (x - mx) + ny * (y - my))
}

/**
 * The lens term that makes the marks on a straight edge straight again, by Gauss-Newton on their
 * distances from a line. The more the edge stands away from the picture's middle and the longer it
 * is, the better.
 *
 * @param points three or more marks on the edge; their sources carry into the result
 * @returns k1 with its dependence on each mark; null with fewer than three marks, or where the edge
 *   passes so near the middle that its bend says nothing (k1 known worse than 0.2)
 */
export function lensFromEdge(
  points: readonly (readonly [Uncertain, Uncertain])[], size: PictureSize,
): Uncertain | null {
  if (points.length < 3) return null
  const values = points.flatMap(([x, y]) => [x.value, y.value])
  const k1 = bestK1(values, size)
  if (k1 === null) return null
  const terms: [Uncertain, number][] = []
  const inputs = points.flat()
  for (let i = 0; i < inputs.length; i++) {
    const step = 0.05
    const up = bestK1(values.with(i, values[i]! + step), size)
    const down = bestK1(values.with(i, values[i]! - step), size)
    if (up === null || down === null) return null
    terms.push([inputs[i]!, (up - down) / (2 * step)])
  }
  const result = combine(k1, terms)
  const variance = result.parts.reduce((sum, { contribution }) => sum + contribution ** 2, 0)
  return variance < 0.04 ? result : null
}

function bestK1(values: readonly number[], size: PictureSize): number | null {
  const off = (k1: number): number[] => {
    const points: Px[] = []
    for (let i = 0; i < values.length; i += 2) {
      points.push(straightened({ x: values[i]!, y: values[i + 1]! }, k1, size))
    }
    return offLine(points)
  }
  let k1 = 0
  for (let round = 0; round < 30; round++) {
    const here = off(k1)
    const ahead = off(k1 + 1e-4)
    const behind = off(k1 - 1e-4)
    let slopeSquare = 0
    let slopeOff = 0
    here.forEach((value, i) => {
      const slope = (ahead[i]! - behind[i]!) / 2e-4
      slopeSquare += slope * slope
      slopeOff += slope * value
    })
    if (!(slopeSquare > 1)) return null
    const step = -slopeOff / slopeSquare
    k1 += step
    if (Math.abs(k1) > 1) return null
    if (Math.abs(step) < 1e-10) return k1
  }
  return null
}

/** Taken for a lens nobody measured: phones straighten their pictures to about this (common practice, no source). */
export const ASSUMED_LENS_U = 0.01

/** A lens term as an uncertain value: as measured, or 0 with the assumed uncertainty. */
export function lensTerm(measured: { value: number; u: number } | null, setup: string): Uncertain {
  return entered(measured ?? { value: 0, u: ASSUMED_LENS_U }, 'lens', `camera:${setup}:lens`)
}
