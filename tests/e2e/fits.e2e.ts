/**
 * No text and no key leaves its box: every screen at seven widths, in both languages, units of either kind, both
 * themes, with text of usual size and of 200 % (WCAG 2.2, 1.4.4 Resize Text). One page is resized; what is folded
 * up is unfolded. And every letter on them comes from the bundled faces, as the browser itself tells.
 */
import type { CDPSession, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { admit, ask, importDemo, SCREENS, show, type ScreenName } from '../screenshots/visit'
import { useApp } from './appUnderTest'
import { noteCanvasTexts, textFaults } from './textFaults'

const WIDTHS = [1024, 1100, 1180, 1280, 1366, 1536, 1920]
const HEIGHT = 900
const UNITS = {
  'mm, N': {},
  'in, oz, lbf': { length: 'inch', mass: 'ounce', force: 'poundForce', speed: 'milePerHour', temperature: 'fahrenheit' },
}

const app = useApp()
let page: Page
let cdp: CDPSession
let chassisId: string
let usual: Record<string, unknown>

beforeAll(async () => {
  const storageState = await admit(app.browser, app.host.address)
  const context = await app.browser.newContext({ viewport: { width: 1280, height: HEIGHT }, storageState, reducedMotion: 'reduce' })
  page = await context.newPage()
  cdp = await context.newCDPSession(page)
  await page.addInitScript(noteCanvasTexts)
  await page.goto(app.host.origin)
  chassisId = await importDemo(page)
  usual = await ask(page, 'preferences.read', {}) as Record<string, unknown>
})
afterAll(async () => page?.context().close())

/** Text of so many px where a page asks for the usual size, as a builder sets it in the browser. */
const textSize = async (px: number): Promise<void> => {
  await cdp.send('Page.setFontSizes', { fontSizes: { standard: px, fixed: px } })
}

/** Faults at each width, in both themes by turns, with the width and size they were seen at. */
async function faultsAtAllWidths(turn: number): Promise<string[]> {
  const faults = new Map<string, string[]>()
  for (const [step, px] of [16, 32].entries()) {
    await textSize(px)
    for (const [index, width] of WIDTHS.entries()) {
      await page.setViewportSize({ width, height: HEIGHT })
      await page.emulateMedia({ colorScheme: (turn + step + index) % 2 === 0 ? 'light' : 'dark' })
      for (const fault of await page.evaluate(textFaults)) {
        faults.set(fault, [...faults.get(fault) ?? [], `${width}${px === 16 ? '' : ' at 200 %'}`])
      }
    }
  }
  await textSize(16)
  return [...faults].map(([fault, where]) => `${fault}: ${where.join(', ')}`)
}

const unfold = (): Promise<void> => page.evaluate(() => {
  for (const each of document.querySelectorAll('main details')) (each as HTMLDetailsElement).open = true
})

describe.each(['en', 'de'] as const)('in %s', (language) => {
  describe.each(Object.entries(UNITS))('in %s', (_name, units) => {
    beforeAll(async () => {
      const decimalMark = language === 'de' ? 'comma' : 'point'
      await ask(page, 'preferences.save', { ...usual, ...units, language, decimalMark })
      await page.reload()
    })

    it.each(SCREENS)('%s keeps every text and key in its box', async (screen: ScreenName) => {
      await page.setViewportSize({ width: 1280, height: HEIGHT })
      await show(page, screen, chassisId)
      await unfold()
      expect((await faultsAtAllWidths(SCREENS.indexOf(screen))).join('\n')).toBe('')
    })
  })
})
