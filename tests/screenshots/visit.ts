/** Visits every screen of the built app with the demo car open, in a size and a theme. */
import { readFileSync } from 'node:fs'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { ADDRESSES } from '../../renderer/paths/addresses'
import { shell as german } from '../../renderer/words/de/shell'
import { shell as english } from '../../renderer/words/en/shell'

export type ScreenName = keyof typeof ADDRESSES
export const SCREENS = Object.keys(ADDRESSES) as ScreenName[]
export interface Size { readonly width: number; readonly height: number }
export type Theme = 'light' | 'dark'

const DEMO = readFileSync(new URL('../../seeds/demo.json', import.meta.url), 'utf8')
const MOST_WAIT_MS = 90_000

/** Asks a service from inside the page, as the window's own client does. */
export const ask = (page: Page, name: string, input: unknown): Promise<unknown> =>
  page.evaluate(async ([service, body]) => {
    const response = await fetch(`/service/${service as string}`, {
      method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body),
    })
    return ((await response.json()) as { value?: unknown }).value
  }, [name, input] as const)

/** Lets a browser in by the one-time address; what comes of it is a session to be reused. */
export async function admit(browser: Browser, address: string): Promise<Awaited<ReturnType<BrowserContext['storageState']>>> {
  const context = await browser.newContext()
  const page = await context.newPage()
  await page.goto(address)
  const state = await context.storageState()
  await context.close()
  return state
}

/** Puts the demo car into the library; gives its id. */
export async function importDemo(page: Page): Promise<string> {
  return ((await ask(page, 'exchange.import', { text: DEMO })) as { chassisId: string }).chassisId
}

export const addressOf = (screen: ScreenName, chassisId: string): string =>
  `#${ADDRESSES[screen].replace(':chassisId', chassisId)}`

/** Goes to a screen and waits until it stands still: its heading is there, results are worked out. */
export async function show(page: Page, screen: ScreenName, chassisId: string): Promise<void> {
  // The first screen comes first: until then the window sets its address itself.
  await page.waitForSelector('main h1')
  await page.evaluate((hash) => {
    const another = location.hash.split('/').at(-1) !== hash.split('/').at(-1)
    if (another) document.querySelector('main h1')?.setAttribute('data-left', '')
    location.hash = hash
  }, addressOf(screen, chassisId))
  await page.waitForFunction(
    (hash) => location.hash === hash && document.querySelector('main h1:not([data-left])') !== null,
    addressOf(screen, chassisId),
  )
  await page.waitForTimeout(250)
  await page.waitForFunction(
    (words) => !words.some((word) => document.body.innerText.includes(word)), [english.working, german.working],
    { timeout: MOST_WAIT_MS },
  )
  await page.waitForTimeout(150)
}

/** How far the page is wider than its window, px; 0 where nothing is cut off or has to be scrolled to the side. */
export const overflowPx = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)
