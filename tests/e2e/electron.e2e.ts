/** The desktop window itself, where Electron's binary and a display can be had. */
import { existsSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { _electron } from 'playwright-core'
import type { ElectronApplication, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { findDesktop } from '../../electron/desktop/findDesktop'
import { libraryFolderForTest } from './startedHost'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
const desktop = findDesktop()
if (desktop.kind === 'none') console.log(`The desktop window’s test is skipped: ${desktop.why}.`)

describe.skipIf(desktop.kind === 'none')('the desktop window', () => {
  let app: ElectronApplication
  let page: Page
  let library: Awaited<ReturnType<typeof libraryFolderForTest>>

  beforeAll(async () => {
    expect(existsSync(`${ROOT}out/main/index.js`)).toBe(true)
    library = await libraryFolderForTest()
    app = await _electron.launch({
      executablePath: desktop.kind === 'binary' ? desktop.path : '',
      args: [ROOT],
      env: { ...process.env as Record<string, string>, SQUATBENCH_LIBRARY: library.folder },
    })
    page = await app.firstWindow()
    await page.getByRole('heading', { level: 1 }).waitFor()
  })
  afterAll(async () => {
    await app?.close()
    await library?.remove()
  })

  it('shows our page under its own scheme, without Node and with the one bridge', async () => {
    expect(page.url()).toMatch(/^squatbench:\/\/app\//)
    const seen = await page.evaluate(() => [
      typeof (globalThis as Record<string, unknown>)['require'],
      typeof (globalThis as Record<string, unknown>)['process'],
      Object.keys((globalThis as unknown as { squatbench: object }).squatbench),
    ])
    expect(seen).toEqual(['undefined', 'undefined', ['call']])
  })

  it('answers the table', async () => {
    const answer = await page.evaluate(() =>
      (globalThis as unknown as { squatbench: { call: (...args: unknown[]) => unknown } }).squatbench.call('app.info', {}))
    expect(answer).toMatchObject({ ok: true, value: { transport: 'desktop', canMakePdf: true, libraryWritable: true } })
  })

  it('opens no other window and does not leave its page', async () => {
    await page.evaluate(() => void window.open('https://elsewhere.invalid/'))
    await page.evaluate(() => { window.location.href = 'https://elsewhere.invalid/' })
    await page.waitForTimeout(300)
    expect(app.windows()).toHaveLength(1)
    expect(page.url()).toMatch(/^squatbench:\/\/app\//)
  })

  it('prints a PDF', async () => {
    const answer = await page.evaluate(() =>
      (globalThis as unknown as { squatbench: { call: (...args: unknown[]) => unknown } }).squatbench
        .call('report.pdf', { html: '<!doctype html><title>Report</title><p>Report' })) as { value: { base64: string } }
    expect(Buffer.from(answer.value.base64, 'base64').subarray(0, 5).toString()).toBe('%PDF-')
  })
})
