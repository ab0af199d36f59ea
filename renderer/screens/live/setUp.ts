/** The set-up picture of a live bench: one frame of the camera, marked like any other picture. */
import { luminanceOf, snapToSticker, type Luminance, type StartMark } from '@core/camera'
import type { Picture, PictureMark } from '@core/schema'
import { fingerprintOfFile, type TakenFile } from '../camera/takeIn'

/** What the camera shows just now as a file, without any loss. */
export async function frameAsFile(video: HTMLVideoElement, name: string): Promise<TakenFile | null> {
  const { videoWidth: widthPx, videoHeight: heightPx } = video
  if (!(widthPx > 0 && heightPx > 0)) return null
  const canvas = new OffscreenCanvas(widthPx, heightPx)
  canvas.getContext('2d')?.drawImage(video, 0, 0)
  const file = new File([await canvas.convertToBlob({ type: 'image/png' })], name, { type: 'image/png' })
  const fingerprint = await fingerprintOfFile(file)
  return { file, format: 'png', fingerprint, widthPx, heightPx, clip: null, stand: null, shrunk: 1, camera: null }
}

/** Pixels of the set-up picture. */
export async function luminanceOfFile(file: Blob): Promise<Luminance> {
  const bitmap = await createImageBitmap(file)
  const { width, height } = bitmap
  const context = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true })!
  context.drawImage(bitmap, 0, 0)
  bitmap.close()
  return luminanceOf(context.getImageData(0, 0, width, height).data, width, height)
}

/** Marks that live frames are followed by: all that stand in the picture but the lens' edge. */
export const marksToFollow = (picture: Picture): PictureMark[] => picture.marks.filter(({ role }) => role !== 'edge')

export const asStart = ({ id, at, radiusPx }: PictureMark): StartMark =>
  ({ id, at: { x: at.xPx, y: at.yPx }, ...(radiusPx === undefined ? {} : { radiusPx }) })

/**
 * Marks of an earlier set-up picture in a new one of the same tripod: each round sticker is looked for where
 * it was. Null where one is not there: the camera stands elsewhere, and they are made anew.
 */
export function marksAgain(marks: readonly PictureMark[], picture: Luminance): PictureMark[] | null {
  const found: PictureMark[] = []
  for (const mark of marks) {
    if (!mark.snapped) {
      found.push({ ...mark })
      continue
    }
    const snap = snapToSticker(picture, { x: mark.at.xPx, y: mark.at.yPx })
    if (snap.kind === 'refused') return null
    found.push({ ...mark, at: { xPx: snap.at.x, yPx: snap.at.y }, uPx: snap.uPx, radiusPx: snap.radiusPx })
  }
  return found
}
