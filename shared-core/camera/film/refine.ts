/** Sub-pixel place of a template's best correlation. */
import type { Luminance, Px } from '../raster/luminance'
import type { Match, Template } from './template'

export interface Refined {
  /** Middle of the patch, px, as a place in the picture. */
  readonly middle: Px
  /** Correlation there. */
  readonly score: number
  /** Standard uncertainty of each coordinate from what the patch does not explain, px. */
  readonly uPx: number
}

/** Weights of Keys' cubic convolution (a = -0.5; Keys, IEEE ASSP 29, 1981) for a shift of t in [0, 1). */
function cubicWeights(t: number): [number, number, number, number] {
  const tt = t * t
  const ttt = tt * t
  return [
    -0.5 * ttt + tt - 0.5 * t, 1.5 * ttt - 2.5 * tt + 1, -1.5 * ttt + 2 * tt + 0.5 * t, 0.5 * ttt - 0.5 * tt,
  ]
}

/** The patch around a place between pixels, less its mean, in the template's order. */
function patchAt(picture: Luminance, template: Template, middle: Px, out: Float32Array): number {
  const { width, data } = picture
  const bx = Math.floor(middle.x - 0.5)
  const by = Math.floor(middle.y - 0.5)
  const wx = cubicWeights(middle.x - 0.5 - bx)
  const wy = cubicWeights(middle.y - 0.5 - by)
  const { half, spans } = template
  const side = 2 * half + 1
  // Rows first, for all the rows the columns need; then columns.
  const rows = new Float32Array((side + 3) * side)
  for (let r = 0; r < side + 3; r++) {
    let i = (by - half - 1 + r) * width + bx - half - 1
    const from = r * side
    for (let c = 0; c < side; c++, i++) {
      rows[from + c] = wx[0] * data[i]! + wx[1] * data[i + 1]! + wx[2] * data[i + 2]! + wx[3] * data[i + 3]!
    }
  }
  let sum = 0
  for (const { dy, reach, start } of spans) {
    const r = (dy + half) * side + half - reach
    for (let c = 0; c <= 2 * reach; c++) {
      const value = wy[0] * rows[r + c]! + wy[1] * rows[r + side + c]!
        + wy[2] * rows[r + 2 * side + c]! + wy[3] * rows[r + 3 * side + c]!
      out[start + c] = value
      sum += value
    }
  }
  const mean = sum / out.length
  let square = 0
  for (let k = 0; k < out.length; k++) {
    out[k]! -= mean
    square += out[k]! * out[k]!
  }
  return Math.sqrt(square)
}

/**
 * Moves the match to the maximum of the normalised correlation between pixels, by Gauss-Newton on the
 * patch matched in level and contrast (the correlation is greatest where that difference is least).
 * A plain parabola through three correlations would be drawn towards whole and half pixels.
 *
 * @returns null where it runs more than 1.5 px away or out of the picture: no peak is there
 */
export function refine(picture: Luminance, template: Template, match: Match): Refined | null {
  const { values, norm, slopeX, slopeY, half } = template
  let xx = 0
  let yy = 0
  let xy = 0
  for (let k = 0; k < values.length; k++) {
    xx += slopeX[k]! * slopeX[k]!
    yy += slopeY[k]! * slopeY[k]!
    xy += slopeX[k]! * slopeY[k]!
  }
  const determinant = xx * yy - xy * xy
  if (!(determinant > 1e-6 * xx * yy)) return null
  const patch = new Float32Array(values.length)
  let x = match.cx + 0.5
  let y = match.cy + 0.5
  let score = match.score
  let spread = norm
  for (let round = 0; round < 12; round++) {
    spread = patchAt(picture, template, { x, y }, patch)
    if (spread === 0) return null
    const gain = norm / spread
    let gx = 0
    let gy = 0
    let cross = 0
    for (let k = 0; k < values.length; k++) {
      const level = patch[k]! * gain
      const off = level - values[k]!
      gx += slopeX[k]! * off
      gy += slopeY[k]! * off
      cross += level * values[k]!
    }
    score = cross / (norm * norm)
    const dx = (gx * yy - gy * xy) / determinant
    const dy = (gy * xx - gx * xy) / determinant
    x -= dx
    y -= dy
    if (Math.abs(x - match.cx - 0.5) > 1.5 || Math.abs(y - match.cy - 0.5) > 1.5) return null
    const rim = half + 2.5
    if (x < rim || y < rim || x > picture.width - rim || y > picture.height - rim) return null
    if (Math.hypot(dx, dy) < 2e-4) break
  }
  // What is left over holds the noise of both patches; a floor keeps a perfect copy from a claim of none.
  const left = (2 * Math.max(0, 1 - score) * norm * norm) / Math.max(1, values.length - 4)
  const uPx = Math.hypot(Math.sqrt((left * (xx + yy)) / (2 * determinant)), FLOOR_PX)
  return { middle: { x, y }, score, uPx }
}

/** What interpolation leaves over, px, found with noise-free synthetic clips. */
const FLOOR_PX = 0.005
