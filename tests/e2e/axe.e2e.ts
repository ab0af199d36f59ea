/**
 * Every screen in both themes and with forced colours against WCAG 2.2 AA (axe-core's rules for it), and without a
 * control cut off at 1024x700 and at 200 % zoom (a window of half the size, WCAG 1.4.10 and 1.4.4), or a page that has
 * to be scrolled aside on a phone.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { beginStill, endStill } from '../screenshots/cameraRun'
import { admit, importDemo, overflowPx, SCREENS, show, type ScreenName, type Size, type Theme } from '../screenshots/visit'
import { carFrame } from '../synthetic/car'
import { openEncoders } from '../synthetic/encode'
import { launchBrowser } from './browser'
import { libraryFolderForTest, startHostFor, type StartedHost } from './startedHost'

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']
/** The rules that a theme can break: nothing but colours differs between the two (`boxes.ts` compares the boxes). */
const BY_COLOUR = { type: 'rule', values: ['color-contrast', 'link-in-text-block'] }

/** With forced colours the system answers for contrast; styles as computed still tell the page's own inks. */
const LEFT_TO_SYSTEM = ['color-contrast']

interface Violation {
  readonly id: string
  readonly help: string
  readonly nodes: readonly { readonly target: unknown; readonly failureSummary?: string }[]
}

let browser: Browser
let host: StartedHost
let library: Awaited<ReturnType<typeof libraryFolderForTest>>
let storageState: Awaited<ReturnType<typeof admit>>
let chassisId: string

beforeAll(async () => {
  library = await libraryFolderForTest()
  ;[browser, host] = await Promise.all([launchBrowser(), startHostFor(library.folder)])
  storageState = await admit(browser, host.address)
  const page = await open({ width: 1280, height: 800 }, 'light')
  chassisId = await importDemo(page)
  await page.context().close()
})
afterAll(async () => {
  await browser?.close()
  await host?.stop()
  await library?.remove()
})

async function open(viewport: Size, colorScheme: Theme): Promise<Page> {
  const context = await browser.newContext({ viewport, colorScheme, storageState, reducedMotion: 'reduce', bypassCSP: true })
  const page = await context.newPage()
  await page.goto(host.origin)
  return page
}

/** What axe finds, in words; empty where it finds nothing. */
async function violationsOn(
  page: Page, runOnly: object = { type: 'tag', values: TAGS }, leftOut: readonly string[] = [],
): Promise<string> {
  if (await page.evaluate(() => !('axe' in globalThis))) await page.evaluate(AXE)
  const found = await page.evaluate(async ({ only, rules }) => {
    const axe = (globalThis as unknown as { axe: { run(options: unknown): Promise<{ violations: Violation[] }> } }).axe
    return (await axe.run({ runOnly: only, rules, resultTypes: ['violations'] })).violations
  }, { only: runOnly, rules: Object.fromEntries(leftOut.map((id) => [id, { enabled: false }])) })
  return found.map(({ id, help, nodes }) =>
    [`${id}: ${help}`, ...nodes.slice(0, 5).map((node) => `${JSON.stringify(node.target)} ${node.failureSummary ?? ''}`)].join('\n  '),
  ).join('\n')
}

/** Controls whose box is cut by the window's side, or lies outside it. */
const cutControls = (page: Page): Promise<string[]> => page.evaluate(() => {
  const wide = document.documentElement.clientWidth
  const scrolls = (element: Element | null): boolean => {
    for (let at = element; at; at = at.parentElement) if (/auto|scroll/.test(getComputedStyle(at).overflowX)) return true
    return false
  }
  return [...document.querySelectorAll('button, input, select, a[href], summary')].flatMap((element) => {
    const { left, right, width } = element.getBoundingClientRect()
    const hidden = width === 0 || element.closest('.unseen, .skip') !== null
    return !hidden && (left < -1 || right > wide + 1) && !scrolls(element) ? [element.outerHTML.slice(0, 120)] : []
  })
})

/** Phones, 390 px wide: a page is scrolled down, never aside. */
const PHONE: Size = { width: 390, height: 844 }

/**
 * What says by more than a ground which one is meant, where the system forces its colours: each found on its screen,
 * with a line around it that is not drawn where nothing is chosen.
 */
