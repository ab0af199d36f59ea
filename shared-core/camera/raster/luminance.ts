/**
 * A picture as this room sees it: luminance, one value per pixel, row by row.
 * Coordinates are px from the upper left corner of the upper left pixel, x right, y down: the middle
 * of pixel (i, j) lies at (i + 0.5, j + 0.5).
 */
export interface Luminance {
  readonly width: number
  readonly height: number
  /** `width * height` values, 0 (black) to 255 (white). */
  readonly data: Uint8Array | Uint8ClampedArray
}

/** A point or a displacement in a picture, px. */
export interface Px { readonly x: number; readonly y: number }

/**
 * Luminance of RGBA pixels with the weights of ITU-R BT.709 on the coded values (its luma), rounded.
 *
 * @param rgba `width * height * 4` values, alpha ignored
 */
export function luminanceOf(rgba: ArrayLike<number>, width: number, height: number): Luminance {
  const data = new Uint8Array(width * height)
  for (let i = 0, j = 0; i < data.length; i++, j += 4) {
    // 16-bit fixed point of 0.2126, 0.7152, 0.0722; the three add up to 65536.
    data[i] = (13933 * rgba[j]! + 46871 * rgba[j + 1]! + 4732 * rgba[j + 2]! + 32768) >> 16
  }
  return { width, height, data }
}

/**
 * The part of a picture around a point, at most `half` px to each side, clipped to the picture.
 * `x0`, `y0` is where the part's upper left corner lies in the whole. Empty (width or height 0) where
 * the point is too far outside.
 */
export function crop(picture: Luminance, at: Px, half: number): { part: Luminance; x0: number; y0: number } {
  const x0 = clamp(Math.floor(at.x - half), 0, picture.width)
  const y0 = clamp(Math.floor(at.y - half), 0, picture.height)
  const x1 = clamp(Math.ceil(at.x + half), x0, picture.width)
  const y1 = clamp(Math.ceil(at.y + half), y0, picture.height)
  const width = x1 - x0
  const data = new Uint8Array(width * (y1 - y0))
  for (let y = y0; y < y1; y++) {
    const start = y * picture.width + x0
    data.set(picture.data.subarray(start, start + width), (y - y0) * width)
  }
  return { part: { width, height: y1 - y0, data }, x0, y0 }
}

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value))

/** Luminance between pixels, bilinear; beyond the border the border's own value goes on. */
export function sampleAt({ width, height, data }: Luminance, x: number, y: number): number {
  const u = clamp(x - 0.5, 0, width - 1)
  const v = clamp(y - 0.5, 0, height - 1)
  const i = Math.min(Math.floor(u), width - 2 < 0 ? 0 : width - 2)
  const j = Math.min(Math.floor(v), height - 2 < 0 ? 0 : height - 2)
  const a = u - i
  const b = v - j
  const right = width > 1 ? 1 : 0
  const down = height > 1 ? width : 0
  const k = j * width + i
  const above = data[k]! * (1 - a) + data[k + right]! * a
  const below = data[k + down]! * (1 - a) + data[k + down + right]! * a
  return above * (1 - b) + below * b
}
