/** Runs the worker that follows marks in the camera's frames, and hands each frame on. */
import type { LiveFrame, Luminance, StartRefusal } from '@core/camera'
import type { PictureMark } from '@core/schema'
import { onBeforeUnmount, ref, shallowRef } from 'vue'
import type { LiveAsk, LiveTell } from '../../workers/live.worker'
import { asStart } from './setUp'

export type FollowTrouble =
  | { readonly kind: 'refused'; readonly marks: readonly StartRefusal[] }
  | { readonly kind: 'otherSize'; readonly widthPx: number; readonly heightPx: number }
  | { readonly kind: 'broke'; readonly why: string }

export function useFollowing(onFrame: (frame: LiveFrame) => void) {
  const running = ref(false)
  const trouble = shallowRef<FollowTrouble | null>(null)
  /** Frames a second over the last second or so. */
  const perS = ref(0)
  let worker: Worker | null = null
  let letGo: (() => void) | null = null

  function start(
    frames: { readable: ReadableStream<VideoFrame>; end: () => void }, setUp: Luminance, marks: PictureMark[],
  ): void {
    stop()
    trouble.value = null
    letGo = frames.end
    const ids = marks.map(({ id }) => id)
    const own = new Worker(new URL('../../workers/live.worker.ts', import.meta.url), { type: 'module' })
    worker = own
    let count = 0
    let sinceMs = performance.now()
    own.onmessage = ({ data }: MessageEvent<LiveTell>) => {
      if (data.kind === 'frame') {
        count += 1
        const took = performance.now() - sinceMs
        if (took > 1000) {
          perS.value = (1000 * count) / took
          count = 0
          sinceMs = performance.now()
        }
        onFrame({
          timeS: data.timeS, light: data.light,
          places: new Map(ids.map((id, i) => {
            const x = data.places[2 * i]!
            return [id, Number.isNaN(x) ? null : { x, y: data.places[2 * i + 1]! }]
          })),
        })
        return
      }
      if (data.kind !== 'ended') trouble.value = data
      stop()
    }
    own.onerror = (event) => {
      trouble.value = { kind: 'broke', why: event.message }
      stop()
    }
    own.postMessage({ frames: frames.readable, setUp, marks: marks.map(asStart) } satisfies LiveAsk, [frames.readable])
    running.value = true
  }

  function stop(): void {
    letGo?.()
    letGo = null
    worker?.terminate()
    worker = null
    running.value = false
    perS.value = 0
  }

  onBeforeUnmount(stop)
  return { running, trouble, perS, start, stop }
}
