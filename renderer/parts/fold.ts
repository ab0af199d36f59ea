/**
 * `v-fold` on the frame around a table: where the table is wider than the frame, measured and not guessed, each row is
 * folded up to a block with the heads beside its cells, so that nothing has to be scrolled to. `base.css` has its look.
 */
import type { Directive } from 'vue'

interface Watch { readonly seen: ResizeObserver; width: number }
const watched = new WeakMap<HTMLElement, Watch>()

/** Writes above each cell what stands at the head of its column. */
function nameCells(table: HTMLTableElement): void {
  const heads = [...table.tHead?.rows[0]?.cells ?? []].map((cell) => cell.textContent?.trim() ?? '')
  for (const row of [...table.tBodies].flatMap((body) => [...body.rows])) {
    let column = 0
    for (const cell of row.cells) {
      const head = heads[column] ?? ''
      const named = cell.tagName === 'TD' && cell.colSpan === 1 && head !== ''
      if (named && cell.dataset['head'] !== head) cell.dataset['head'] = head
      column += cell.colSpan
    }
  }
}

function settle(frame: HTMLElement): void {
  const [watch, table] = [watched.get(frame), frame.querySelector('table')]
  if (!watch || !table || frame.clientWidth === 0) return
  const folded = frame.classList.contains('folded')
  // What is folded stays so until there is another width: a try would make the page jump under the hand.
  if (folded && watch.width === frame.clientWidth) return nameCells(table)
  watch.width = frame.clientWidth
  frame.classList.remove('folded')
  if (frame.scrollWidth <= frame.clientWidth + 1) return
  nameCells(table)
  frame.classList.add('folded')
}

export const vFold: Directive<HTMLElement> = {
  mounted(frame) {
    const seen = new ResizeObserver(() => settle(frame))
    watched.set(frame, { seen, width: 0 })
    seen.observe(frame)
    const table = frame.querySelector('table')
    if (table) seen.observe(table)
  },
  // Whatever makes it wider is seen by the observer; to measure here would lay the page out at every key.
  updated(frame) {
    const table = frame.classList.contains('folded') ? frame.querySelector('table') : null
    if (table) nameCells(table)
  },
  unmounted: (frame) => watched.get(frame)?.seen.disconnect(),
}
