/**
 * The desktop's whole way but Electron itself: the page in Chromium, each call and each file over the built main
 * bundle, with a bridge between that copies as Electron's does and takes nothing that can't be copied.
 */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, beforeEach, expect, it } from 'vitest'
import { SERVICE_CHANNEL } from '@core/services'
import { frameWords } from '@electron/main/words'
import type { StandInWindow } from '../harness/electron/standIn'
import { addressOf } from '../screenshots/visit'
import { launchBrowser } from './browser'
import { startBuilt } from './builtDesktop'
import type { Started } from './builtDesktop'

/** Stands for the program's own scheme, which Chromium does not know. */
const ORIGIN = 'https://app.squatbench.example'
const DEMO = readFileSync(new URL('../../seeds/demo.json', import.meta.url), 'utf8')

/** In the page, before its scripts. A string, for the test's compiler would put helpers of its own into a function. */
const BRIDGE = `
  Object.defineProperty(window, 'squatbench', { value: Object.freeze({
    call: async (name, input) => structuredClone(await window.toFrame(structuredClone([name, input]))),
    onCommand: (hear) => { window.fromFrame = hear },
  }) })`

let browser: Browser
let electron: Started
let window_: StandInWindow
let context: BrowserContext
let page: Page
let chassisId: string
let faults: string[]
let calls: string[]
/** What the bridge does instead of calling, where a test wishes that. */
let broken: ((name: string) => void) | null

beforeAll(async () => {
  browser = await launchBrowser()
})
afterAll(() => browser?.close())

beforeEach(async () => {
  electron = await startBuilt()
  window_ = await electron.window()
  context = await browser.newContext({ viewport: { width: 1280, height: 800 }, acceptDownloads: true })
  faults = []
  calls = []
  broken = null
  await context.exposeBinding('toFrame', (_source, [name, input]: [string, unknown]) => {
    calls.push(name)
    broken?.(name)
    return invoke(name, input)
  })
  await context.addInitScript(BRIDGE)
  await context.route(`${ORIGIN}/**`, async (route) => {
    const { pathname } = new URL(route.request().url())
    const answer = await electron.protocol.handlers.get('squatbench')?.(new Request(`squatbench://app${pathname}`))
    if (answer === undefined) return route.abort()
    return route.fulfill({
      status: answer.status, headers: Object.fromEntries(answer.headers), body: Buffer.from(await answer.arrayBuffer()),
    })
  })
  chassisId = (await value('exchange.import', { text: DEMO }) as { chassisId: string }).chassisId
  page = await context.newPage()
  page.on('pageerror', (error) => faults.push(error.message))
  page.on('console', (message) => {
    if (message.type() === 'error') faults.push(message.text())
  })
})
afterEach(async () => {
  await context.close()
  electron.remove()
})

const invoke = (name: string, input: unknown): Promise<unknown> =>
  electron.invoke(window_.webContents, window_.webContents.mainFrame, SERVICE_CHANNEL, name, input)
const value = async (name: string, input: unknown): Promise<unknown> =>
  (await invoke(name, input) as { value: unknown }).value
async function open(screen: Parameters<typeof addressOf>[0]): Promise<void> {
  await page.goto(`${ORIGIN}/${addressOf(screen, chassisId)}`)
  await page.waitForSelector('main h1')
}
const saved = () => page.waitForFunction(() => document.querySelector('.saved')?.getAttribute('data-state') === 'saved')
const track = () => page.getByLabel(/^Track, front/)
const onDisk = async (): Promise<string> => JSON.stringify(await value('library.open', { chassisId }))

interface Question { type(): string; accept(): Promise<void>; dismiss(): Promise<void> }

/** Leaves the page as closing the window or Ctrl R does; gives the questions asked, each answered with a key. */
async function leave(how: 'close' | 'reload', stay: boolean): Promise<number> {
  let questions = 0
  const answer = async (dialog: Question): Promise<void> => {
    if (dialog.type() === 'beforeunload') questions += 1
    await (stay ? dialog.dismiss() : dialog.accept())
  }
  page.on('dialog', answer)
  if (how === 'close') await page.close({ runBeforeUnload: true })
  else await page.evaluate(() => setTimeout(() => location.reload()))
  await page.waitForTimeout(500).catch(() => undefined)
  page.off('dialog', answer)
  return questions
}

it('asks before a value that is being typed is lost, closed or loaded anew, and not once it is entered', async () => {
  await open('chassis')
  const before = await track().inputValue()
  await track().click()
  await page.keyboard.type('7')
  expect(await leave('close', true)).toBe(1)
  expect(await leave('reload', true)).toBe(1)
  expect(await track().inputValue()).not.toBe(before)
  expect(calls).not.toContain('library.saveChassis')
  await track().fill('171.37')
  await track().press('Enter')
  await saved()
  expect(await onDisk()).toContain('171.37')
  expect(await leave('reload', false)).toBe(0)
  await page.waitForSelector('main h1')
  expect(await track().inputValue()).toBe('171.37')
  expect(faults).toEqual([])
})

