/**
 * The built desktop program against the strict stand-in, item by item of Electron's security tutorial ("Security",
 * electronjs.org/docs/latest/tutorial/security) and by what a desktop expects of a window. `DEVELOPERS.md` names these.
 */
import { readFileSync } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type Electron from 'electron'
import { COMMAND_CHANNEL, SERVICE_CHANNEL } from '@core/services'
import type { Bridge } from '@electron/preload/bridge'
import { startHost } from '@electron/host'
import { someChassis, someExchange, someSession } from '../harness/documents'
import type { StandInContents, StandInWindow } from '../harness/electron/standIn'
import { libraryAt } from '../harness/libraryAt'
import { rawRequest } from '../harness/rawRequest'
import { startBuilt } from './builtDesktop'
import type { Started } from './builtDesktop'

const PAGE = 'squatbench://app/'
let folder: string
let electron: Started
let window: StandInWindow
let bridge: Bridge

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'squatbench-both-'))
  electron = await startBuilt()
  window = await electron.window()
  bridge = electron.bridgeIn(window)['squatbench'] as Bridge
})
afterAll(async () => {
  electron?.remove()
  await rm(folder, { recursive: true, force: true })
})

/** True where the listener of a navigation event lets this address pass. */
function passes(event: string, url: string): boolean {
  let stopped = false
  window.webContents.emit(event, { url, preventDefault: () => (stopped = true) })
  return !stopped
}

describe('the window', () => {
  it('keeps its page apart from Node, in a sandbox, with the web’s own rules on', () => {
    expect(electron.state.sandboxed).toBe(true)
    expect(window.options.webPreferences).toMatchObject({
      contextIsolation: true, sandbox: true, nodeIntegration: false, nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false, webSecurity: true, allowRunningInsecureContent: false,
      experimentalFeatures: false, webviewTag: false, devTools: false, spellcheck: false,
    })
    expect(window.options.webPreferences).not.toHaveProperty('enableBlinkFeatures')
    expect(window.options.webPreferences?.preload).toMatch(/preload[\\/]index\.cjs$/)
  })

  it('shows our own page by a secure scheme of its own', () => {
    expect(window.webContents.getURL()).toBe(PAGE)
    expect(electron.protocol.schemes).toEqual([
      { scheme: 'squatbench', privileges: { standard: true, secure: true, supportFetchAPI: true } },
    ])
  })

  it.each(['will-navigate', 'will-frame-navigate', 'will-redirect'])('does not leave its page on %s', (event) => {
    expect(passes(event, `${PAGE}#/help`)).toBe(true)
    for (const url of [
      'https://evil.example/', 'http://127.0.0.1/', 'file:///etc/passwd', 'squatbench://other/', 'data:text/html,x',
      'javascript:alert(1)', 'squatbench:app', 'not an address',
    ]) expect([url, passes(event, url)]).toEqual([url, false])
  })

  it('opens no other window and no embedded view', () => {
    const details = { url: `${PAGE}x` } as Electron.HandlerDetails
    expect(window.webContents.openHandler?.(details)).toEqual({ action: 'deny' })
    let stopped = false
    window.webContents.emit('will-attach-webview', { preventDefault: () => (stopped = true) })
    expect(stopped).toBe(true)
  })
})

