/**
 * No text and no key leaves its box: every screen at seven widths, in a language, with units of either kind, in both
 * themes, with text of usual size and of 200 % (WCAG 2.2, 1.4.4 Resize Text), each with each. One page is resized; what
 * is folded up is unfolded. And every letter on them comes from the bundled faces, as the browser itself tells. A file
 * for each language calls it, so that two cores do two languages.
 */
import type { CDPSession, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { admit, ask, importDemo, SCREENS, show, type ScreenName } from '../screenshots/visit'
import { useApp } from './appUnderTest'
import { noteCanvasTexts, textFaults } from './textFaults'

const WIDTHS = [1024, 1100, 1180, 1280, 1366, 1536, 1920]
const HEIGHT = 900
const THEMES = ['light', 'dark']
const UNITS = {
  'mm, N': {},
  'in, oz, lbf': {
    length: 'inch', mass: 'ounce', force: 'poundForce', speed: 'milePerHour', temperature: 'fahrenheit',
  },
}

let page: Page
let cdp: CDPSession
let chassisId: string
let usual: Record<string, unknown>

/** Text of so many px where a page asks for the usual size, as a builder sets it in the browser. */
const textSize = async (px: number): Promise<void> => {
  await cdp.send('Page.setFontSizes', { fontSizes: { standard: px, fixed: px } })
}

/** Faults at each width in either theme, with the width and size they were seen at. */
async function faultsAt(widths: readonly number[], sizesPx: readonly number[]): Promise<string> {
  const faults = new Map<string, string[]>()
  for (const px of sizesPx) {
    await textSize(px)
    for (const width of widths) {
      await page.setViewportSize({ width, height: HEIGHT })
      for (const fault of await page.evaluate(textFaults, THEMES)) {
        faults.set(fault, [...faults.get(fault) ?? [], `${width}${px === 16 ? '' : ' at 200 %'}`])
      }
    }
  }
  await textSize(16)
  await page.setViewportSize({ width: 1280, height: HEIGHT })
  return [...faults].map(([fault, where]) => `${fault}: ${where.join(', ')}`).join('\n')
}

const unfold = (): Promise<void> => page.evaluate(() => {
  for (const each of document.querySelectorAll('main details')) (each as HTMLDetailsElement).open = true
})

/** Texts whose letters come from any face that was not bundled, as the browser's own inspector tells. */
async function foreignLetters(): Promise<string[]> {
  await page.evaluate(() => {
    for (const each of document.querySelectorAll('body *')) {
      if ([...each.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim())) {
        each.setAttribute('data-lettered', '')
      }
    }
  })
  await cdp.send('DOM.enable')
  await cdp.send('CSS.enable')
  const { root } = await cdp.send('DOM.getDocument', { depth: 0 })
  const { nodeIds } = await cdp.send('DOM.querySelectorAll', { nodeId: root.nodeId, selector: '[data-lettered]' })
  const found = new Set<string>()
  for (const nodeId of nodeIds) {
    const { fonts } = await cdp.send('CSS.getPlatformFontsForNode', { nodeId })
    for (const { familyName, isCustomFont } of fonts) if (!isCustomFont) found.add(familyName)
  }
  await cdp.send('CSS.disable')
  await cdp.send('DOM.disable')
  expect(nodeIds.length).toBeGreaterThan(10)
  return [...found]
}

/** The tests of one language; call at the top of a test file. A car that was just begun is looked at in German only. */
export function sweepBoxes(language: 'en' | 'de'): void {
  const app = useApp()
  beforeAll(async () => {
    const storageState = await admit(app.browser, app.host.address)
    const viewport = { width: 1280, height: HEIGHT }
    const context = await app.browser.newContext({ viewport, storageState, reducedMotion: 'reduce' })
    page = await context.newPage()
    cdp = await context.newCDPSession(page)
    await page.addInitScript(noteCanvasTexts)
    await page.goto(app.host.origin)
    chassisId = await importDemo(page)
    usual = await ask(page, 'preferences.read', {}) as Record<string, unknown>
  })
  afterAll(async () => page?.context().close())

  describe.each(Object.entries(UNITS))('in %s', (name, units) => {
    beforeAll(async () => {
      const decimalMark = language === 'de' ? 'comma' : 'point'
      await ask(page, 'preferences.save', { ...usual, ...units, language, decimalMark })
      await page.reload()
    })

    it.each(SCREENS)('%s keeps every text and key in its box', async (screen: ScreenName) => {
      await show(page, screen, chassisId)
      await unfold()
      if (name === 'mm, N') expect(await foreignLetters()).toEqual([])
      expect(await faultsAt(WIDTHS, [16, 32])).toBe('')
    })

    it('bench mode, charts as tables and open lists do so too', async () => {
      await show(page, 'squat', chassisId)
      await page.locator('.units summary').click()
      expect(await faultsAt([1024, 1366], [16, 32])).toBe('')
      await page.locator('.units summary').click()
      await page.locator('main .head button').first().click()
      await page.locator('dialog[open]').waitFor()
      expect(await faultsAt([1024, 1366, 1920], [16, 32])).toBe('')
      await page.keyboard.press('Escape')
      for (const screen of ['curve', 'decide'] as const) {
        await show(page, screen, chassisId)
        await unfold()
        for (const key of await page.locator('.chart .tools button:first-child').all()) await key.click()
        expect(await faultsAt([1024, 1280], [16, 32])).toBe('')
      }
    })
  })

  if (language === 'en') return
  describe('a car that was just begun', () => {
    let bare: string
    beforeAll(async () => {
      await ask(page, 'preferences.save', { ...usual, language })
      await page.reload()
      await show(page, 'library', chassisId)
      await page.locator('#new-name').fill('Neuer Wagen mit einem sehr langen Namen')
      await page.keyboard.press('Enter')
      await page.waitForURL(/#\/car\//)
      bare = /\/car\/([^/]+)\//.exec(page.url())![1]!
    })

    it.each(SCREENS.filter((each) => each !== 'library' && each !== 'help'))('%s keeps all in its box', async (screen) => {
      await show(page, screen, bare)
      expect(await faultsAt([1024, 1280], [16, 32])).toBe('')
    })
  })
}
