/** The loopback host and the built window together, in a real Chromium. */
import { readFileSync } from 'node:fs'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { STEP_NAMES } from '../../renderer/paths/stepNames'
import { launchBrowser } from './browser'
import { recordingProxy } from './recordingProxy'
import type { RecordingProxy } from './recordingProxy'
import { libraryFolderForTest, startHostFor } from './startedHost'
import type { StartedHost } from './startedHost'

const DEMO = readFileSync(new URL('../../seeds/demo.json', import.meta.url), 'utf8')

/**
 * Some browsers ask their own maker about the forms of any page they show. It is the browser that asks, no
 * request of the page is behind it, and no page can keep it from doing so; the desktop window does not do it.
 */
const BROWSERS_OWN = ['content-autofill.googleapis.com:443']

let browser: Browser
let proxy: RecordingProxy
let library: Awaited<ReturnType<typeof libraryFolderForTest>>
let host: StartedHost

beforeAll(async () => {
  library = await libraryFolderForTest()
  ;[browser, proxy, host] = await Promise.all([launchBrowser(), recordingProxy(), startHostFor(library.folder)])
})
afterAll(async () => {
  await browser?.close()
  await host?.stop()
  await proxy?.close()
  await library?.remove()
})

/** A browser of its own that can reach the loopback address and nothing else; it notes what goes wrong. */
async function visitor(): Promise<{ context: BrowserContext; page: Page; wrong: string[]; requested: string[] }> {
  const context = await browser.newContext({ proxy: { server: proxy.server, bypass: '127.0.0.1' } })
  const wrong: string[] = []
  const requested: string[] = []
  context.on('request', (request) => requested.push(request.url()))
  context.on('weberror', (error) => wrong.push(`error: ${error.error().message}`))
  context.on('console', (message) => {
    if (message.type() === 'error' || message.type() === 'warning') wrong.push(`${message.type()}: ${message.text()}`)
  })
  return { context, page: await context.newPage(), wrong, requested }
}

/** Asks a service from inside the page, as the window's own client does. */
const ask = (page: Page, name: string, input: unknown) => page.evaluate(async ([service, body]) => {
  const answer = await fetch(`/service/${service as string}`, {
    method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body),
  })
  return { status: answer.status, answer: await answer.json() as { ok: boolean; value: Record<string, unknown> } }
}, [name, input] as const)

describe('the app on its loopback address', () => {
  it('opens by the printed address, keeps working on reload and in a second tab, and leaves no token in sight', async () => {
    const { context, page, wrong } = await visitor()
    await page.goto(host.address)
    await page.getByRole('heading', { level: 1 }).waitFor()
    expect(page.url()).not.toContain('token')
    await page.reload()
    await page.getByRole('heading', { level: 1 }).waitFor()
    const second = await context.newPage()
    await second.goto(host.origin)
    await second.getByRole('heading', { level: 1 }).waitFor()
    expect((await ask(second, 'app.info', {})).answer).toMatchObject({ ok: true, value: { transport: 'host' } })
    expect(wrong).toEqual([])
    await context.close()
  })

  it('shows another browser what to do, and nothing else', async () => {
    const { context, page } = await visitor()
    const answer = await page.goto(host.origin)
    expect(answer?.status()).toBe(403)
    expect(await page.textContent('body')).toContain('printed in its terminal')
    expect((await page.goto(host.address))?.status()).toBe(403)
    expect(await page.textContent('h1')).toBe('This address was used already')
    await context.close()
  })

  it('is not to be had by a page of another site', async () => {
    const { context, page } = await visitor()
    const own = await context.newPage()
    await context.addCookies([{ name: `squatbench-${host.port}`, value: 'guess', url: host.origin }])
    await own.goto('data:text/html,<title>elsewhere</title>')
    const seen = await own.evaluate(async (origin) => {
      const posted = await fetch(`${origin}/service/library.list`, {
        method: 'POST', body: '{}', headers: { 'content-type': 'text/plain' },
      }).then(() => 'readable', () => 'blocked')
      const framed = await new Promise<string>((done) => {
        const frame = document.createElement('iframe')
        frame.src = origin
        frame.onload = () => done(frame.contentDocument === null ? 'closed' : 'open')
        document.body.append(frame)
      })
      return [posted, framed]
    }, host.origin)
    expect(seen).toEqual(['blocked', 'closed'])
    await page.close()
    await context.close()
  })
})

describe('a restart', () => {
  it('ends on Ctrl-C, keeps what was saved, lets the old session in no more, and says so', async () => {
    const own = await libraryFolderForTest()
    const first = await startHostFor(own.folder)
    const { context, page } = await visitor()
    await page.goto(first.address)
    const imported = await ask(page, 'exchange.import', { text: DEMO })
    expect(imported.answer.ok).toBe(true)
    const chassisId = imported.answer.value['chassisId'] as string
    const before = await ask(page, 'library.open', { chassisId })
    expect(await first.stop()).toBe(0)

    const second = await startHostFor(own.folder, first.port)
    expect(second.origin).toBe(first.origin)
    expect((await ask(page, 'library.list', {})).status).toBe(403)
    await page.goto(second.address)
    await page.getByRole('heading', { level: 1 }).waitFor()
    expect(await ask(page, 'library.open', { chassisId })).toEqual(before)
    await context.close()
    expect(await second.stop()).toBe(0)
    await own.remove()
  })
})

describe('every screen', () => {
  it('works under the strict policy and asks nothing of any other machine', async () => {
    const own = await libraryFolderForTest()
    const watched = await startHostFor(own.folder)
    const { context, page, wrong, requested } = await visitor()
    await page.goto(watched.address)
    const { answer } = await ask(page, 'exchange.import', { text: DEMO })
    const chassisId = answer.value['chassisId'] as string
    const paths = ['/', '/help', '/preferences', ...STEP_NAMES.map((name) => `/car/${chassisId}/${name}`)]
    for (const path of paths) {
      await page.goto(`${watched.origin}/#${path}`)
      await page.getByRole('heading', { level: 1 }).first().waitFor()
      await page.waitForLoadState('networkidle')
    }
    expect(wrong).toEqual([])
    expect(requested.length).toBeGreaterThan(paths.length)
    const off = requested.filter((url) => !url.startsWith(`${watched.origin}/`) && !/^(blob|data):/.test(url))
    expect(off).toEqual([])
    expect(proxy.asked.filter((asked) => !BROWSERS_OWN.includes(asked))).toEqual([])
    expect(await watched.reachedOut()).toEqual([])
    console.log(`${paths.length} screens, ${requested.length} requests, 0 off the loopback address`)
    await context.close()
    await watched.stop()
    await own.remove()
  })

  it('would be caught if it did: the same watch sees a request to another machine', async () => {
    const { context, page, requested } = await visitor()
    await page.goto('http://elsewhere.invalid/').catch(() => undefined)
    expect(requested.filter((url) => url.includes('elsewhere.invalid'))).not.toEqual([])
    expect(proxy.asked.some((url) => url.includes('elsewhere.invalid'))).toBe(true)
    proxy.asked.length = 0
    await context.close()
  })
})
