/** Middle of a spot by its intensity: the first moment of how far each pixel stands out. */
import type { Luminance, Px } from '../raster/luminance'
import type { Surround } from './surround'

export interface Centroid {
  readonly at: Px
  /** Standard uncertainty of each coordinate from pixel noise alone, px. */
  readonly uPx: number
}

/**
 * Centroid of the share (level - background) / contrast in a round window that follows the centroid
 * until both agree. Pixels across the window's border count by the part inside of it.
 *
 * Its noise is that of the first moment of independent pixels: variance = (noise/contrast)^2 times
 * the window's second moment over the squared mass, times the clumping of the noise.
 */
export function centroidOf(picture: Luminance, start: Px, radiusPx: number, surround: Surround): Centroid {
  const reach = radiusPx + 2
  const { background, contrast, noise, clumping } = surround
  let at = start
  let mass = 0
  let second = 0
  for (let round = 0; round < 12; round++) {
    mass = 0
    second = 0
    let sumX = 0
    let sumY = 0
    const top = Math.max(0, Math.floor(at.y - reach - 1))
    const bottom = Math.min(picture.height - 1, Math.floor(at.y + reach + 1))
    const left = Math.max(0, Math.floor(at.x - reach - 1))
    const right = Math.min(picture.width - 1, Math.floor(at.x + reach + 1))
    for (let j = top; j <= bottom; j++) {
      for (let i = left; i <= right; i++) {
        const dx = i + 0.5 - at.x
        const dy = j + 0.5 - at.y
        const within = Math.min(1, Math.max(0, reach + 0.5 - Math.hypot(dx, dy)))
        if (within === 0) continue
        const share = (picture.data[j * picture.width + i]! - background(i + 0.5, j + 0.5)) / contrast
        const weight = within * Math.min(1.5, Math.max(-0.5, share))
        mass += weight
        sumX += weight * dx
        sumY += weight * dy
        second += within * within * (dx * dx + dy * dy) / 2
      }
    }
    if (!(mass > 1)) break
    at = { x: at.x + sumX / mass, y: at.y + sumY / mass }
    if (Math.hypot(sumX, sumY) / mass < 1e-4) break
  }
  const uPx = mass > 1 ? (noise / Math.abs(contrast)) * Math.sqrt(second * clumping) / mass : Infinity
  return { at, uPx }
}
