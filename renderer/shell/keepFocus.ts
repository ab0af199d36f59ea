/**
 * Keeps the focus where the builder is while what has it is drawn anew or taken away: on what stands in
 * its place then, never on nothing.
 */
import { nextTick } from 'vue'

const FOCUSABLE = 'input, select, textarea, button, a[href], summary, [tabindex]:not([tabindex="-1"])'

const canFocus = (element: HTMLElement): boolean => !element.matches(':disabled') && element.getClientRects().length > 0
const within = (root: Element): HTMLElement[] => [...root.querySelectorAll<HTMLElement>(FOCUSABLE)].filter(canFocus)

/** What a screen reader would call it, as far as that tells one field from another. */
function nameOf(element: Element): string {
  const labels = (element as HTMLInputElement).labels
  const label = labels ? [...labels].map((each) => each.textContent).join(' ') : ''
  return element.getAttribute('aria-label') ?? (label || element.textContent || '')
}

/** Does something to the page; the focus is afterwards on the same thing, its successor or its neighbour. */
export async function keepFocus(deed: () => Promise<void>): Promise<void> {
  const had = document.activeElement as HTMLElement | null
  const root = had?.closest('dialog, main, header') ?? document.querySelector('main')
  const before = root ? within(root) : []
  const [place, name] = [had ? before.indexOf(had) : -1, had ? nameOf(had) : '']
  await deed()
  await nextTick()
  if (!had || had === document.body) return
  if (document.activeElement !== document.body && document.contains(document.activeElement) && canFocus(had)) return
  if (document.contains(had) && canFocus(had)) return had.focus()
  const after = root && document.contains(root) ? within(root) : []
  const heir = after.find((each) => nameOf(each) === name) ?? after[Math.min(Math.max(0, place), after.length - 1)]
  ;(heir ?? document.querySelector<HTMLElement>('main'))?.focus({ preventScroll: true })
}
