/** A camera on its tripod as a gauge: followed places of a frame to heights, a stretch of frames to readings. */
import type { Corner, Picture } from '@core/schema'
import { traceOf, type FramePoints, type Trace } from '../film/trace'
import { windowHeight, type WindowHeight } from '../film/window'
import type { Datum, HeightLack } from '../height/model'
import type { Px } from '../raster/luminance'

/** Where the marks were in one frame, by their ids; null where one was lost. */
export interface LiveFrame {
  /** The camera's own time of the frame, s, rising. */
  readonly timeS: number
  readonly places: ReadonlyMap<string, Px | null>
  /** Mean level of the frame, 0 to 255. */
  readonly light: number
}

/** One corner's height in one frame, mm; null where one of its marks was lost. */
export type CornerHeights = Partial<Record<Corner, number | null>>

export interface LiveHeights { readonly timeS: number; readonly heightsMm: CornerHeights }

type GoodTrace = Extract<Trace, { kind: 'trace' }>

/** How long frames are kept, s: the longest stretch that can become a reading. */
const KEPT_S = 600

/**
 * The bench for one marked picture. Frames are pushed as they come; what is kept of them is numbers.
 */
export class LiveBench {
  readonly corners: readonly Corner[]
  private readonly traces: readonly { corner: Corner; trace: GoodTrace; chassisId: string; hubId: string | null }[]
  private readonly frames: { timeS: number; points: FramePoints[]; heights: CornerHeights }[] = []

  private constructor(traces: LiveBench['traces']) {
    this.traces = traces
    this.corners = traces.map(({ corner }) => corner)
  }

  /**
   * @param picture the set-up picture, a still with its marks
   * @param corners the two that the camera sees
   * @returns the bench, or what is missing at the first corner that can't be read
   */
  static of(
    picture: Picture, corners: readonly Corner[], datum: Datum,
  ): { bench: LiveBench; lack: null } | { bench: null; lack: { corner: Corner; lack: HeightLack } } {
    const traces: LiveBench['traces'][number][] = []
    for (const corner of corners) {
      const trace = traceOf(picture, corner, datum, null, [])
      if (trace.kind === 'lacking') return { bench: null, lack: { corner, lack: trace.lack } }
      const idOf = (role: 'hub' | 'chassis'): string | null =>
        picture.marks.findLast((mark) => mark.role === role && mark.corner === corner)?.id ?? null
      traces.push({ corner, trace, chassisId: idOf('chassis')!, hubId: datum === 'hubToChassis' ? idOf('hub') : null })
    }
    return { bench: new LiveBench(traces), lack: null }
  }

  /** Takes a frame in and tells its heights. */
  push({ timeS, places }: LiveFrame): LiveHeights {
    const points = this.traces.map(({ chassisId, hubId }): FramePoints =>
      ({ timeS, chassis: places.get(chassisId) ?? null, hub: hubId === null ? null : places.get(hubId) ?? null }))
    const heights: CornerHeights = {}
    this.traces.forEach(({ corner, hubId }, i) => {
      const { chassis, hub } = points[i]!
      heights[corner] = chassis && (hubId === null || hub) ? this.stages[i]!.height(chassis, hub) : null
    })
    this.frames.push({ timeS, points, heights })
    if (this.frames[0]!.timeS < timeS - KEPT_S) this.frames.splice(0, Math.ceil(this.frames.length / 10))
    return { timeS, heightsMm: heights }
  }

  /** Begin of a stretch that ends now and is so long, s, but longer where a slow camera made fewer frames of it. */
  stretchBegin(lastsS: number, leastFrames: number): number {
    const now = this.frames.at(-1)?.timeS ?? 0
    return Math.min(now - lastsS, this.frames.at(-leastFrames)?.timeS ?? -Infinity)
  }

  /** Heights of the frames from one time to another, both included. */
  between(fromS: number, toS: number): readonly LiveHeights[] {
    return this.slice(fromS, toS).map(({ timeS, heights }) => ({ timeS, heightsMm: heights }))
  }

  /**
   * The mean height of each corner over a stretch, with its scatter and the camera's whole budget;
   * null where a corner was not seen in five frames or more.
   *
   * @param name of the stretch, unique over the session; names the source of its scatter
   */
  heightsOver(fromS: number, toS: number, name: string): Partial<Record<Corner, WindowHeight>> | null {
    const frames = this.slice(fromS, toS)
    const found: Partial<Record<Corner, WindowHeight>> = {}
    for (const [i, { corner, trace }] of this.traces.entries()) {
      const points = frames.map(({ timeS, heights }) =>
        ({ timeS, heightMm: heights[corner] ?? null, alongMm: null }))
      const own: GoodTrace = { ...trace, points, frames: frames.map((each) => each.points[i]!) }
      const height = windowHeight(own, fromS, toS, name)
      if (!height) return null
      found[corner] = height
    }
    return found
  }

  private slice(fromS: number, toS: number) {
    // Frames come in the order of time and the stretch asked for is nearly always the last.
    let first = this.frames.length
    while (first > 0 && this.frames[first - 1]!.timeS >= fromS) first -= 1
    return this.frames.slice(first).filter(({ timeS }) => timeS <= toS)
  }

  private get stages() {
    return (this.made ??= this.traces.map(({ trace: { model } }) =>
      model.stage(model.inputs.map(({ value }) => value))))
  }

  private made: ReturnType<GoodTrace['model']['stage']>[] | undefined
}
