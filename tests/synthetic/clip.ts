/** Frames of a synthetic clip: stickers on a car that squats, bounces a little and may drive past. */
import { drawFrom } from './random'
import { project, render, type Camera, type Gray, type Sticker } from './scene'

export interface ClipTruth {
  /** Height of the front and rear chassis stickers above their hubs in a frame, mm. */
  readonly frontMm: (timeS: number) => number
  readonly rearMm: (timeS: number) => number
  /** Way of the car along the ground, mm. */
  readonly alongMm: (timeS: number) => number
}

export const CLIP_CAMERA: Camera = {
  widthPx: 1280, heightPx: 720, focalPx: 1150, xMm: 0, yMm: 75, distanceMm: 540, yaw: 0.01, pitch: -0.008, roll: 0.004,
  k1: 0.004,
}

export const CLIP_STICKER_MM = 4
export const CLIP_SCALE_MM = 150
const CLIP_HUB_MM = 32

/** Which stickers the clip shows, in the order they are painted. */
export const CLIP_STICKERS = [
  { key: 'scaleStart', x: -75, y: 120 }, { key: 'scaleEnd', x: 75, y: 120 },
  { key: 'groundLeft', x: -200, y: 0 }, { key: 'groundRight', x: 200, y: 0 },
  { key: 'frontHub', x: -130, y: CLIP_HUB_MM }, { key: 'frontChassis', x: -95, y: 0 },
  { key: 'rearHub', x: 130, y: CLIP_HUB_MM }, { key: 'rearChassis', x: 95, y: 0 },
] as const
export type ClipKey = (typeof CLIP_STICKERS)[number]['key']

/** Where a sticker stands at rest; those of the chassis take their height from the truth. */
export interface StickerPlace { readonly key: ClipKey; readonly x: number; readonly y: number }

/** Stickers as they stand at a time. */
export function placed(
  stickers: readonly StickerPlace[], truth: ClipTruth, timeS: number,
): (Sticker & { key: ClipKey })[] {
  return stickers.map(({ key, x, y }) => {
    const car = key.startsWith('front') || key.startsWith('rear')
    const above = key === 'frontChassis' ? truth.frontMm(timeS) : key === 'rearChassis' ? truth.rearMm(timeS) : null
    const height = above === null ? y : CLIP_HUB_MM + above
    return {
      key, xMm: x + (car ? truth.alongMm(timeS) : 0), yMm: height, zMm: 0, radiusMm: CLIP_STICKER_MM, level: 45,
      card: { radiusMm: 2.2 * CLIP_STICKER_MM, level: 195 },
    }
  })
}

/** Where each sticker truly appears, px. */
export function clipPlaces(
  truth: ClipTruth, timeS: number, camera = CLIP_CAMERA,
): Record<ClipKey, { x: number; y: number }> {
  const entries = placed(CLIP_STICKERS, truth, timeS)
    .map(({ key, xMm, yMm, zMm }) => [key, project(camera, [xMm, yMm, zMm])])
  return Object.fromEntries(entries) as Record<ClipKey, { x: number; y: number }>
}

/** One frame with its own noise. */
export function clipFrame(truth: ClipTruth, timeS: number, noiseSd: number, camera = CLIP_CAMERA): Gray {
  // The backdrop is drawn from the same seed in each frame: it stands still. The noise walks on with the time.
  const still = drawFrom(991)
  const noise = drawFrom(1 + Math.round(timeS * 1e5))
  let drawn = 0
  const draw = { ...still, whole: noise.whole, between: (low: number, high: number) => {
    drawn += 1
    return drawn > 50 ? noise.between(low, high) : still.between(low, high)
  } }
  return render({ camera, stickers: placed(CLIP_STICKERS, truth, timeS), noiseSd, draw })
}
