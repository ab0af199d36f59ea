/**
 * Follows marks in the camera's frames as they come, away from the window. Frames are looked at and let go:
 * only places, times and the mean level leave this worker.
 */
import { Follower, LIVE_LIMITS, luminanceOf, type Luminance, type StartMark, type StartRefusal } from '@core/camera'

/** Frames of the camera, the set-up picture and the marks that were made in it. */
export interface LiveAsk {
  readonly frames: ReadableStream<VideoFrame>
  readonly setUp: Luminance
  readonly marks: readonly StartMark[]
}

export type LiveTell =
  | {
      readonly kind: 'frame'
      readonly timeS: number
      /** x, y of each mark in the order asked for, px; NaN where it was lost. */
      readonly places: Float64Array
      readonly light: number
    }
  | { readonly kind: 'refused'; readonly marks: readonly StartRefusal[] }
  /** The camera shows another size of picture than the set-up picture has. */
  | { readonly kind: 'otherSize'; readonly widthPx: number; readonly heightPx: number }
  | { readonly kind: 'ended' }

const tell = (message: LiveTell): void => self.postMessage(message)

self.onmessage = (event: MessageEvent<LiveAsk>) => void watch(event.data)

async function watch({ frames, setUp, marks }: LiveAsk): Promise<void> {
  const { follower, refused } = Follower.start(setUp, -1, marks, LIVE_LIMITS)
  if (!follower) {
    tell({ kind: 'refused', marks: refused })
    return
  }
  const reader = frames.getReader()
  let last = 0
  for (;;) {
    const { value: frame, done } = await reader.read()
    if (done) break
    const timeS = frame.timestamp / 1e6
    const picture = await luminanceIn(frame)
    frame.close()
    if (picture.width !== setUp.width || picture.height !== setUp.height) {
      tell({ kind: 'otherSize', widthPx: picture.width, heightPx: picture.height })
      await reader.cancel()
      return
    }
    // A camera's clock may stand still for a frame; the follower needs it to rise.
    if (timeS <= last && last > 0) continue
    last = timeS
    const places = new Float64Array(2 * marks.length).fill(Number.NaN)
    follower.next(picture, timeS).forEach((each, i) => {
      if (each.kind === 'followed') places.set([each.at.x, each.at.y], 2 * i)
    })
    tell({ kind: 'frame', timeS, places, light: meanLevel(picture) })
  }
  tell({ kind: 'ended' })
}

/** Mean level of every 16th pixel of every 16th row. */
function meanLevel({ width, height, data }: Luminance): number {
  let sum = 0
  let count = 0
  for (let y = 8; y < height; y += 16) {
    for (let x = 8; x < width; x += 16, count++) sum += data[y * width + x]!
  }
  return sum / Math.max(1, count)
}

/** Formats whose first plane is the luminance, 8 bits a pixel. */
const PLANAR: readonly (string | null)[] = ['I420', 'I420A', 'I422', 'I444', 'NV12']
let buffer = new Uint8Array()
let canvas: OffscreenCanvas | null = null

async function luminanceIn(frame: VideoFrame): Promise<Luminance> {
  const { displayWidth: width, displayHeight: height } = frame
  if (PLANAR.includes(frame.format) && frame.visibleRect?.width === width && frame.visibleRect.height === height) {
    const size = frame.allocationSize()
    if (buffer.length < size) buffer = new Uint8Array(size)
    const [layout] = await frame.copyTo(buffer)
    const { offset, stride } = layout!
    if (stride === width) return { width, height, data: buffer.subarray(offset, offset + width * height) }
    const data = new Uint8Array(width * height)
    for (let y = 0; y < height; y++) {
      data.set(buffer.subarray(offset + y * stride, offset + y * stride + width), y * width)
    }
    return { width, height, data }
  }
  canvas ??= new OffscreenCanvas(width, height)
  canvas.width = width
  canvas.height = height
  const context = canvas.getContext('2d', { willReadFrequently: true })!
  context.drawImage(frame, 0, 0, width, height)
  return luminanceOf(context.getImageData(0, 0, width, height).data, width, height)
}