const MARKED: Partial<Record<ScreenName, Readonly<Record<string, string>>>> = {
  squat: { 'current step': 'nav [aria-current]', 'row in hand': 'tr.now' },
  curve: { 'pressed tab': '.tabs [aria-pressed="true"], [role="group"] [aria-pressed="true"]', 'chosen shape': 'tr.chosen' },
  load: { 'run shown': 'tr.now' },
  decide: { 'chosen cell': 'td.chosen' },
}
const outlineOf = (page: Page, at: string): Promise<string> => page.locator(at).first().evaluate((element) => {
  const { outlineStyle, outlineWidth } = getComputedStyle(element)
  return `${outlineStyle} ${Number.parseFloat(outlineWidth) >= 2 ? 'wide' : outlineWidth}`
})

describe('every screen', () => {
  let page: Page
  beforeAll(async () => { page = await open({ width: 1280, height: 800 }, 'light') })
  afterAll(async () => page?.context().close())

  it.each(SCREENS)('%s has no violation of WCAG 2.2 AA in either theme or with forced colours, and lines say what is chosen', async (screen: ScreenName) => {
    await show(page, screen, chassisId)
    expect(await violationsOn(page)).toBe('')
    await page.emulateMedia({ colorScheme: 'dark' })
    expect(await violationsOn(page, BY_COLOUR)).toBe('')
    await page.emulateMedia({ forcedColors: 'active', colorScheme: 'light' })
    expect(await violationsOn(page, undefined, LEFT_TO_SYSTEM)).toBe('')
    for (const [what, selector] of Object.entries(MARKED[screen] ?? {})) {
      expect(`${what}: ${await outlineOf(page, selector)}`).toBe(`${what}: solid wide`)
    }
    await page.emulateMedia({ forcedColors: 'none' })
  })

  it.each(SCREENS)('%s cuts no control off at 1024x700, and 1280x800 at 200 %; on a phone it is scrolled down alone', async (screen: ScreenName) => {
    for (const size of [{ width: 1024, height: 700 }, { width: 640, height: 400 }]) {
      await page.setViewportSize(size)
      await show(page, screen, chassisId)
      expect(await cutControls(page)).toEqual([])
      expect(await overflowPx(page)).toBe(0)
    }
    await page.setViewportSize(PHONE)
    // Charts and tables fold up a moment after the window did.
    await expect.poll(() => overflowPx(page), { timeout: 5000 }).toBe(0)
  })
})

it('a camera run has no violation in either theme', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'squatbench-axe-'))
  const still = join(folder, 'rest.jpg')
  const encoders = await openEncoders(browser)
  const seen = carFrame({ frontMm: () => 30, rearMm: () => 34, alongMm: () => 0 }, 0)
  writeFileSync(still, await encoders.still(seen, { kind: 'jpeg', quality: 0.92 }))
  await encoders.close()
  const page = await open({ width: 1280, height: 800 }, 'dark')
  await show(page, 'camera', chassisId)
  await beginStill(page, { still })
  expect(await violationsOn(page)).toBe('')
  await endStill(page)
  // From the top: axe takes a key half scrolled below the bar that stays for a key too small.
  await page.evaluate(() => window.scrollTo(0, 0))
  expect(await violationsOn(page)).toBe('')
  await page.emulateMedia({ colorScheme: 'light' })
  expect(await violationsOn(page)).toBe('')
  await page.context().close()
  rmSync(folder, { recursive: true, force: true })
}, 60_000)

it('a switch of theme fades nothing: words and ground change at once', async () => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, colorScheme: 'light', storageState })
  const page = await context.newPage()
  await page.goto(host.origin)
  await show(page, 'airflow', chassisId)
  const moving = await page.evaluate(() => {
    const root = document.documentElement
    const fading = (): number => { void root.offsetHeight; return document.getAnimations().length }
    root.dataset['theme'] = 'dark'
    const whenDark = fading()
    root.dataset['theme'] = 'light'
    return [whenDark, fading(), document.querySelectorAll('button').length > 3]
  })
  expect(moving).toEqual([0, 0, true])
  await context.close()
})

it('bench mode, the units and an empty library have no violation either', async () => {
  const page = await open({ width: 1280, height: 800 }, 'light')
  await show(page, 'squat', chassisId)
  await page.getByRole('button', { name: 'Bench mode' }).click()
  expect(await violationsOn(page)).toBe('')
  await page.keyboard.press('Escape')
  await page.locator('.units summary').click()
  expect(await violationsOn(page)).toBe('')
  await page.context().close()
})
