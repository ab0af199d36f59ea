/** What was followed in a clip, as heights: a trace for each corner, its windows and their brackets. */
import {
  bracketDrop, traceOf, windowHeight, type Datum, type FramePoints, type Trace, type WindowHeight,
} from '@core/camera'
import type { ClipWindow, Corner, Picture } from '@core/schema'
import type { Uncertain } from '@core/uncertainty'
import { sameFrame } from './slots'
import type { Film } from './store'

export type GoodTrace = Extract<Trace, { kind: 'trace' }>

/** The height trace of one corner; null where its marks were not followed. */
export function traceFrom(picture: Picture, film: Film, corner: Corner, datum: Datum): Trace | null {
  const indexOf = (role: 'hub' | 'chassis'): number => {
    const mark = picture.marks.find((each) =>
      each.role === role && each.corner === corner && sameFrame(each.frameS, film.startS))
    return mark ? film.markIds.indexOf(mark.id) : -1
  }
  const chassis = indexOf('chassis')
  const hub = indexOf('hub')
  if (chassis < 0) return null
  const at = (mark: number, frame: number) => {
    const x = film.places[mark]![2 * frame]!
    return Number.isNaN(x) ? null : { x, y: film.places[mark]![2 * frame + 1]! }
  }
  const frames = Array.from(film.timesS, (timeS, i): FramePoints =>
    ({ timeS, chassis: at(chassis, i), hub: hub < 0 ? null : at(hub, i) }))
  return traceOf(picture, corner, datum, film.startS, frames)
}

export interface WindowResult { readonly window: ClipWindow; readonly heights: Partial<Record<Corner, WindowHeight>> }

/** Heights of each window of the clip that is not for speed, in the order of time. */
export function windowsOf(picture: Picture, traces: readonly GoodTrace[]): WindowResult[] {
  return picture.windows
    .filter((each) => each.use !== 'speed')
    .toSorted((a, b) => a.fromS - b.fromS)
    .map((window) => ({
      window,
      heights: Object.fromEntries(traces.flatMap((trace) => {
        const height = windowHeight(trace, window.fromS, window.toS, window.id, 'line')
        return height ? [[trace.corner, height]] : []
      })),
    }))
}

/** Drops of the first off / on / off among the windows; null where there is none. */
export function bracketOf(
  windows: readonly WindowResult[], corners: readonly Corner[],
): Partial<Record<Corner, Uncertain>> | null {
  const start = windows.findIndex((each, i) =>
    each.window.use === 'off' && windows[i + 1]?.window.use === 'on' && windows[i + 2]?.window.use === 'off')
  if (start < 0) return null
  const [before, on, after] = windows.slice(start, start + 3) as [WindowResult, WindowResult, WindowResult]
  return Object.fromEntries(corners.flatMap((corner) => {
    const [a, b, c] = [before.heights[corner], on.heights[corner], after.heights[corner]]
    return a && b && c ? [[corner, bracketDrop(a, b, c)]] : []
  }))
}
