/** What a builder expects of the desktop window, one start of the built program each, on the strict stand-in. */
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join, sep } from 'node:path'
import { afterEach, describe, expect, it, vi } from 'vitest'
import type Electron from 'electron'
import { DEFAULT_PREFERENCES } from '@core/services'
import type { Answer, Preferences, ServiceInput, ServiceName, ServiceOutput } from '@core/services'
import { PAPER } from '@electron/main/look'
import { profileFolder } from '@electron/main/profile'
import { frameWords } from '@electron/main/words'
import { libraryFolder } from '@electron/services'
import { startBuilt } from './builtDesktop'
import type { StartOptions, Started } from './builtDesktop'

// Only for the constants of these files; the program itself is the built one.
vi.mock('electron', () => ({ app: {}, nativeTheme: {} }))

const { en, de } = { en: frameWords('en'), de: frameWords('de') }
let started: Started[] = []
async function start(options: StartOptions = {}): Promise<Started> {
  const electron = await startBuilt(options)
  started.push(electron)
  return electron
}
afterEach(() => {
  for (const each of started.reverse()) each.remove()
  started = []
})

/** Lays preferences into the library before the program starts. */
const preferring = (part: Partial<Preferences>) => (folder: string): void => {
  mkdirSync(join(folder, 'library'))
  writeFileSync(join(folder, 'library', 'preferences.json'), JSON.stringify({ ...DEFAULT_PREFERENCES, ...part }))
}

/** Calls a service as the page does. */
async function call<N extends ServiceName>(
  electron: Started, name: N, input: ServiceInput<N>,
): Promise<Answer<ServiceOutput<N>>> {
  const window = await electron.window()
  if (electron.state.preloadIn === null) electron.bridgeIn(window)
  const bridge = electron.state.world['squatbench'] as { call: (name: N, input: ServiceInput<N>) => Promise<Answer<ServiceOutput<N>>> }
  return bridge.call(name, input)
}

const told = (electron: Started, kind: string) =>
  electron.state.asked.filter((each) => each.kind === kind).map(({ options }) => options as Record<string, unknown>)
const turns = async (count = 20): Promise<void> => {
  for (let turn = 0; turn < count; turn += 1) await new Promise((done) => setImmediate(done))
}
const again = (electron: Started, data: unknown = electron.state.lockData): boolean =>
  electron.app.emit('second-instance', {}, [], '/', data)

describe('a second start', () => {
  it('brings the window back from the task bar, and to the front', async () => {
    const electron = await start({ platform: 'win32' })
    const window = await electron.window()
    window.minimised = true
    expect(window.isVisible()).toBe(false)
    again(electron)
    await turns()
    expect([window.minimised, window.isVisible(), window.focused]).toEqual([false, true, 1])
    expect(electron.state.asked).toEqual([])
  })

  it('opens a window where all were closed and the program stayed, as on macOS', async () => {
    const electron = await start({ platform: 'darwin' })
    const before = await electron.window()
    before.close()
    await turns()
    expect([electron.windows().length, electron.state.quits]).toEqual([0, 0])
    again(electron)
    const window = await electron.window()
    expect(window).not.toBe(before)
    expect(window.isVisible()).toBe(true)
  })

  it('with another library says which one is open and which one was asked for', async () => {
    const electron = await start({ before: preferring({ language: 'de' }) })
    await electron.window()
    again(electron, { library: '/elsewhere' })
    await turns()
    const [question] = told(electron, 'showMessageBox')
    expect(question).toMatchObject({ message: de.otherLibrary.message })
    expect(question?.['detail']).toContain(electron.library)
    expect(question?.['detail']).toContain('/elsewhere')
    again(electron)
    again(electron, 'nonsense')
    await turns()
    expect(told(electron, 'showMessageBox')).toHaveLength(1)
  })

  it('ends at once where another one holds the lock, says so, and has told it its library', async () => {
    const electron = await start({ first: false })
    await turns()
    expect(electron.state.lockData).toEqual({ library: electron.library })
    expect(electron.state.quits).toBe(1)
    expect(electron.printed).toEqual([expect.stringMatching(/open already/)])
    expect(electron.windows()).toEqual([])
  })
})

describe('the program', () => {
  it('answers the page from the moment a second start could open one', async () => {
    const electron = await start()
    await electron.app.whenReady()
    expect([...electron.channels.keys()]).toEqual(['squatbench:service'])
  })
})

