/** The levels a sticker stands out from: its own, its background as a sloping plane, and the noise. */
import { median } from '@core/uncertainty'
import type { Luminance, Px } from '../raster/luminance'

export interface Surround {
  /** Background level at a point. */
  readonly background: (x: number, y: number) => number
  /** Sticker's level minus the background's at its middle, signed. */
  readonly contrast: number
  /** Standard deviation of one pixel's noise, levels; not below that of rounding to whole levels. */
  readonly noise: number
  /** Factor on a variance of many pixels for noise that neighbours share (compression, demosaicing); 1 or more. */
  readonly clumping: number
  /** False where part of the ring lies outside the picture. */
  readonly whole: boolean
}

/** Standard deviation of rounding to whole levels. */
const ROUNDING = 1 / Math.sqrt(12)

interface RingPixel { x: number; y: number; level: number }

/** Reads the surround of a round spot from the ring just outside of it and from its inner part. */
export function surroundOf(picture: Luminance, at: Px, radiusPx: number): Surround {
  const inner = radiusPx + 1.8
  const outer = inner + Math.max(2, 0.4 * radiusPx)
  const { ring, inside, whole } = gather(picture, at, radiusPx * 0.6, inner, outer)
  const plane = planeThrough(ring, at)
  const background = (x: number, y: number): number => plane.level + plane.dx * (x - at.x) + plane.dy * (y - at.y)
  const contrast = median(inside) - background(at.x, at.y)
  const noise = Math.max(ROUNDING, plane.spread)
  return { background, contrast, noise, clumping: clumpingOf(picture, ring, background, noise), whole }
}

function gather(picture: Luminance, at: Px, core: number, inner: number, outer: number) {
  const ring: RingPixel[] = []
  const inside: number[] = []
  let whole = true
  for (let j = Math.floor(at.y - outer); j <= at.y + outer; j++) {
    for (let i = Math.floor(at.x - outer); i <= at.x + outer; i++) {
      const distance = Math.hypot(i + 0.5 - at.x, j + 0.5 - at.y)
      if (distance > outer) continue
      if (i < 0 || j < 0 || i >= picture.width || j >= picture.height) {
        whole = false
        continue
      }
      const level = picture.data[j * picture.width + i]!
      if (distance >= inner) ring.push({ x: i + 0.5, y: j + 0.5, level })
      else if (distance <= core) inside.push(level)
    }
  }
  if (inside.length === 0) inside.push(picture.data[nearestIndex(picture, at)]!)
  return { ring, inside, whole }
}

function nearestIndex({ width, height }: Luminance, at: Px): number {
  const i = Math.min(width - 1, Math.max(0, Math.floor(at.x)))
  const j = Math.min(height - 1, Math.max(0, Math.floor(at.y)))
  return j * width + i
}

/** Plane through the ring by least squares, twice with what lies beyond three robust sds left out. */
function planeThrough(ring: readonly RingPixel[], at: Px) {
  let used = ring
  let plane = { level: median(ring.map(({ level }) => level)), dx: 0, dy: 0, spread: 0 }
  for (let round = 0; round < 3; round++) {
    const fitted = leastSquaresPlane(used, at)
    if (!fitted) break
    const off = ring.map(({ x, y, level }) => level - fitted.level - fitted.dx * (x - at.x) - fitted.dy * (y - at.y))
    // 1.4826: median absolute deviation to standard deviation of a normal distribution.
    const spread = 1.4826 * median(off.map(Math.abs))
    plane = { ...fitted, spread }
    const kept = ring.filter((_, index) => Math.abs(off[index]!) <= 3 * Math.max(spread, ROUNDING))
    if (kept.length < 12 || kept.length === used.length) break
    used = kept
  }
  return plane
}

function leastSquaresPlane(points: readonly RingPixel[], at: Px): { level: number; dx: number; dy: number } | null {
  if (points.length < 6) return null
  const n = points.length
  let mx = 0
  let my = 0
  let ml = 0
  for (const { x, y, level } of points) {
    mx += x / n
    my += y / n
    ml += level / n
  }
  let xx = 0
  let yy = 0
  let xy = 0
  let xl = 0
  let yl = 0
  for (const { x, y, level } of points) {
    xx += (x - mx) ** 2
    yy += (y - my) ** 2
    xy += (x - mx) * (y - my)
    xl += (x - mx) * (level - ml)
    yl += (y - my) * (level - ml)
  }
  const determinant = xx * yy - xy * xy
  if (!(determinant > 1e-6 * (xx + yy) ** 2)) return { level: ml, dx: 0, dy: 0 }
  const dx = (xl * yy - yl * xy) / determinant
  const dy = (yl * xx - xl * xy) / determinant
  return { level: ml + dx * (at.x - mx) + dy * (at.y - my), dx, dy }
}

/** From the correlation of each ring pixel with its right and its lower neighbour. */
function clumpingOf(
  picture: Luminance, ring: readonly RingPixel[], background: (x: number, y: number) => number, noise: number,
): number {
  const limit = 3 * noise
  let square = 0
  let n = 0
  let right = 0
  let rights = 0
  let down = 0
  let downs = 0
  const offAt = (x: number, y: number): number | null => {
    if (x >= picture.width || y >= picture.height) return null
    const off = picture.data[Math.floor(y) * picture.width + Math.floor(x)]! - background(x, y)
    return Math.abs(off) <= limit ? off : null
  }
  for (const { x, y } of ring) {
    const here = offAt(x, y)
    if (here === null) continue
    square += here * here
    n += 1
    const beside = offAt(x + 1, y)
    if (beside !== null) {
      right += here * beside
      rights += 1
    }
    const below = offAt(x, y + 1)
    if (below !== null) {
      down += here * below
      downs += 1
    }
  }
  if (n < 12 || square === 0) return 1
  const spread = (sum: number, count: number): number => {
    const r = Math.min(0.8, Math.max(0, count === 0 ? 0 : sum / count / (square / n)))
    return (1 + r) / (1 - r)
  }
  return spread(right, rights) * spread(down, downs)
}