describe('the session', () => {
  it('gives two permissions, to our own page: writing to the clipboard, and the camera’s picture without sound', () => {
    const given = (permission: string, url: string, details: object = {}): boolean | undefined => {
      let answer: boolean | undefined
      electron.defaultSession.onRequest?.(
        { getURL: () => url } as Electron.WebContents,
        permission as 'media',
        (granted) => (answer = granted),
        details as Electron.PermissionRequest,
      )
      return answer
    }
    const checked = (permission: string, origin: string, details: object = {}) =>
      electron.defaultSession.onCheck?.(null, permission as 'media', origin, details as Electron.PermissionCheckHandlerHandlerDetails)
    expect(given('clipboard-sanitized-write', PAGE)).toBe(true)
    expect(checked('clipboard-sanitized-write', 'squatbench://app')).toBe(true)
    expect(given('clipboard-sanitized-write', 'https://evil.example')).toBe(false)
    expect(given('media', PAGE, { mediaTypes: ['video'] })).toBe(true)
    expect(given('media', PAGE, { mediaTypes: ['audio'] })).toBe(false)
    expect(given('media', PAGE, { mediaTypes: ['video', 'audio'] })).toBe(false)
    expect(given('media', 'https://evil.example', { mediaTypes: ['video'] })).toBe(false)
    expect(checked('media', 'squatbench://app', { mediaType: 'video' })).toBe(true)
    expect(checked('media', 'squatbench://app', { mediaType: 'audio' })).toBe(false)
    for (const permission of [
      'media', 'geolocation', 'notifications', 'midi', 'midiSysex', 'pointerLock', 'fullscreen', 'openExternal',
      'clipboard-read', 'display-capture', 'mediaKeySystem', 'idle-detection', 'storage-access', 'fileSystem', 'hid',
      'serial', 'usb', 'unknown',
    ]) {
      expect([permission, given(permission, PAGE)]).toEqual([permission, false])
      expect([permission, checked(permission, 'squatbench://app')]).toEqual([permission, false])
    }
    expect(electron.defaultSession.onDevice?.({} as Electron.DevicePermissionHandlerHandlerDetails)).toBe(false)
  })

  it('lets no request leave the machine', () => {
    const cancelled = (url: string): boolean | undefined => {
      let answer: boolean | undefined
      electron.defaultSession.onBeforeRequest?.(
        { url } as Electron.OnBeforeRequestListenerDetails, (response) => (answer = response.cancel),
      )
      return answer
    }
    for (const url of [`${PAGE}x.js`, 'blob:squatbench://app/1', 'data:image/png;base64,AA==']) {
      expect(cancelled(url)).toBe(false)
    }
    for (const url of [
      'https://example.com/', 'http://127.0.0.1:80/', 'ws://127.0.0.1/', 'file:///etc/passwd', 'ftp://a/', 'chrome://gpu',
    ]) expect([url, cancelled(url)]).toEqual([url, true])
    expect(electron.defaultSession.spellChecker).toBe(false)
  })

  it('asks where to save what the page offers', () => {
    let options: Electron.SaveDialogOptions = {}
    const item = {
      getFilename: () => 'report.csv', setSaveDialogOptions: (given: Electron.SaveDialogOptions) => (options = given),
    }
    electron.defaultSession.emit('will-download', {}, item)
    expect(options.defaultPath).toBe(join(electron.folder, 'downloads', 'report.csv'))
  })
})

describe('the page’s files', () => {
  const served = async (address: string, init?: RequestInit) => {
    const answer = await electron.protocol.handlers.get('squatbench')?.(new Request(address, init))
    if (answer === undefined) throw new Error('the scheme is not answered')
    return answer
  }

  it('come with the policy the host sends, too', async () => {
    const { status, headers } = await served(`${PAGE}nothing.js`)
    expect(status).toBe(404)
    expect(headers.get('content-security-policy')).toContain("default-src 'none'")
    expect(headers.get('content-security-policy')).not.toMatch(/unsafe/)
  })

  it.each([
    `${PAGE}../package.json`, `${PAGE}..%2fmain%2findex.js`, `${PAGE}%2e%2e/main/index.js`, 'squatbench://other/index.html',
    `${PAGE}..%5cmain%5cindex.js`,
  ])('are not found at %s', async (address) => {
    expect((await served(address)).status).toBe(404)
  })
})

describe('the service channel', () => {
  it('answers the top frame of our own page only', async () => {
    const own = window.webContents
    const ask = (sender: StandInContents, frame: { url: string } | null) =>
      electron.invoke(sender, frame, SERVICE_CHANNEL, 'library.list', {})
    expect(await ask(own, own.mainFrame)).toMatchObject({ ok: true })
    const refused = { ok: false, error: { code: 'refused' } }
    expect(await ask(own, null)).toMatchObject(refused)
    expect(await ask(own, { url: PAGE })).toMatchObject(refused)
    const strange = new electron.Contents()
    strange.mainFrame.url = 'https://evil.example/'
    expect(await ask(strange, strange.mainFrame)).toMatchObject(refused)
  })

  it('is the only channel', () => {
    expect([...electron.channels.keys()]).toEqual([SERVICE_CHANNEL])
  })
})