describe('a program that can’t show its page', () => {
  it('says so in a box and ends, so that no unseen program holds the lock', async () => {
    const electron = await start({ failLoad: new Error('ERR_FAILED (-2) loading') })
    await vi.waitFor(() => expect(electron.state.exitCode).toBe(1))
    expect(told(electron, 'showErrorBox')).toEqual([
      { title: en.failed.title, content: expect.stringContaining('ERR_FAILED (-2)') },
    ])
  })

  it('says so when the window is opened again later, too', async () => {
    const electron = await start({ platform: 'darwin' })
    ;(await electron.window()).close()
    await turns()
    vi.spyOn(electron.BrowserWindow.prototype, 'loadURL').mockRejectedValue(new Error('ERR_LATER'))
    electron.app.emit('activate')
    await vi.waitFor(() => expect(electron.state.exitCode).toBe(1))
    expect(told(electron, 'showErrorBox')[0]?.['content']).toContain('ERR_LATER')
  })

  it('says so where its own folder can’t be made', async () => {
    const electron = await start({ before: (folder) => writeFileSync(join(folder, 'appData'), '') })
    expect(electron.state.exitCode).toBe(1)
    expect(told(electron, 'showErrorBox')).toHaveLength(1)
  })

  it('does not mistake a window that is closed while it loads for one', async () => {
    const electron = await start()
    const window = await electron.window()
    window.close()
    vi.spyOn(electron.BrowserWindow.prototype, 'loadURL').mockImplementation(function load(this: typeof window) {
      this.close()
      return Promise.reject(new Error('ERR_ABORTED'))
    })
    electron.app.emit('activate')
    await turns()
    expect([electron.state.exitCode, electron.state.asked]).toEqual([null, []])
  })

  it('shows its window also where nobody tells that there is something to see', async () => {
    const electron = await start({ tellsReadyToShow: false })
    expect((await electron.window()).isVisible()).toBe(true)
  })
})

describe('a page whose process ended', () => {
  it.each([[0, 1, 0], [1, 0, 1]])('is told of, and key %i opens it again or ends the program', async (key, reloads, quits) => {
    const electron = await start()
    const window = await electron.window()
    electron.state.answer = () => ({ response: key })
    window.webContents.emit('render-process-gone', {}, { reason: 'crashed', exitCode: 5 })
    await turns()
    expect(told(electron, 'showMessageBox')).toMatchObject([
      { message: en.crashed.message, detail: expect.stringContaining('crashed'), buttons: [en.crashed.reload, en.crashed.quit] },
    ])
    expect([window.webContents.reloads, electron.state.quits]).toEqual([reloads, quits])
  })

  it('is not told of where it ended as it should', async () => {
    const electron = await start()
    ;(await electron.window()).webContents.emit('render-process-gone', {}, { reason: 'clean-exit', exitCode: 0 })
    await turns()
    expect(electron.state.asked).toEqual([])
  })
})

describe('the close question', () => {
  it.each([['en', en], ['de', de]] as const)('is asked in the builder’s language (%s), and the window stays unless told to go', async (language, words) => {
    const electron = await start({ before: preferring({ language }) })
    const window = await electron.window()
    window.unwritten = true
    expect(window.close()).toBe(false)
    expect(told(electron, 'showMessageBoxSync')).toEqual([{
      type: 'warning', buttons: [words.leave.stay, words.leave.go], defaultId: 0, cancelId: 0, noLink: true,
      message: words.leave.message, detail: words.leave.detail,
    }])
    electron.state.answer = () => 1
    expect(window.close()).toBe(true)
  })

  it('says what is lost and what is kept, and fits a reload as well', () => {
    expect(en.leave.detail).toMatch(/not entered is lost/)
    expect(en.leave.detail).toMatch(/could not be written is kept .* taken in/)
    expect(de.leave.detail).toMatch(/nicht eingegeben wurde, geht verloren/)
    for (const { message, detail, stay, go } of [en.leave, de.leave]) {
      expect(`${message} ${detail} ${stay} ${go}`).not.toMatch(/clos|schließ/i)
    }
  })
})

