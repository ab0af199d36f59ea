/** The window's own promises: the way in, typing, units, undo, two windows, bench mode, charts as data, language. */
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { admit, importDemo, show } from '../screenshots/visit'
import { launchBrowser } from './browser'
import { typeEach } from './keyboard'
import { libraryFolderForTest, startHostFor, type StartedHost } from './startedHost'

let browser: Browser
let host: StartedHost
let library: Awaited<ReturnType<typeof libraryFolderForTest>>
let storageState: Awaited<ReturnType<typeof admit>>

beforeAll(async () => {
  library = await libraryFolderForTest()
  ;[browser, host] = await Promise.all([launchBrowser(), startHostFor(library.folder)])
  storageState = await admit(browser, host.address)
})
afterAll(async () => {
  await browser?.close()
  await host?.stop()
  await library?.remove()
})

async function window_(): Promise<{ context: BrowserContext; page: Page; faults: string[] }> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 }, storageState })
  const page = await context.newPage()
  const faults: string[] = []
  page.on('pageerror', (error) => faults.push(error.message))
  page.on('console', (message) => {
    if (message.type() === 'error' && !message.text().includes('Permissions-Policy')) faults.push(message.text())
  })
  await page.goto(host.origin)
  await page.waitForSelector('main h1')
  return { context, page, faults }
}
const saved = (page: Page) => page.waitForFunction(() => document.querySelector('.saved')?.getAttribute('data-state') === 'saved')
const focusedLabel = (page: Page): Promise<string> =>
  page.evaluate(() => (document.activeElement as HTMLInputElement).labels?.[0]?.textContent?.trim() ?? '')

it('offers the demo in an empty library, and leads along one path', async () => {
  const { context, page, faults } = await window_()
  await page.getByText('No car here yet').waitFor()
  await page.getByRole('button', { name: 'Open the demo car' }).click()
  await page.getByRole('heading', { level: 1, name: 'Car', exact: true }).waitFor()
  expect(await page.locator('nav [aria-current=step]').innerText()).toMatch(/^Car/)
  expect(await page.title()).toBe('Car · Heron 10 · Squatbench')
  await page.getByRole('link', { name: /^Squat test ?, done/ }).click()
  await page.getByRole('heading', { level: 1, name: 'Squat test' }).waitFor()
  await page.getByRole('link', { name: 'Skip to the work' }).focus()
  await page.keyboard.press('Enter')
  expect(await page.evaluate(() => document.activeElement?.id)).toBe('work')
  expect(faults).toEqual([])
  await context.close()
})

it('reads what is typed, in the builder’s units, and keeps what it can’t take', async () => {
  const { context, page } = await window_()
  await show(page, 'chassis', await importDemo(page))
  const track = page.getByLabel(/^Track, front/)
  await track.fill('165,5')
  await track.press('Enter')
  await saved(page)
  expect(await track.inputValue()).toBe('165.5')
  await track.fill('6.5 in')
  await track.press('Enter')
  await expect.poll(() => track.inputValue()).toBe('165.1')
  await track.fill('16x')
  await track.press('Tab')
  await page.getByRole('alert').getByText('“x” is no unit for this field').waitFor()
  expect(await track.inputValue()).toBe('16x')
  expect(await track.getAttribute('aria-invalid')).toBe('true')
  await track.focus()
  await track.press('Escape')
  expect(await track.inputValue()).toBe('165.1')
  await track.fill('5')
  await track.press('Enter')
  await page.getByRole('alert').getByText('not below 10 mm').waitFor()
  await track.press('Escape')
  await page.locator('.units summary').click()
  await page.getByLabel('Length', { exact: true }).selectOption('inch')
  await expect.poll(() => track.inputValue()).toBe('6.5')
  await page.getByLabel('Length', { exact: true }).selectOption('millimetre')
  await expect.poll(() => track.inputValue()).toBe('165.1')
  await context.close()
})

it('takes back and does again by key, without touching what is being typed', async () => {
  const { context, page } = await window_()
  await show(page, 'squat', await importDemo(page))
  const field = page.getByRole('textbox', { name: 'Step 2, front left' })
  const before = await field.inputValue()
  await field.fill('4.44')
  await field.press('Control+Z')
  expect(await focusedLabel(page)).toMatch(/^Step 2, front left/)
  await field.fill('4.44')
  await field.press('Enter')
  expect(await focusedLabel(page)).toMatch(/^Step 2, front right/)
  await saved(page)
  await page.keyboard.press('Control+Z')
  await expect.poll(() => field.inputValue()).toBe(before)
  await page.getByRole('status').getByText('Taken back: Step 2, front left').waitFor({ state: 'attached' })
  await page.keyboard.press('Control+Y')
  await expect.poll(() => field.inputValue()).toBe('4.44')
  await page.keyboard.press('ArrowDown')
  expect(await focusedLabel(page)).toMatch(/^Step 3, front right/)
  await page.keyboard.press('ArrowLeft')
  expect(await focusedLabel(page)).toMatch(/^Step 3, front left/)
  await page.keyboard.press('Shift+Enter')
  expect(await focusedLabel(page)).toMatch(/^Step 2, rear right/)
  await context.close()
})

