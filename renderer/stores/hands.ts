/** Whether the builder types just now, and what waits for it. */
import { effect, onScopeDispose, shallowRef, type ShallowRef } from 'vue'

let lastKeyAt = -Infinity
globalThis.document?.addEventListener('keydown', () => { lastKeyAt = performance.now() }, { capture: true })

/** Resolves once no key was pressed for so many ms, from now on. */
export async function restOfHands(ms: number): Promise<void> {
  const from = performance.now()
  for (;;) {
    const left = Math.max(from, lastKeyAt) + ms - performance.now()
    if (left <= 0) return
    await new Promise((done) => { setTimeout(done, left) })
  }
}

/** A window that nobody sees draws nothing, ms. */
const HIDDEN_MS = 100

/** Resolves once the frame that is due has been drawn, or soon where nothing is drawn. */
export async function frameDrawn(): Promise<void> {
  if (globalThis.requestAnimationFrame === undefined) return
  await new Promise<void>((done) => {
    setTimeout(done, HIDDEN_MS)
    requestAnimationFrame(() => { setTimeout(done, 0) })
  })
}

/** What is worked out at once, and anew after each change once the frame with the change itself has been drawn. */
export function afterFrame<T>(work: () => T): Readonly<ShallowRef<T>> {
  const made = shallowRef() as ShallowRef<T>
  let due = false
  let over = false
  const run = effect(() => { made.value = work() }, {
    scheduler: () => {
      if (due) return
      due = true
      void frameDrawn().then(() => {
        due = false
        if (!over) run()
      })
    },
  })
  onScopeDispose(() => { over = true })
  return made
}