describe('the frame', () => {
  it('has the language and the theme of the preferences from the start, and follows a change', async () => {
    const electron = await start({ before: preferring({ language: 'de', theme: 'dark' }) })
    const window = await electron.window()
    expect(electron.theme.source).toBe('dark')
    expect(window.options.backgroundColor).toBe(PAPER.dark)
    expect(labels(electron)).toContain(de.menu.edit)
    await call(electron, 'preferences.save', { ...DEFAULT_PREFERENCES, theme: 'light' })
    expect(electron.theme.source).toBe('light')
    expect(labels(electron)).toContain(en.menu.edit)
    expect(labels(electron)).not.toContain(de.menu.edit)
  })

  it('has the page’s own ground until the page is drawn', async () => {
    const tokens = readFileSync(new URL('../../renderer/look/tokens.css', import.meta.url), 'utf8')
    const grounds = [...tokens.matchAll(/--paper: (#\w{6})/g)].map(([, colour]) => colour)
    expect(grounds[0]).toBe(PAPER.light)
    expect(grounds).toContain(PAPER.dark)
    expect((await (await start()).window()).options.backgroundColor).toBe(PAPER.light)
  })

  it('opens though the preferences can’t be read', async () => {
    const electron = await start({ before: (folder) => mkdirSync(join(folder, 'library', 'preferences.json'), { recursive: true }) })
    expect((await electron.window()).isVisible()).toBe(true)
    expect(labels(electron)).toContain(en.menu.edit)
  })

  it('has our icon where the system does not take it from the program', async () => {
    const linux = (await (await start({ platform: 'linux' })).window()).options.icon
    expect(readFileSync(String(linux)).equals(readFileSync(new URL('../../electron/tools/icon.png', import.meta.url)))).toBe(true)
    expect((await (await start({ platform: 'win32' })).window()).options).not.toHaveProperty('icon')
  })

  it('is told apart by Windows as the installed program is', async () => {
    expect((await start({ platform: 'win32' })).state.appUserModelId).toBe('app.squatbench')
    expect((await start({ platform: 'linux' })).state.appUserModelId).toBeNull()
  })

  it('leaves the sandbox to a launcher that found none', async () => {
    expect((await start({ switches: ['no-sandbox'] })).state.sandboxed).toBe(false)
    expect((await start()).state.sandboxed).toBe(true)
  })
})

type Item = Electron.MenuItemConstructorOptions
const flat = (items: readonly Item[]): Item[] =>
  items.flatMap((item) => [item, ...(Array.isArray(item.submenu) ? flat(item.submenu) : [])])
const labels = (electron: Started): (string | undefined)[] => flat(electron.state.menu ?? []).map(({ label }) => label)

describe('the menu', () => {
  it.each(['linux', 'win32', 'darwin'] as const)('of %s has words of ours on every item, and no developer tools', async (platform) => {
    const electron = await start({ platform, before: preferring({ language: 'de' }) })
    await electron.window()
    const items = flat(electron.state.menu ?? []).filter(({ type }) => type !== 'separator')
    const ours: (string | undefined)[] = ['Squatbench', ...Object.values(de.menu)]
    expect(items.length).toBeGreaterThan(15)
    for (const { label } of items) expect(ours).toContain(label)
    expect(JSON.stringify(items)).not.toMatch(/toggleDevTools|viewMenu/i)
  })

  it.each(['undo', 'redo'] as const)('hands %s to the page, which takes back entries, not letters', async (name) => {
    const electron = await start()
    const window = await electron.window()
    const item = flat(electron.state.menu ?? []).find(({ label }) => label === en.menu[name])
    expect(item?.role).toBeUndefined()
    item?.click?.({} as Electron.MenuItem, undefined, {} as Electron.KeyboardEvent)
    expect(window.webContents.sent).toEqual([['squatbench:command', name]])
    window.close()
    expect(() => item?.click?.({} as Electron.MenuItem, undefined, {} as Electron.KeyboardEvent)).not.toThrow()
  })
})

describe('the window’s place', () => {
  const LAPTOP = { x: 0, y: 0, width: 1366, height: 728 }

  it('fits a small display at the first start', async () => {
    const window = await (await start({ workAreas: [LAPTOP] })).window()
    expect(window.bounds).toEqual({ x: 43, y: 0, width: 1280, height: 728 })
    expect(window.maximised).toBe(false)
  })

  it.each([
    ['where it was', { x: 70, y: 50, width: 900, height: 600 }, { x: 70, y: 50, width: 900, height: 600 }],
    ['inside a display that is smaller now', { x: 900, y: 300, width: 1600, height: 1200 }, LAPTOP],
    ['back from a display that is gone', { x: -1500, y: 2000, width: 800, height: 600 }, { x: 0, y: 128, width: 800, height: 600 }],
  ])('is kept, %s', async (_case, left, found) => {
    const first = await start({ workAreas: [{ x: -2000, y: 0, width: 4000, height: 3000 }] })
    const window = await first.window()
    window.bounds = left
    window.maximised = true
    window.close()
    const kept = readFileSync(join(first.app.getPath('userData'), 'window.json'), 'utf8')
    const second = await start({
      workAreas: [LAPTOP],
      before: (folder) => {
        mkdirSync(profileFolder(join(folder, 'appData')), { recursive: true })
        writeFileSync(join(profileFolder(join(folder, 'appData')), 'window.json'), kept)
      },
    })
    const next = await second.window()
    expect(next.bounds).toEqual(found)
    expect(next.maximised).toBe(true)
  })

  it.each(['{', '[]', '{"x":1.5,"y":0,"width":1,"height":1,"maximized":false}', '{"x":0,"y":0,"width":-5,"height":1,"maximized":false}'])(
    'is the usual one where what was kept is %s', async (kept) => {
      const electron = await start({
        before: (folder) => {
          mkdirSync(profileFolder(join(folder, 'appData')), { recursive: true })
          writeFileSync(join(profileFolder(join(folder, 'appData')), 'window.json'), kept)
        },
      })
      expect((await electron.window()).bounds).toEqual({ x: 320, y: 90, width: 1280, height: 860 })
    },
  )
})

describe('the engine’s own folder', () => {
  it('is set before anything lies in it, and is made', async () => {
    const electron = await start()
    await electron.window()
    expect(electron.app.getPath('userData')).toBe(profileFolder(join(electron.folder, 'appData')))
    expect(existsSync(electron.app.getPath('userData'))).toBe(true)
  })

  it.each([
    ['linux', { XDG_DATA_HOME: '' }, join('/home', 'x', '.config')],
    ['win32', { APPDATA: '/roaming' }, '/roaming'],
    ['darwin', {}, join('/home', 'x', 'Library', 'Application Support')],
  ] as const)('on %s neither holds the library nor lies in it, capitals or not', (platform, environment, appData) => {
    vi.stubEnv('HOME', '/home/x')
    const profile = profileFolder(appData).toLowerCase() + sep
    const library = libraryFolder(null, environment, platform).toLowerCase() + sep
    vi.unstubAllEnvs()
    expect(library).toContain('squatbench')
    expect([library.startsWith(profile), profile.startsWith(library)]).toEqual([false, false])
  })
})

describe('many tables', () => {
  const files = [{ fileName: 'Heron 10 readings.csv', text: 'a,b\r\n' }, { fileName: 'Heron 10 curves.csv', text: 'c\r\n' }]

  /** Answers the folder question, and a question after it with a key. */
  const answering = (electron: Started, folder: string | null, response = 0): void => {
    electron.state.answer = ({ kind }) => (kind === 'showOpenDialog'
      ? { canceled: folder === null, filePaths: folder === null ? [] : [folder] }
      : { response })
  }

  it('ask for one folder, once, and lie there', async () => {
    const electron = await start()
    const folder = join(electron.folder, 'tables')
    mkdirSync(folder)
    answering(electron, folder)
    expect(await call(electron, 'report.tables', { files })).toEqual({ ok: true, value: { kind: 'saved', folder } })
    expect(electron.state.asked.map(({ kind }) => kind)).toEqual(['showOpenDialog'])
    expect(readdirSync(folder)).toEqual(files.map(({ fileName }) => fileName).sort())
    expect(readFileSync(join(folder, files[0]?.fileName ?? ''), 'utf8')).toBe('a,b\r\n')
    answering(electron, null)
    await call(electron, 'report.tables', { files })
    expect(told(electron, 'showOpenDialog').map(({ defaultPath }) => defaultPath))
      .toEqual([join(electron.folder, 'downloads'), folder])
  })

  it('write nothing where no folder is chosen', async () => {
    const electron = await start()
    answering(electron, null)
    expect(await call(electron, 'report.tables', { files })).toEqual({ ok: true, value: { kind: 'cancelled' } })
  })

  it('replace nothing without asking', async () => {
    const electron = await start()
    const folder = join(electron.folder, 'tables')
    mkdirSync(folder)
    const old = join(folder, 'heron 10 READINGS.csv')
    writeFileSync(old, 'old')
    answering(electron, folder, 0)
    expect(await call(electron, 'report.tables', { files })).toMatchObject({ value: { kind: 'cancelled' } })
    expect(told(electron, 'showMessageBox')).toMatchObject([{ detail: expect.stringContaining('Heron 10 readings.csv') }])
    expect([readdirSync(folder).length, readFileSync(old, 'utf8')]).toEqual([1, 'old'])
    answering(electron, folder, 1)
    expect(await call(electron, 'report.tables', { files })).toMatchObject({ value: { kind: 'saved' } })
  })

  it('say so, and where, when they can’t be written', async () => {
    const electron = await start({ before: preferring({ language: 'de' }) })
    answering(electron, join(electron.folder, 'nowhere'))
    const answer = await call(electron, 'report.tables', { files })
    expect(answer).toMatchObject({ ok: false, error: { code: 'failed', message: expect.stringMatching(/nowhere.*ENOENT/) } })
    expect(answer.ok ? '' : answer.error.message).toMatch(/^Die Tabellen/)
  })

  it.each(['../a.csv', '/a.csv', 'a/b.csv', '.a.csv', 'a.exe', 'a\\b.csv', 'C:a.csv', '.csv', 'a.csv\n'])('refuse the name %j', async (fileName) => {
    const electron = await start()
    expect(await call(electron, 'report.tables', { files: [{ fileName, text: '' }] })).toMatchObject({ ok: false, error: { code: 'badInput' } })
    expect(electron.state.asked).toEqual([])
  })
})
