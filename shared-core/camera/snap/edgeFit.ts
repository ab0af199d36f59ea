/** Middle of a spot by its border: rays out to half level, then the ellipse through the crossings. */
import { median } from '@core/uncertainty'
import { sampleAt, type Luminance, type Px } from '../raster/luminance'
import { leastSquares } from '../plane/linear'
import type { Surround } from './surround'

export interface EdgeFit {
  readonly at: Px
  readonly radiusPx: number
  /** Standard uncertainty of each coordinate from the scatter of the crossings about the ellipse, px. */
  readonly uPx: number
  /** Crossings used less the five parameters. */
  readonly dof: number
  /** Half the difference of the axes, over the radius. */
  readonly ovality: number
  /** Scatter of the crossings about the fitted ellipse, px. */
  readonly scatterPx: number
  /**
   * What of that scatter is a shape, not noise: the harmonics 3 to 6 of the radius beyond what noise
   * makes of them, root mean square, px. A circle seen askew has none; a square has a large fourth.
   */
  readonly misfitPx: number
}

/** Harmonics of the radius that an ellipse does not have and a corner or a nick does. */
const SHAPE_HARMONICS = [3, 4, 5, 6]

const PARAMETERS = 5

/**
 * Fits r(t) = r0 + x cos t + y sin t + a cos 2t + b sin 2t to the radius at which each ray from the
 * start crosses the level halfway between background and sticker; x, y is how far the start was off.
 * The second harmonic takes up the sticker being seen askew. Crossings beyond three robust sds are
 * left out, at most a quarter of them.
 *
 * @returns null where fewer than two thirds of the rays find a border
 */
export function edgeFitOf(picture: Luminance, start: Px, radiusPx: number, surround: Surround): EdgeFit | null {
  // About one ray per border pixel: more rays would share pixels and look better than they are.
  const rays = Math.min(120, Math.max(16, Math.round(2 * Math.PI * radiusPx)))
  let at = start
  let radius = radiusPx
  let fit: EdgeFit | null = null
  for (let round = 0; round < 4; round++) {
    const crossings = crossingsOf(picture, at, radius, rays, surround)
    if (crossings.length < (2 / 3) * rays) return null
    const solved = ellipseThrough(crossings)
    if (!solved) return null
    at = { x: at.x + solved.x, y: at.y + solved.y }
    radius = solved.radiusPx
    fit = { ...solved, at }
    if (Math.hypot(solved.x, solved.y) < 1e-4) break
  }
  return fit
}

interface Crossing { readonly angle: number; readonly radius: number }

function crossingsOf(picture: Luminance, at: Px, radius: number, rays: number, surround: Surround): Crossing[] {
  const { background, contrast } = surround
  const low = Math.max(0.3 * radius, radius - Math.max(3, 0.4 * radius))
  const high = radius + Math.max(2.5, 0.4 * radius)
  const step = 0.25
  const found: Crossing[] = []
  for (let ray = 0; ray < rays; ray++) {
    const angle = (2 * Math.PI * ray) / rays
    const cos = Math.cos(angle)
    const sin = Math.sin(angle)
    let best = Number.NaN
    let before = Number.NaN
    for (let r = low; r <= high; r += step) {
      const x = at.x + r * cos
      const y = at.y + r * sin
      const share = (sampleAt(picture, x, y) - background(x, y)) / contrast - 0.5
      if (before > 0 && share <= 0) {
        const crossed = r - step + (step * before) / (before - share)
        if (Number.isNaN(best) || Math.abs(crossed - radius) < Math.abs(best - radius)) best = crossed
      }
      before = share
    }
    if (!Number.isNaN(best)) found.push({ angle, radius: best })
  }
  return found
}

function ellipseThrough(crossings: readonly Crossing[]): (Omit<EdgeFit, 'at'> & { x: number; y: number }) | null {
  let used = crossings
  for (let round = 0; ; round++) {
    const rows = used.map(({ angle }) =>
      [Math.cos(angle), Math.sin(angle), 1, Math.cos(2 * angle), Math.sin(2 * angle)])
    const solved = leastSquares(rows, used.map(({ radius }) => radius))
    if (!solved) return null
    const [x, y, radiusPx, a, b] = solved.solution as [number, number, number, number, number]
    const dof = used.length - PARAMETERS
    const scatterPx = Math.sqrt(solved.residuals.reduce((sum, off) => sum + off * off, 0) / dof)
    const robust = 1.4826 * median(solved.residuals.map(Math.abs))
    const kept = used.filter((_, index) => Math.abs(solved.residuals[index]!) <= 3 * Math.max(robust, 0.02))
    if (round >= 3 || kept.length === used.length || kept.length < 0.75 * crossings.length) {
      const uPx = scatterPx * Math.sqrt((solved.cofactors[0]![0]! + solved.cofactors[1]![1]!) / 2)
      const misfitPx = shapeOf(crossings, (angle) => radiusPx + x * Math.cos(angle) + y * Math.sin(angle)
        + a * Math.cos(2 * angle) + b * Math.sin(2 * angle))
      return { x, y, radiusPx, uPx, dof, ovality: Math.hypot(a, b) / radiusPx, scatterPx, misfitPx }
    }
    used = kept
  }
}

/** Root mean square of the shape harmonics of all crossings about the ellipse, less their share of white noise. */
function shapeOf(crossings: readonly Crossing[], radiusAt: (angle: number) => number): number {
  const n = crossings.length
  const off = crossings.map(({ angle, radius }) => radius - radiusAt(angle))
  const power = off.reduce((sum, each) => sum + each * each, 0) / n
  const shape = SHAPE_HARMONICS.reduce((sum, order) => {
    let cos = 0
    let sin = 0
    crossings.forEach(({ angle }, i) => {
      cos += (2 / n) * off[i]! * Math.cos(order * angle)
      sin += (2 / n) * off[i]! * Math.sin(order * angle)
    })
    return sum + (cos * cos + sin * sin) / 2
  }, 0)
  // White noise of the power left over puts 2/n of it into each harmonic.
  const spent = 2 * SHAPE_HARMONICS.length
  const noise = (Math.max(0, power - shape) * spent) / Math.max(1, n - 5 - spent)
  return Math.sqrt(Math.max(0, shape - noise))
}
