/** What is typed while the host is dead: kept, handed out as a file, and taken in at the next start. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { openExchangeText } from '../../shared-core/schema'
import { importDemo, show } from '../screenshots/visit'
import { launchBrowser } from './browser'
import { libraryFolderForTest, startHostFor, type StartedHost } from './startedHost'

let browser: Browser
let host: StartedHost
let library: Awaited<ReturnType<typeof libraryFolderForTest>>

beforeAll(async () => {
  library = await libraryFolderForTest()
  ;[browser, host] = await Promise.all([launchBrowser(), startHostFor(library.folder)])
})
afterAll(async () => {
  await browser?.close()
  await host?.stop()
  await library?.remove()
})

const field = (page: Page) => page.getByRole('textbox', { name: 'Step 2, front left' })
async function retype(page: Page, text: string): Promise<void> {
  await field(page).fill(text)
  await field(page).press('Enter')
}
const state = (page: Page): Promise<string | null> =>
  page.evaluate(() => document.querySelector('.saved')?.getAttribute('data-state') ?? null)
const textsOnDisk = (): string[] =>
  readdirSync(library.folder, { recursive: true, withFileTypes: true })
    .filter((each) => each.isFile() && each.name.endsWith('.json'))
    .map((each) => readFileSync(join(each.parentPath, each.name), 'utf8'))

it('keeps a value typed while the host is dead through a closed page and a new start', async () => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } })
  const page = await context.newPage()
  const asked: string[] = []
  page.on('dialog', (dialog) => { asked.push(dialog.type()); void dialog.accept() })
  await page.goto(host.address)
  await show(page, 'squat', await importDemo(page))
  const { port } = host
  expect(await host.stop()).toBe(0)

  await retype(page, '4.4371')
  const alert = page.getByRole('alert')
  await alert.getByText('Squatbench does not answer').waitFor()
  const told = await alert.innerText()
  expect(told).toContain('kept by this browser')
  expect(told).toContain(host.origin)
  expect(told).not.toMatch(/reload/i)

  const [copy] = await Promise.all([
    page.waitForEvent('download'), page.getByRole('button', { name: 'Save a copy as a file' }).click(),
  ])
  expect(copy.suggestedFilename()).toBe('squatbench-Heron 10.json')
  const opened = openExchangeText(readFileSync(await copy.path(), 'utf8'))
  expect(opened.kind).toBe('opened')
  expect(JSON.stringify(opened)).toContain('4.4371')

  await page.reload().catch(() => undefined)
  expect(asked).toEqual(['beforeunload'])
  expect(textsOnDisk().some((text) => text.includes('4.4371'))).toBe(false)

  host = await startHostFor(library.folder, port)
  await page.goto(host.origin)
  expect(await page.textContent('body')).toContain('still kept by this browser')
  await page.goto(host.address)
  await page.getByText('Taken in now: one change in Heron 10').waitFor()
  // Taken into the window is said at once; the disk follows on the usual way.
  await expect.poll(() => textsOnDisk().filter((text) => text.includes('4.4371'))).toHaveLength(1)
  await page.getByRole('button', { name: 'Understood' }).click()
  await page.getByRole('link', { name: 'Heron 10' }).click()
  await page.getByRole('link', { name: /^Squat test/ }).click()
  await expect.poll(() => field(page).inputValue()).toMatch(/^4\.44|^4\.4371/)
  await page.reload()
  await field(page).waitFor()
  expect(await page.getByText('Taken in now').count()).toBe(0)
  await context.close()
})

it('lets the page that stayed open go on once the new address was opened beside it', async () => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } })
  const page = await context.newPage()
  const port = await restartFor(page)
  await show(page, 'squat', await importDemo(page))
  await host.stop()
  await retype(page, '4.4512')
  await expect.poll(() => state(page)).toBe('waiting')
  host = await startHostFor(library.folder, port)
  await page.getByRole('button', { name: 'Try now' }).click()
  await page.getByRole('alert').getByText('was started anew').waitFor()
  const beside = await context.newPage()
  await beside.goto(host.address)
  await beside.waitForSelector('main h1')
  await page.getByRole('button', { name: 'Try now' }).click().catch(() => undefined)
  await expect.poll(() => state(page), { timeout: 30_000 }).toBe('saved')
  await expect.poll(() => textsOnDisk().filter((text) => text.includes('4.4512')).length).toBe(1)
  await expect.poll(() => page.evaluate(() => JSON.stringify(Object.entries(localStorage)))).toBe('[]')
  await context.close()
})

/** A start of its own for this browser, as each start lets one in. */
async function restartFor(page: Page): Promise<number> {
  const { port } = host
  await host.stop()
  host = await startHostFor(library.folder, port)
  await page.goto(host.address)
  return port
}

it('does not let a page of one library write into another at the same address', async () => {
  const other = await libraryFolderForTest()
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } })
  const page = await context.newPage()
  const port = await restartFor(page)
  const chassisId = await importDemo(page)
  await show(page, 'squat', chassisId)
  await host.stop()
  host = await startHostFor(other.folder, port)
  const beside = await context.newPage()
  await beside.goto(host.address)
  await beside.waitForSelector('main h1')
  await importDemo(beside)
  await retype(page, '4.4633')
  await page.getByRole('alert').getByText('Another library is served').waitFor()
  const held = readdirSync(other.folder, { recursive: true, withFileTypes: true }).filter((each) => each.isFile())
  expect(held.some((each) => readFileSync(join(each.parentPath, each.name), 'utf8').includes('4.4633'))).toBe(false)
  await context.close()
  await other.remove()
})

it('keeps what is being typed in one tab while another one writes the same field', async () => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } })
  const page = await context.newPage()
  await restartFor(page)
  const chassisId = await importDemo(page)
  await show(page, 'squat', chassisId)
  const beside = await context.newPage()
  await beside.goto(host.origin)
  await show(beside, 'squat', chassisId)
  await field(page).fill('4.4741')
  await retype(beside, '4.4852')
  await expect.poll(() => textsOnDisk().filter((text) => text.includes('4.4852')).length).toBeGreaterThan(0)
  // The first tab hears of it while its own value stands there uncommitted.
  const heard = page.waitForResponse((response) => response.url().endsWith('/library.open'))
  await page.evaluate(() => window.dispatchEvent(new Event('focus')))
  await heard
  await page.evaluate(() => new Promise((done) => { requestAnimationFrame(() => setTimeout(done, 0)) }))
  expect(await field(page).inputValue()).toBe('4.4741')
  await field(page).press('Enter')
  await expect.poll(() => textsOnDisk().filter((text) => text.includes('4.4741') && text.includes('4.4852')).length)
    .toBeGreaterThan(0)
  await context.close()
})
