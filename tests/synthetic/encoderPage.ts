/**
 * The browser's half of `encode.ts`: stills through its canvas, clips through its WebCodecs, wrapped by mediabunny.
 * Pixels come from the address they are told to lie at and files go back to another, both on the loopback interface.
 */
import {
  ALL_FORMATS, BlobSource, BufferTarget, Input, Mp4OutputFormat, Output, VideoSample, VideoSampleSink,
  VideoSampleSource, WebMOutputFormat,
} from 'mediabunny'

export interface StillAsk {
  readonly width: number
  readonly height: number
  readonly type: string
  readonly quality?: number
}
export interface ClipAsk {
  readonly width: number
  readonly height: number
  readonly codec: 'vp8' | 'avc'
  readonly bitrate: number
  /** Moment of each frame, s; the frames lie at `/in/0`, `/in/1` and so on. */
  readonly timesS: readonly number[]
  readonly frameS: number
}

const bytesAt = async (index: number): Promise<Uint8Array<ArrayBuffer>> =>
  new Uint8Array(await (await fetch(`/in/${index}`)).arrayBuffer())
const hand = async (index: number, body: Blob | Uint8Array<ArrayBuffer>): Promise<void> => {
  await fetch(`/out/${index}`, { method: 'POST', body })
}

/** Luminance or colour as the four bytes a pixel that canvas and encoder take. */
function fourBytes(pixels: Uint8Array, count: number): Uint8ClampedArray<ArrayBuffer> {
  const made = new Uint8ClampedArray(4 * count).fill(255)
  const [wide, green, blue] = pixels.length === 3 * count ? [3, 1, 2] : [1, 0, 0]
  for (let i = 0, from = 0, to = 0; i < count; i++, from += wide, to += 4) {
    made[to] = pixels[from]!
    made[to + 1] = pixels[from + green]!
    made[to + 2] = pixels[from + blue]!
  }
  return made
}

/** The first of each four bytes: of a grey picture its luminance. */
function oneByte(pixels: Uint8ClampedArray): Uint8Array<ArrayBuffer> {
  const made = new Uint8Array(pixels.length / 4)
  for (let i = 0; i < made.length; i++) made[i] = pixels[4 * i]!
  return made
}

function penFor(width: number, height: number): OffscreenCanvasRenderingContext2D {
  const pen = new OffscreenCanvas(width, height).getContext('2d', { willReadFrequently: true })
  if (!pen) throw new Error('this browser gives no canvas')
  return pen
}

/** Encodes the picture at `/in/index` and hands the file over. */
async function still(index: number, { width, height, type, quality }: StillAsk): Promise<void> {
  const pen = penFor(width, height)
  pen.putImageData(new ImageData(fourBytes(await bytesAt(index), width * height), width, height), 0, 0)
  const file = await pen.canvas.convertToBlob({ type, ...(quality !== undefined && { quality }) })
  if (file.type !== type) throw new Error(`this browser writes ${file.type}, not ${type}`)
  await hand(index, file)
}

/** Encodes, decodes again, and hands over what is left of the picture. */
async function throughStill(index: number, { width, height, type, quality }: StillAsk): Promise<void> {
  const pen = penFor(width, height)
  pen.putImageData(new ImageData(fourBytes(await bytesAt(index), width * height), width, height), 0, 0)
  const file = await pen.canvas.convertToBlob({ type, ...(quality !== undefined && { quality }) })
  pen.drawImage(await createImageBitmap(file), 0, 0)
  await hand(index, oneByte(pen.getImageData(0, 0, width, height).data))
}

/** Encodes frame by frame, the next one fetched meanwhile, and hands the file over. */
async function clip({ width, height, codec, bitrate, timesS, frameS }: ClipAsk): Promise<void> {
  const target = new BufferTarget()
  const output = new Output({ format: codec === 'vp8' ? new WebMOutputFormat() : new Mp4OutputFormat(), target })
  const source = new VideoSampleSource({ codec, bitrate, latencyMode: 'quality', keyFrameInterval: 1 })
  output.addVideoTrack(source)
  await output.start()
  let next = bytesAt(0)
  for (const [index, timestamp] of timesS.entries()) {
    const pixels = fourBytes(await next, width * height)
    if (index + 1 < timesS.length) next = bytesAt(index + 1)
    const frame = new VideoSample(pixels, {
      format: 'RGBX', codedWidth: width, codedHeight: height, timestamp, duration: frameS,
    })
    await source.add(frame)
    frame.close()
  }
  await output.finalize()
  if (!target.buffer) throw new Error('no file came of it')
  await hand(0, new Uint8Array(target.buffer))
}

/** Decodes the clip at `/in/0` and hands over the luminance of each frame; gives their number. */
async function frames(): Promise<number> {
  const input = new Input({ source: new BlobSource(new Blob([await bytesAt(0)])), formats: ALL_FORMATS })
  const track = await input.getPrimaryVideoTrack()
  if (!track) throw new Error('there is no picture in it')
  let count = 0
  for await (const sample of new VideoSampleSink(track).samples()) {
    const pen = penFor(sample.displayWidth, sample.displayHeight)
    sample.draw(pen, 0, 0)
    await hand(count, oneByte(pen.getImageData(0, 0, sample.displayWidth, sample.displayHeight).data))
    sample.close()
    count += 1
  }
  return count
}

export const deeds = { still, throughStill, clip, frames }
Object.assign(globalThis, { deeds })
