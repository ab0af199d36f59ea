/** The window's side of each question to a worker: an answer or an error, how far it is, and a way to stop it. */
import type { Asked, Deeds, Told, Tools } from './serve'

type Question<D> = D extends (question: infer Q, ...rest: never[]) => unknown ? Q : never
type Progress<D> = D extends (question: never, tools: Tools<infer P>) => unknown ? P : never
type Answer<D extends (...given: never[]) => unknown> = Awaited<ReturnType<D>>

export interface AskOptions<P> {
  readonly onProgress?: (how: P) => void
  /** Aborting it tells the deed to stop: the answer is then what it had so far, or a rejection. */
  readonly signal?: AbortSignal
}

export interface Asker<D extends Deeds> {
  /** Rejects where the deed throws, where the worker breaks and where it is ended; never stays open. */
  ask<N extends keyof D & string>(
    deed: N, question: Question<D[N]>, options?: AskOptions<Progress<D[N]>>,
  ): Promise<Answer<D[N]>>
  /** Ends the worker with all that it was asked; the next question starts a new one. */
  end(): void
}

interface Waiting {
  readonly resolve: (answer: never) => void
  readonly reject: (why: unknown) => void
  readonly onProgress: ((how: never) => void) | undefined
  readonly signal: AbortSignal | undefined
}

/** Asks a worker that is started at the first question, and again at the first one after it broke. */
export function asker<D extends Deeds>(start: () => Worker): Asker<D> {
  let worker: Worker | null = null
  let tickets = 0
  const waiting = new Map<number, Waiting>()

  function end(why: unknown): void {
    worker?.terminate()
    worker = null
    const left = [...waiting.values()]
    waiting.clear()
    for (const each of left) each.reject(why)
  }

  function hear(told: Told): void {
    const asked = waiting.get(told.ticket)
    if (told.kind === 'progress') {
      asked?.onProgress?.(told.how as never)
      return
    }
    waiting.delete(told.ticket)
    if (told.kind === 'answer') asked?.resolve(told.answer as never)
    else asked?.reject(asked.signal?.aborted ? asked.signal.reason : new Error(told.why))
  }

  function started(): Worker {
    if (worker) return worker
    const own = start()
    own.onmessage = (event: MessageEvent<Told>) => hear(event.data)
    own.onerror = (event) => end(new Error(event.message || 'its worker broke'))
    return (worker = own)
  }

  return {
    ask: (deed, question, { onProgress, signal } = {}) => new Promise((resolve, reject) => {
      signal?.throwIfAborted()
      const ticket = (tickets += 1)
      const post = (asked: Asked): void => started().postMessage(asked)
      post({ kind: 'ask', ticket, deed, question })
      waiting.set(ticket, { resolve, reject, onProgress, signal })
      signal?.addEventListener('abort', () => { if (waiting.has(ticket)) post({ kind: 'stop', ticket }) }, { once: true })
    }),
    end: () => end(new DOMException('ended', 'AbortError')),
  }
}

/**
 * One deed at a time: a wish made while it is under way follows at its end, and those between are dropped.
 *
 * @param deed is told by a question whether its wish is still the newest
 */
export function newestOnly(deed: (newest: () => boolean) => Promise<void>): () => Promise<void> {
  let busy = false
  let again = false
  return async () => {
    again = true
    if (busy) return
    busy = true
    try {
      while (again) {
        again = false
        await deed(() => !again)
      }
    } finally {
      busy = false
    }
  }
}