describe('the bridge', () => {
  it('is two functions, and all that is on the window', () => {
    expect(Object.keys(electron.state.world)).toEqual(['squatbench'])
    expect(Object.keys(bridge)).toEqual(['call', 'onCommand'])
  })

  it('refuses what is not in the table', async () => {
    const answer = await bridge.call('__proto__' as 'app.info', {})
    expect(answer).toMatchObject({ ok: false, error: { code: 'refused' } })
  })

  it('prints a report to PDF without scripts, network or bridge', async () => {
    const before = electron.windows().length
    const created: StandInWindow[] = []
    const note = (_event: unknown, contents: unknown) => {
      queueMicrotask(() => created.push(...electron.windows().filter((each) => each.webContents === contents)))
    }
    electron.app.on('web-contents-created', note)
    const html = '<!doctype html><title>Report</title>'
    const answers = await Promise.all([bridge.call('report.pdf', { html }), bridge.call('report.pdf', { html: 'two' })])
    electron.app.off('web-contents-created', note)
    for (const answer of answers) {
      expect(answer.ok && Buffer.from(answer.value.base64, 'base64').toString()).toBe('%PDF-stand-in')
    }
    expect(electron.windows().length).toBe(before)
    const [first, second] = created
    expect(first?.options.show).toBe(false)
    expect(first?.options.webPreferences).toMatchObject({ sandbox: true, contextIsolation: true, javascript: false })
    expect(first?.options.webPreferences?.preload).toBeUndefined()
    expect(await first?.loaded?.text()).toBe(html)
    expect(await second?.loaded?.text()).toBe('two')
    expect(first?.loaded?.headers.get('content-security-policy')).toContain("default-src 'none'")
    expect(first?.destroyed).toBe(true)
  })
})

describe('both transports', () => {
  it('give the same answers as the table, good and bad', async () => {
    const table = libraryAt(join(folder, 'table'))
    const behindHost = libraryAt(join(folder, 'host'))
    const host = await startHost({ dispatch: behindHost.dispatch, pageFolder: folder })
    const { port, pathname, search } = new URL(host.address)
    const name = `127.0.0.1:${port}`
    const entered = await rawRequest(Number(port), { path: pathname + search, headers: { host: name } })
    const cookie = (entered.headers['set-cookie']?.[0] ?? '').split(';')[0] ?? ''
    const overHost = async (service: string, input: unknown): Promise<unknown> => {
      const { text } = await rawRequest(Number(port), {
        method: 'POST',
        path: `/service/${service}`,
        headers: { host: name, cookie, origin: host.origin, 'content-type': 'application/json' },
        body: JSON.stringify(input),
      })
      return JSON.parse(text)
    }
    const overBridge = (service: string, input: unknown) =>
      bridge.call(service as 'app.info', input as Record<string, never>)

    const asked: [string, unknown][] = [
      ['preferences.read', {}],
      ['library.saveChassis', { chassis: someChassis('a'), baseRevision: 0 }],
      ['library.saveSession', { session: someSession('a', 'q', 12), baseRevision: 0 }],
      ['library.saveSession', { session: someSession('a', 'q', 16), baseRevision: 0 }],
      ['library.saveSession', { session: { ...someSession('a', 'q'), readings: [{ shownMm: 'x' }] }, baseRevision: 1 }],
      ['library.open', { chassisId: 'a' }],
      ['library.revisions', { chassisId: 'a' }],
      ['library.open', { chassisId: '../a' }],
      ['exchange.import', { text: JSON.stringify(someExchange('b', 2)) }],
      ['exchange.import', { text: '{"format":' }],
      ['exchange.export', { chassisId: 'b' }],
      ['library.removeSession', { chassisId: 'a', sessionId: 'none' }],
      ['library.removeChassis', { chassisId: 'a' }],
      ['library.open', { chassisId: 'a' }],
      ['nothing', {}],
    ]
    for (const [service, input] of asked) {
      const expected = await table.dispatch(service, input)
      expect([service, await overHost(service, input)]).toEqual([service, expected])
      expect([service, await overBridge(service, input)]).toEqual([service, expected])
    }
    await host.close()
  })
})

describe('the preload', () => {
  it('hands nothing of Electron or Node to the page but the one bridge', () => {
    const preload = readFileSync(new URL('../../electron/preload/index.ts', import.meta.url), 'utf8')
    expect(preload.match(/exposeInMainWorld/g)).toHaveLength(1)
    expect(preload).not.toMatch(/node:|require\(|process\./)
    const heard: unknown[][] = []
    bridge.onCommand((...told) => heard.push(told))
    window.webContents.send(COMMAND_CHANNEL, 'undo')
    expect(heard).toEqual([['undo']])
  })

  it('lets nothing through that can’t be copied', async () => {
    const call = bridge.call as (name: string, input: unknown) => Promise<unknown>
    expect(() => call('library.list', new Proxy({}, {}))).toThrow('could not be cloned')
    await expect((async () => call('library.list', { of: () => 1 }))()).rejects.toThrow('could not be cloned')
  })
})
