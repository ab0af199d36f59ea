/** Small pictures and picture records for the camera room's tests. */
import type { Picture, PictureMark } from '@core/schema'
import { drawFrom } from '../../synthetic/random'
import { render, type Camera, type Gray } from '../../synthetic/scene'

export const SMALL: Camera = {
  widthPx: 160, heightPx: 120, focalPx: 1000, xMm: 0, yMm: 0, distanceMm: 1000, yaw: 0, pitch: 0, roll: 0, k1: 0,
}

/** One sticker at a place in px (1 px is 1 mm here) with its card, on a soft backdrop with noise. */
export function stickerPicture(
  at: { x: number; y: number }, { radius = 6, dark = true, noiseSd = 3, seed = 1, smear = 0 } = {},
): Gray {
  return render({
    camera: SMALL, noiseSd, draw: drawFrom(seed), ...(smear > 0 ? { smear: { xMm: smear, yMm: 0 } } : {}),
    stickers: [{
      xMm: at.x - 80, yMm: 60 - at.y, zMm: 0, radiusMm: radius, level: dark ? 40 : 210,
      card: { radiusMm: 2.4 * radius, level: dark ? 200 : 50 },
    }],
  })
}

export const blank = (level: number, width = 160, height = 120): Gray =>
  ({ width, height, data: new Uint8Array(width * height).fill(level) })

let count = 0

export const mark = (
  role: PictureMark['role'], x: number, y: number, more: Partial<PictureMark> = {},
): PictureMark => ({
  id: `m-${(count += 1)}`, role, corner: null, frameS: null, at: { xPx: x, yPx: y }, repeats: [], uPx: 0, snapped: false,
  ...more,
})

export const carMark = (role: 'hub' | 'chassis', x: number, y: number, more: Partial<PictureMark> = {}): PictureMark =>
  mark(role, x, y, { corner: 'frontLeft', ...more })

/** A still of 1000 x 800 px with an exact lens, a square camera and no depth unless said otherwise. */
export const still = (marks: PictureMark[], more: Partial<Picture> = {}): Picture => ({
  id: 'pic-1', kind: 'still', fileName: 'side.png', sizeBytes: 1, fingerprint: '-', addedAt: '2031-05-04T09:30:00.000Z',
  widthPx: 1000, heightPx: 800, thumbnail: null, lensK1: { value: 0, u: 0 }, tiltURad: 0, exposureS: null,
  view: { distanceMm: { value: 1000, u: 0 }, depthUMm: 0, pathUMm: 0 },
  scale: { kind: 'length', lengthMm: { value: 50, u: 0 }, distances: null }, marks, windows: [], ...more,
})
