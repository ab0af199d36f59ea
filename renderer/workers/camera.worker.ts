/**
 * Clips, away from the window: which frames a file holds, and marks followed through them. The file
 * is read by slices where it lies; no more than a few frames are held at once.
 */
import { Follower, luminanceOf, type FollowEvent, type Luminance, type StartMark } from '@core/camera'
import {
  BlobSource, EncodedPacketSink, Input, MATROSKA, MP4, QTFF, VideoSampleSink, WEBM,
  type InputVideoTrack, type VideoSample,
} from 'mediabunny'
import { serve, type Tools } from './serve'

/** What is known of a clip before any frame is decoded. */
export interface ClipInfo {
  readonly widthPx: number
  readonly heightPx: number
  readonly codec: string
  /** Media time of each frame, s, rising. */
  readonly timesS: Float64Array
  /** True where the file ended or broke before its end. */
  readonly cutShort: boolean
}

/** Why a clip cannot be taken. */
export type ClipRefusal = 'notAClip' | 'noFrames' | 'noDecoder' | 'hevc' | 'unreadable'

export interface FollowJob {
  readonly file: File
  /** The frame in which the marks were made, and the last one wanted, s. */
  readonly startS: number
  readonly endS: number
  readonly marks: readonly StartMark[]
}

export interface FollowResult {
  readonly markIds: readonly string[]
  readonly timesS: Float64Array
  /** For each mark x, y of each frame in turn, px; NaN where it was lost. */
  readonly places: readonly Float64Array[]
  readonly events: readonly FollowEvent[]
  /** Why it ended before the last frame; null where it did not. */
  readonly endedEarly: 'cancelled' | 'damaged' | null
  readonly framesPerS: number
}

export type FollowRefusal = { readonly id: string; readonly why: 'leftPicture' | 'flat' | 'noFrame' }

/** How far a clip was read. */
interface Frames {
  readonly frames: number
  readonly timeS: number
}

export type FollowEnd =
  | { readonly kind: 'followed'; readonly result: FollowResult }
  | { readonly kind: 'refused'; readonly marks: readonly FollowRefusal[] }

/** A film of longer than an hour at 50 frames a second is cut into parts first. */
const MOST_FRAMES = 200_000

async function trackOf(file: File): Promise<{ input: Input; track: InputVideoTrack } | ClipRefusal> {
  const input = new Input({ source: new BlobSource(file), formats: [WEBM, MATROSKA, MP4, QTFF] })
  try {
    const track = await input.getPrimaryVideoTrack()
    if (!track) return 'noFrames'
    if (await track.canDecode()) return { input, track }
    return (await track.getCodec()) === 'hevc' ? 'hevc' : 'noDecoder'
  } catch (error) {
    return error instanceof DOMException && error.name === 'NotReadableError' ? 'unreadable' : 'notAClip'
  }
}

/** Counts the frames of a clip and reads their times. */
async function open(file: File, { signal, progress }: Tools<Frames>): Promise<ClipInfo | ClipRefusal> {
  const found = await trackOf(file)
  if (typeof found === 'string') return found
  const { input, track } = found
  const times: number[] = []
  let cutShort = false
  try {
    for await (const packet of new EncodedPacketSink(track).packets(undefined, undefined, { metadataOnly: true })) {
      times.push(packet.timestamp)
      if (times.length >= MOST_FRAMES || signal.aborted) break
      await progress({ frames: times.length, timeS: packet.timestamp })
    }
  } catch {
    cutShort = true
  }
  if (times.length === 0) return 'noFrames'
  const clip: ClipInfo = {
    widthPx: await track.getDisplayWidth(), heightPx: await track.getDisplayHeight(),
    codec: String(await track.getCodec()), timesS: Float64Array.from(times).sort(), cutShort,
  }
  input.dispose()
  return clip
}