it('joins what two windows write into one squat test', async () => {
  const [one, other] = [await window_(), await window_()]
  const chassisId = await importDemo(one.page)
  await show(one.page, 'squat', chassisId)
  await show(other.page, 'squat', chassisId)
  const type = async (page: Page, label: string, text: string): Promise<void> => {
    const field = page.getByRole('textbox', { name: label })
    await field.fill(text)
    await field.press('Enter')
    await saved(page)
  }
  await type(one.page, 'Step 2, front left', '4.91')
  await type(other.page, 'Step 3, rear right', '4.81')
  await other.page.getByRole('status').getByText(/Both sides were kept/).waitFor({ state: 'attached' })
  expect(await other.page.getByRole('textbox', { name: 'Step 2, front left' }).inputValue()).toBe('4.91')
  await one.page.evaluate(() => window.dispatchEvent(new Event('focus')))
  await expect.poll(() => one.page.getByRole('textbox', { name: 'Step 3, rear right' }).inputValue()).toBe('4.81')
  await one.context.close()
  await other.context.close()
})

it('runs a step in bench mode by keyboard alone', async () => {
  const { context, page, faults } = await window_()
  await show(page, 'squat', await importDemo(page))
  await page.getByRole('button', { name: 'Bench mode' }).click()
  const dialog = page.getByRole('dialog', { name: 'Bench mode' })
  await dialog.getByRole('button', { name: 'Next step' }).click()
  await dialog.getByRole('button', { name: /^Bag A/ }).press('Space')
  await dialog.getByRole('button', { name: /^Add step/ }).press('Enter')
  await expect.poll(() => focusedLabel(page)).toMatch(/^front left/)
  await typeEach(page, ['5.2', '5.25', '5.75', '5.8'])
  await dialog.getByRole('button', { name: /^Bag A/ }).waitFor()
  await page.keyboard.press('Escape')
  await dialog.waitFor({ state: 'detached' })
  expect(await page.getByRole('textbox', { name: 'Step 22, rear right' }).inputValue()).toBe('5.80')
  expect(faults).toEqual([])
  await context.close()
})

it('gives a chart as a table and as CSV, and reads its points by key', async () => {
  const { context, page } = await window_()
  await show(page, 'curve', await importDemo(page))
  const chart = page.locator('figure.chart').first()
  await chart.getByRole('img').first().focus()
  await page.keyboard.press('ArrowRight')
  await expect.poll(() => chart.locator('[aria-live]').innerText()).toMatch(/^Step \d+, loading: [\d.]+\sN, [\d.]+\smm/)
  await chart.getByRole('button', { name: 'Show as a table' }).click()
  expect(await chart.locator('tbody tr').count()).toBeGreaterThan(15)
  await page.evaluate(() => {
    navigator.clipboard.writeText = (text) => { document.body.dataset['copied'] = text; return Promise.resolve() }
  })
  await chart.getByRole('button', { name: 'Copy as CSV' }).click()
  await chart.getByText('Copied').waitFor()
  const lines = (await page.evaluate(() => document.body.dataset['copied'] ?? '')).trimEnd().split('\r\n')
  expect(lines[0]).toContain('"Force on the axle, N"')
  expect(lines).toHaveLength(1 + await chart.locator('tbody tr').count())
  await context.close()
})

it('speaks German when asked, and remembers it', async () => {
  const { context, page } = await window_()
  await show(page, 'preferences', '')
  await page.getByLabel('Language').selectOption('de')
  await page.getByRole('heading', { level: 1, name: 'Einstellungen' }).waitFor()
  expect(await page.evaluate(() => document.documentElement.lang)).toBe('de')
  await page.reload()
  await page.getByRole('heading', { level: 1, name: 'Einstellungen' }).waitFor()
  await page.locator('main select').nth(1).selectOption('en')
  await page.getByRole('heading', { level: 1, name: 'Preferences' }).waitFor()
  await context.close()
})
