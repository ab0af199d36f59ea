/** The window's side of the clip worker: one worker, asked by ticket. */
import type {
  CameraAsk, CameraTell, ClipInfo, ClipRefusal, FollowJob, FollowRefusal, FollowResult,
} from '../../workers/camera.worker'

type Listener = (told: CameraTell) => void

let worker: Worker | null = null
let tickets = 0
const listeners = new Map<number, Listener>()

function ask(make: (ticket: number) => CameraAsk, listener: Listener): number {
  if (!worker) {
    worker = new Worker(new URL('../../workers/camera.worker.ts', import.meta.url), { type: 'module' })
    worker.onmessage = (event: MessageEvent<CameraTell>) => listeners.get(event.data.ticket)?.(event.data)
    worker.onerror = (event) => {
      // A worker that broke answers nobody: tell all who wait, and start a new one for the next question.
      const waiting = [...listeners]
      worker?.terminate()
      worker = null
      for (const [ticket, tell] of waiting) tell({ kind: 'failed', ticket, why: event.message })
    }
  }
  const ticket = (tickets += 1)
  listeners.set(ticket, listener)
  worker.postMessage(make(ticket))
  return ticket
}

/** Counts the frames of a clip and reads their times. */
export function openClip(file: File, onProgress: (frames: number) => void): Promise<ClipInfo | ClipRefusal> {
  return new Promise((resolve) => {
    ask((ticket) => ({ kind: 'open', ticket, file }), (told) => {
      if (told.kind === 'progress') {
        onProgress(told.frames)
        return
      }
      listeners.delete(told.ticket)
      if (told.kind === 'opened') resolve(told.clip)
      else resolve(told.kind === 'refused' ? told.why : 'notAClip')
    })
  })
}

export type FollowEnd =
  | { readonly kind: 'followed'; readonly result: FollowResult }
  | { readonly kind: 'refused'; readonly marks: readonly FollowRefusal[] }
  | { readonly kind: 'failed'; readonly why: string }

/** Follows marks; `cancel` ends it early with what was followed so far. */
export function followClip(
  job: FollowJob, onProgress: (frames: number, timeS: number) => void,
): { ended: Promise<FollowEnd>; cancel: () => void } {
  let ticket = 0
  const ended = new Promise<FollowEnd>((resolve) => {
    ticket = ask((given) => ({ kind: 'follow', ticket: given, job }), (told) => {
      if (told.kind === 'progress') {
        onProgress(told.frames, told.timeS)
        return
      }
      listeners.delete(told.ticket)
      if (told.kind === 'followed') resolve({ kind: 'followed', result: told.result })
      else if (told.kind === 'notFollowed') resolve({ kind: 'refused', marks: told.refused })
      else resolve({ kind: 'failed', why: told.kind === 'failed' || told.kind === 'refused' ? told.why : '' })
    })
  })
  return { ended, cancel: () => worker?.postMessage({ kind: 'cancel', ticket } satisfies CameraAsk) }
}