/** Follows marks; stopped early, it answers what was followed so far. */
async function follow(
  { file, startS, endS, marks }: FollowJob, { signal, progress }: Tools<Frames>,
): Promise<FollowEnd> {
  const found = await trackOf(file)
  if (typeof found === 'string') throw new Error(found)
  const { input, track } = found
  const reader = new LuminanceReader()
  const times: number[] = []
  const places: number[][] = marks.map(() => [])
  let follower: Follower | null = null
  let endedEarly: FollowResult['endedEarly'] = null
  const began = performance.now()
  try {
    // A hair before the frame's own time, so that rounding does not skip it.
    for await (const sample of new VideoSampleSink(track).samples(startS - 1e-4, endS + 1e-4)) {
      const timeS = sample.timestamp
      const picture = await reader.read(sample)
      sample.close()
      if (!follower) {
        const started = Follower.start(picture, timeS, marks)
        if (!started.follower) return { kind: 'refused', marks: started.refused }
        follower = started.follower
        marks.forEach(({ at }, i) => places[i]!.push(at.x, at.y))
      } else {
        follower.next(picture, timeS).forEach((each, i) => {
          if (each.kind === 'followed') places[i]!.push(each.at.x, each.at.y)
          else places[i]!.push(Number.NaN, Number.NaN)
        })
      }
      times.push(timeS)
      await progress({ frames: times.length, timeS })
      if (signal.aborted) {
        endedEarly = 'cancelled'
        break
      }
    }
  } catch {
    endedEarly = 'damaged'
  } finally {
    input.dispose()
  }
  if (!follower) return { kind: 'refused', marks: marks.map(({ id }) => ({ id, why: 'noFrame' })) }
  const took = (performance.now() - began) / 1000
  return {
    kind: 'followed', result: {
      markIds: marks.map(({ id }) => id), timesS: Float64Array.from(times),
      places: places.map((each) => Float64Array.from(each)),
      events: follower.events, endedEarly, framesPerS: times.length / took,
    },
  }
}

/** Formats whose first plane is the luminance, 8 bits a pixel. */
const PLANAR = new Set(['I420', 'I420A', 'I422', 'I422A', 'I444', 'I444A', 'NV12'])

/**
 * Luminance of decoded frames. The luminance plane is taken as it is where the frame is stored
 * upright with square pixels; else the frame is drawn upright and weighed.
 */
class LuminanceReader {
  private buffer = new Uint8Array()
  private canvas: OffscreenCanvas | null = null

  async read(sample: VideoSample): Promise<Luminance> {
    const { displayWidth: width, displayHeight: height } = sample
    const upright = sample.rotation === 0 && !sample.flip
      && sample.visibleRect.width === width && sample.visibleRect.height === height
    if (upright && sample.format !== null && PLANAR.has(sample.format)) return this.plane(sample, width, height)
    return this.drawn(sample, width, height)
  }

  private async plane(sample: VideoSample, width: number, height: number): Promise<Luminance> {
    const size = sample.allocationSize()
    if (this.buffer.length < size) this.buffer = new Uint8Array(size)
    const [layout] = await sample.copyTo(this.buffer)
    const { offset, stride } = layout!
    if (stride === width) return { width, height, data: this.buffer.subarray(offset, offset + width * height) }
    const data = new Uint8Array(width * height)
    for (let y = 0; y < height; y++) {
      data.set(this.buffer.subarray(offset + y * stride, offset + y * stride + width), y * width)
    }
    return { width, height, data }
  }

  private drawn(sample: VideoSample, width: number, height: number): Luminance {
    if (this.canvas?.width !== width || this.canvas.height !== height) this.canvas = new OffscreenCanvas(width, height)
    const context = this.canvas.getContext('2d', { willReadFrequently: true })
    if (!context) throw new Error('no canvas to draw the frame on')
    sample.draw(context, 0, 0, width, height)
    return luminanceOf(context.getImageData(0, 0, width, height).data, width, height)
  }
}

const deeds = { open, follow }
export type CameraDeeds = typeof deeds
serve(deeds)
