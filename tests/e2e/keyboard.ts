/** Working a page by keyboard alone, as a builder with full hands does. */
import type { Page } from 'playwright-core'

const MOST_TABS = 400

/** Name and kind of what has the focus, as a screen reader would say it (labels, then text). */
const focusedName = (page: Page): Promise<string> => page.evaluate(() => {
  const element = document.activeElement
  if (!element || element === document.body) return ''
  const labelled = (element as HTMLInputElement).labels
  const label = labelled && labelled.length > 0 ? [...labelled].map((each) => each.textContent).join(' ') : ''
  const seen = element.cloneNode(true) as Element
  for (const hidden of seen.querySelectorAll('[aria-hidden="true"]')) hidden.remove()
  const name = element.getAttribute('aria-label') ?? (label || seen.textContent || '')
  return name.replace(/\s+/g, ' ').trim()
})

/**
 * Presses Tab until something with this name has the focus.
 * @throws with the names passed, where there is none
 */
export async function tabTo(page: Page, name: RegExp, backward = false): Promise<void> {
  const passed: string[] = []
  for (let pressed = 0; pressed < MOST_TABS; pressed++) {
    await page.keyboard.press(backward ? 'Shift+Tab' : 'Tab')
    const reached = await focusedName(page)
    if (name.test(reached)) return
    passed.push(reached)
  }
  throw new Error(`No way by Tab to ${name}. Passed: ${[...new Set(passed)].join(' | ')}`)
}

/** Tab to it, then Enter. */
export async function enter(page: Page, name: RegExp): Promise<void> {
  await tabTo(page, name)
  await page.keyboard.press('Enter')
}

/** Types numbers one after the other, each taken with Enter. */
export async function typeEach(page: Page, texts: readonly string[]): Promise<void> {
  for (const text of texts) {
    await page.keyboard.type(text)
    await page.keyboard.press('Enter')
    // The next field gets the focus after the value is taken, a turn of the event loop later.
    await page.waitForTimeout(25)
  }
}
