/**
 * The desktop window itself, where Electron's binary and a display can be had. Where `SQUATBENCH_WINDOW_TEST` is
 * `required` (the job of the checks that has both) it fails instead of being skipped.
 */
import { spawn } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { _electron } from 'playwright-core'
import type { ElectronApplication, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { findDesktop } from '../../electron/desktop/findDesktop'
import { libraryFolderForTest } from './startedHost'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
const DEMO = readFileSync(new URL('../../seeds/demo.json', import.meta.url), 'utf8')
const desktop = findDesktop()
const why = desktop.kind === 'none' ? desktop.why : desktop.kind === 'unfetched' ? 'Electron’s binary is not here' : null
if (why !== null) console.log(`The desktop window’s test is skipped: ${why}.`)

if (process.env['SQUATBENCH_WINDOW_TEST'] === 'required') {
  it('the desktop window can be tried here', () => {
    expect(why).toBeNull()
  })
}

describe.skipIf(desktop.kind !== 'binary')('the desktop window', () => {
  const binary = desktop.kind === 'binary' ? desktop.path : ''
  let app: ElectronApplication
  let page: Page
  let library: Awaited<ReturnType<typeof libraryFolderForTest>>
  let environment: Record<string, string>

  beforeAll(async () => {
    expect(existsSync(`${ROOT}out/main/index.js`)).toBe(true)
    library = await libraryFolderForTest()
    environment = {
      ...process.env as Record<string, string>,
      SQUATBENCH_LIBRARY: join(library.folder, 'library'),
      // The engine's own folder lies there as well, so that nothing of the machine's user is touched.
      XDG_CONFIG_HOME: join(library.folder, 'config'),
    }
    app = await _electron.launch({ executablePath: binary, args: [ROOT], env: environment })
    page = await app.firstWindow()
    await page.getByRole('heading', { level: 1 }).waitFor()
  })
  afterAll(async () => {
    await app?.close()
    await library?.remove()
  })

  /** Calls a service over the bridge. */
  const call = (name: string, input: unknown): Promise<unknown> => page.evaluate(([service, body]) =>
    (globalThis as unknown as { squatbench: { call: (...args: unknown[]) => unknown } }).squatbench.call(service, body),
  [name, input] as const)

  it('shows our page under its own scheme, without Node and with the one bridge', async () => {
    expect(page.url()).toMatch(/^squatbench:\/\/app\//)
    const seen = await page.evaluate(() => [
      typeof (globalThis as Record<string, unknown>)['require'],
      typeof (globalThis as Record<string, unknown>)['process'],
      Object.keys((globalThis as unknown as { squatbench: object }).squatbench),
    ])
    expect(seen).toEqual(['undefined', 'undefined', ['call', 'onCommand']])
  })

  it('answers the table', async () => {
    expect(await call('app.info', {}))
      .toMatchObject({ ok: true, value: { transport: 'desktop', canMakePdf: true, libraryWritable: true } })
  })

  it('writes to the library, and works a car out in its worker', async () => {
    const answer = await call('exchange.import', { text: DEMO }) as { value: { chassisId: string } }
    const { chassisId } = answer.value
    expect(existsSync(join(library.folder, 'library', 'chassis', chassisId, 'chassis.json'))).toBe(true)
    await page.evaluate((hash) => { window.location.hash = hash }, `#/car/${chassisId}/curve`)
    await page.locator('canvas').first().waitFor()
  })

  it('keeps its own things apart from the library', async () => {
    const profile = await app.evaluate((electron) => electron.app.getPath('userData'))
    expect(profile).toBe(join(library.folder, 'config', 'Squatbench', 'window'))
  })

  it('opens no other window and does not leave its page', async () => {
    await page.evaluate(() => void window.open('https://elsewhere.invalid/'))
    await page.evaluate(() => { window.location.href = 'https://elsewhere.invalid/' })
    await page.waitForTimeout(300)
    expect(app.windows()).toHaveLength(1)
    expect(page.url()).toMatch(/^squatbench:\/\/app\//)
  })

  it('is brought forward by a second start, which says so and ends', async () => {
    const child = spawn(binary, [ROOT], { env: environment, stdio: ['ignore', 'pipe', 'ignore'] })
    let printed = ''
    child.stdout.on('data', (chunk) => (printed += String(chunk)))
    const code = await new Promise((done) => child.on('close', done))
    expect([code, printed]).toEqual([0, expect.stringContaining('open already')])
    expect(app.windows()).toHaveLength(1)
  })

  it('prints a PDF', async () => {
    const answer = await call('report.pdf', { html: '<!doctype html><title>Report</title><p>Report' })
    const { base64 } = (answer as { value: { base64: string } }).value
    expect(Buffer.from(base64, 'base64').subarray(0, 5).toString()).toBe('%PDF-')
  })
})