it('takes entries back by the menu, but only letters while a value is being typed', async () => {
  await open('chassis')
  const menu = async (name: 'undo' | 'redo'): Promise<void> => {
    const items = (electron.state.menu ?? []).flatMap(({ submenu }) => (Array.isArray(submenu) ? submenu : []))
    const item = items.find(({ label }) => label === frameWords('en').menu[name])
    window_.webContents.sent = []
    item?.click?.(undefined as never, undefined, undefined as never)
    const [, command] = window_.webContents.sent[0] ?? []
    await page.evaluate(`window.fromFrame(${JSON.stringify(command)})`)
  }
  const before = await track().inputValue()
  await track().fill('171.37')
  await track().press('Enter')
  await saved()
  await menu('undo')
  await expect.poll(() => track().inputValue()).toBe(before)
  await menu('redo')
  await expect.poll(() => track().inputValue()).toBe('171.37')
  await saved()
  await track().click()
  await page.keyboard.press('End')
  await page.keyboard.type('9')
  const typed = await track().inputValue()
  await menu('undo')
  await expect.poll(() => track().inputValue()).not.toBe(typed)
  expect(await onDisk()).toContain('171.37')
  expect(faults).toEqual([])
})

it('puts all tables into one folder, with one question and no download', async () => {
  const folder = join(electron.folder, 'tables')
  mkdirSync(folder)
  electron.state.answer = ({ kind }) => (kind === 'showOpenDialog' ? { canceled: false, filePaths: [folder] } : undefined)
  let downloads = 0
  page.on('download', () => (downloads += 1))
  await open('report')
  await page.getByRole('button', { name: 'Tables (CSV)' }).click()
  await page.getByRole('status').getByText(`The tables lie in ${folder}`).waitFor()
  expect(electron.state.asked.map(({ kind }) => kind)).toEqual(['showOpenDialog'])
  expect(downloads).toBe(0)
  expect(readdirSync(folder).length).toBeGreaterThan(8)
  expect(readdirSync(folder).filter((name) => !name.endsWith('.csv'))).toEqual([])
  expect(faults).toEqual([])
})

it('hands a report to the printer of the frame, and its file to the builder', async () => {
  await open('report')
  const [download] = await Promise.all([
    page.waitForEvent('download'), page.getByRole('button', { name: 'PDF', exact: true }).click(),
  ])
  expect(download.suggestedFilename()).toMatch(/\.pdf$/)
  expect(readFileSync(await download.path(), 'utf8')).toBe('%PDF-stand-in')
  expect(faults).toEqual([])
})

it('names what broke on the bridge, instead of a program that does not answer', async () => {
  await open('library')
  broken = (name) => {
    if (name === 'library.open') throw new Error('An object could not be cloned.')
  }
  await page.evaluate((hash) => { location.hash = hash }, addressOf('chassis', chassisId))
  await page.getByRole('alert').getByText('could not be cloned').waitFor()
  expect(await page.getByText('does not answer').count()).toBe(0)
  expect(faults.join(' ')).toContain('could not be cloned')
})

it('works under the policy of the scheme, and changes the frame’s words with its own', async () => {
  await open('preferences')
  await page.getByLabel('Language').selectOption('de')
  await page.getByRole('heading', { level: 1, name: 'Einstellungen' }).waitFor()
  await expect.poll(() => (electron.state.menu ?? []).map(({ label }) => label)).toContain('Bearbeiten')
  await open('curve')
  await page.locator('canvas').first().waitFor()
  expect(faults).toEqual([])
})

it('tells of a figure that changed on the disk by itself, and takes the copy of before', async () => {
  await open('chassis')
  for (const text of ['171.37', '172.48']) {
    await track().fill(text)
    await track().press('Enter')
    await saved()
  }
  const file = join(electron.library, 'chassis', chassisId, 'chassis.json')
  writeFileSync(file, readFileSync(file, 'utf8').replace('172.48', '192.48'))
  await page.reload()
  const told = page.getByRole('alert').filter({ hasText: 'changed since Squatbench wrote' })
  await told.waitFor()
  expect(await track().inputValue()).toBe('192.48')
  await told.getByRole('button', { name: 'Take the copy of before' }).click()
  await expect.poll(() => track().inputValue()).toBe('171.37')
  await told.waitFor({ state: 'detached' })
  expect(readdirSync(join(electron.library, 'chassis', chassisId, 'kept'))).toHaveLength(1)
  expect(faults).toEqual([])
})
