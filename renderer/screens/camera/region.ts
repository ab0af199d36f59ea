/** Pixels around a point of the shown picture or frame, one for one. */
import { luminanceOf, type Luminance, type Px } from '@core/camera'

export type Shown = HTMLImageElement | HTMLVideoElement

const sizeOf = (shown: Shown): { width: number; height: number } =>
  shown instanceof HTMLVideoElement
    ? { width: shown.videoWidth, height: shown.videoHeight }
    : { width: shown.naturalWidth, height: shown.naturalHeight }

export interface Region { readonly picture: Luminance; readonly x0: number; readonly y0: number }

/** Luminance of at most `half` px to each side of a point, and its upper left corner; null off the picture. */
export function regionAround(shown: Shown, at: Px, half: number): Region | null {
  const { width, height } = sizeOf(shown)
  const x0 = Math.max(0, Math.floor(at.x - half))
  const y0 = Math.max(0, Math.floor(at.y - half))
  const w = Math.min(width, Math.ceil(at.x + half)) - x0
  const h = Math.min(height, Math.ceil(at.y + half)) - y0
  if (!(w > 0 && h > 0)) return null
  const context = new OffscreenCanvas(w, h).getContext('2d', { willReadFrequently: true })
  if (!context) return null
  context.drawImage(shown, x0, y0, w, h, 0, 0, w, h)
  return { picture: luminanceOf(context.getImageData(0, 0, w, h).data, w, h), x0, y0 }
}

/** Longest data address a picture record may keep. */
const MAX_THUMBNAIL = 89_000

/** A small JPEG of what is shown, with the marks drawn in, for lists and the report. */
export function thumbnailOf(shown: Shown, marks: readonly Px[], widest = 480): string | null {
  const { width, height } = sizeOf(shown)
  if (!(width > 0 && height > 0)) return null
  const scale = Math.min(1, widest / Math.max(width, height))
  const canvas = document.createElement('canvas')
  canvas.width = Math.max(1, Math.round(width * scale))
  canvas.height = Math.max(1, Math.round(height * scale))
  const context = canvas.getContext('2d')
  if (!context) return null
  context.drawImage(shown, 0, 0, canvas.width, canvas.height)
  for (const [style, wide] of [['#000000', 4], ['#ffffff', 1.6]] as const) {
    context.strokeStyle = style
    context.lineWidth = wide
    for (const { x, y } of marks) {
      context.beginPath()
      context.arc(x * scale, y * scale, 6, 0, 2 * Math.PI)
      context.stroke()
    }
  }
  for (const quality of [0.75, 0.55, 0.35]) {
    const address = canvas.toDataURL('image/jpeg', quality)
    if (address.length <= MAX_THUMBNAIL) return address
  }
  return widest > 120 ? thumbnailOf(shown, marks, widest / 2) : null
}
