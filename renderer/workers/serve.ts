/** A worker's side of each question: does the deed that is asked for, says how far it is, and hears when to stop. */

/** What a deed is given besides its question. */
export interface Tools<Progress = never> {
  /** Aborted once the answer is no longer wanted: end early with what there is, or throw by `throwIfAborted`. */
  readonly signal: AbortSignal
  /** Tells how far it is, now and then, and lets a stop that waits come in: `await` it in each round. */
  progress(how: Progress): Promise<void>
}

/** What a worker can do, by name; a deed that throws is told as failed, with its message. */
export type Deeds = Readonly<Record<string, (question: never, tools: Tools) => unknown>>

export type Asked =
  | { readonly kind: 'ask'; readonly ticket: number; readonly deed: string; readonly question: unknown }
  | { readonly kind: 'stop'; readonly ticket: number }
export type Told = { readonly ticket: number } & (
  | { readonly kind: 'progress'; readonly how: unknown }
  | { readonly kind: 'answer'; readonly answer: unknown }
  | { readonly kind: 'failed'; readonly why: string }
)

/** Either end of the line between window and worker, as a deed sees it. */
type Line = Pick<MessagePort, 'onmessage'> & { postMessage(told: Told): void }

const PROGRESS_MS = 80

/** Answers every question that comes in over the line, a worker's own unless told otherwise. */
export function serve(deeds: Deeds, line: Line = self as unknown as Line): void {
  const open = new Map<number, AbortController>()

  async function answer(ticket: number, deed: string, question: unknown): Promise<void> {
    const control = new AbortController()
    open.set(ticket, control)
    let toldAt = -Infinity
    const progress = async (how: unknown): Promise<void> => {
      if (performance.now() - toldAt < PROGRESS_MS) return
      line.postMessage({ ticket, kind: 'progress', how })
      await new Promise((resolve) => { setTimeout(resolve, 0) })
      toldAt = performance.now()
    }
    try {
      const done = await deeds[deed]!(question as never, { signal: control.signal, progress })
      line.postMessage({ ticket, kind: 'answer', answer: done })
    } catch (error) {
      line.postMessage({ ticket, kind: 'failed', why: error instanceof Error ? error.message : String(error) })
    } finally {
      open.delete(ticket)
    }
  }

  line.onmessage = ({ data }: MessageEvent<Asked>) => {
    if (data.kind === 'stop') open.get(data.ticket)?.abort()
    else void answer(data.ticket, data.deed, data.question)
  }
}
