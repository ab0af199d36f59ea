/**
 * A strict stand-in for the package `electron`: the parts the program uses, typed by Electron's own types and
 * checked against its typings as it runs. It records what it is told, and behaves as Electron does where that
 * matters: what may be called when, windows that minimise, loads that fail, copies across each bridge.
 */
import { existsSync } from 'node:fs'
import { join } from 'node:path'
import type Electron from 'electron'
import { checkMenu } from './menuRules'
import { bareOf, onlyOptions, standsFor, strict, StrictEmitter, throughBridge } from './strict'
import { membersOf } from './typings'

interface Frame { url: Electron.WebFrameMain['url'] }
type Asked = { kind: string; options: unknown }

export interface StandInOptions {
  /** Below it lie the system's places. */
  home: string
  platform?: NodeJS.Platform
  /** False where another one holds the lock. */
  first?: boolean
  /** What a load ends with. */
  failLoad?: Error
  /** False for a display server that never says when there is something to see. */
  tellsReadyToShow?: boolean
  switches?: string[]
  workAreas?: Electron.Rectangle[]
}

/** Everything of one run of the program. */
export function standIn(options: StandInOptions) {
  const { home, platform = process.platform, first = true, switches = [] } = options
  const workAreas = options.workAreas ?? [{ x: 0, y: 0, width: 1920, height: 1040 }]
  const state = {
    ready: false, sandboxed: false, quits: 0, exitCode: null as number | null, appUserModelId: null as string | null,
    lockData: undefined as unknown, locked: false, asked: [] as Asked[],
    /** Answers every question; the first key where nobody says otherwise. */
    answer: (_asked: Asked): unknown => undefined,
    world: {} as Record<string, unknown>,
    /** The window whose page the preload runs in. */
    preloadIn: null as Contents | null,
    menu: null as Electron.MenuItemConstructorOptions[] | null,
  }
  const afterReady = (what: string): void => {
    if (!state.ready) throw new Error(`${what} can’t be used before app is ready`)
  }
  const beforeReady = (what: string): void => {
    if (state.ready) throw new Error(`${what} must be called before app is ready`)
  }

  class Contents extends StrictEmitter implements Pick<
    Electron.WebContents, 'setWindowOpenHandler' | 'getURL' | 'printToPDF' | 'send' | 'reload'
  > {
    openHandler: Parameters<Electron.WebContents['setWindowOpenHandler']>[0] | null = null
    readonly mainFrame: Frame = { url: '' }
    printed: Electron.PrintToPDFOptions[] = []
    sent: unknown[][] = []
    reloads = 0

    constructor() {
      super('WebContents')
    }

    setWindowOpenHandler(handler: Parameters<Electron.WebContents['setWindowOpenHandler']>[0]): void {
      this.openHandler = handler
    }

    getURL(): string {
      return this.mainFrame.url
    }

    printToPDF(how: Electron.PrintToPDFOptions): Promise<Buffer<ArrayBuffer>> {
      onlyOptions(how, 'PrintToPDFOptions')
      this.printed.push(how)
      return Promise.resolve(Buffer.from('%PDF-stand-in'))
    }

    send(channel: string, ...args: unknown[]): void {
      const copied = structuredClone(args)
      this.sent.push([channel, ...copied])
      for (const hear of pageChannels.get(channel) ?? []) hear({}, ...copied)
    }

    reload(): void {
      this.reloads += 1
    }
  }

  class Window extends StrictEmitter implements Pick<
    Electron.BrowserWindow,
    'loadURL' | 'show' | 'destroy' | 'isVisible' | 'isMinimized' | 'restore' | 'focus' | 'isDestroyed' | 'maximize'
    | 'isMaximized' | 'getNormalBounds'
  > {
    static all: Window[] = []
    static getAllWindows(): Window[] {
      return Window.all
    }

    readonly webContents = new Contents()
    readonly options: Electron.BrowserWindowConstructorOptions
    bounds: Electron.Rectangle
    shown = false
    minimised = false
    maximised = false
    focused = 0
    destroyed = false
    /** The page objects to being left. */
    unwritten = false
    /** The document the window's session served for the address. */
    loaded: Response | null = null

    constructor(wished: Electron.BrowserWindowConstructorOptions = {}) {
      super('BrowserWindow')
      afterReady('BrowserWindow')
      onlyOptions(wished, 'BrowserWindowConstructorOptions', 'BaseWindowConstructorOptions')
      onlyOptions(wished.webPreferences ?? {}, 'WebPreferences')
      if (typeof wished.icon === 'string' && !existsSync(wished.icon)) throw new Error(`Failed to load image ${wished.icon}`)
      const { x, y, width = 800, height = 600 } = wished
      if ((x === undefined) !== (y === undefined)) throw new Error('x is required if y is used, and y if x is')
      if (![x ?? 0, y ?? 0, width, height].every(Number.isInteger)) throw new Error('a place of a window is in whole pixels')
      const { preload } = wished.webPreferences ?? {}
      if (preload !== undefined && !existsSync(preload)) throw new Error(`Unable to load preload script: ${preload}`)
      this.options = wished
      this.bounds = { x: x ?? 0, y: y ?? 0, width, height }
      this.shown = wished.show !== false
      Window.all.push(this)
      app.emit('web-contents-created', {}, this.webContents)
    }

    async loadURL(address: string): Promise<void> {
      this.alive()
      if (options.failLoad !== undefined) throw options.failLoad
      this.webContents.mainFrame.url = address
      const ses = bareOf((this.options.webPreferences?.session ?? mainSession()) as unknown as Session)
      const handler = ses.protocol.handlers.get(new URL(address).protocol.slice(0, -1))
      if (handler === undefined) throw new Error(`ERR_UNKNOWN_URL_SCHEME (-302) loading '${address}'`)
      this.loaded = await handler(new Request(address))
      if (options.tellsReadyToShow !== false) this.emit('ready-to-show')
    }

    private alive(): void {
      if (this.destroyed) throw new TypeError('Object has been destroyed')
    }

    show(): void {
      this.alive()
      this.shown = true
    }

    /** As on Windows and macOS: a minimised window is not visible. */
    isVisible(): boolean {
      this.alive()
      return this.shown && !this.minimised
    }

    isMinimized(): boolean {
      this.alive()
      return this.minimised
    }

    restore(): void {
      this.alive()
      this.minimised = false
    }

    maximize(): void {
      this.alive()
      this.maximised = true
      this.shown = true
    }

    isMaximized(): boolean {
      this.alive()
      return this.maximised
    }

    getNormalBounds(): Electron.Rectangle {
      this.alive()
      return { ...this.bounds }
    }

    focus(): void {
      this.alive()
      if (this.isVisible()) this.focused += 1
    }

    isDestroyed(): boolean {
      return this.destroyed
    }

    destroy(): void {
      if (this.destroyed) return
      this.destroyed = true
      Window.all = Window.all.filter((each) => each !== this)
      this.emit('closed')
      // Closing is told in a later turn, so a window made in this one counts.
      setImmediate(() => {
        if (Window.all.length > 0 || state.quits > 0) return
        if (app.listenerCount('window-all-closed') > 0) app.emit('window-all-closed')
        else app.quit()
      })
    }

    /** The builder closes it; false where it stays. */
    close(): boolean {
      this.emit('close', { preventDefault: () => undefined })
      if (this.unwritten && !this.letsGo()) return false
      this.destroy()
      return true
    }

    /** True where the program lets a page go that objects. */
    letsGo(): boolean {
      let gone = false
      this.webContents.emit('will-prevent-unload', { preventDefault: () => (gone = true) })
      return gone
    }
  }
  standsFor(Window, 'BrowserWindow')

  type Handler = (request: Request) => Response | Promise<Response>
  class Protocol implements Pick<
    Electron.Protocol, 'registerSchemesAsPrivileged' | 'handle' | 'unhandle' | 'isProtocolHandled'
  > {
    readonly handlers = new Map<string, Handler>()
    schemes: Electron.CustomScheme[] = []

    constructor() {
      standsFor(this, 'Protocol')
    }

    registerSchemesAsPrivileged(schemes: Electron.CustomScheme[]): void {
      beforeReady('protocol.registerSchemesAsPrivileged')
      if (this.schemes.length > 0) throw new Error('schemes can be registered once')
      this.schemes = schemes
    }

    handle(scheme: string, handler: Parameters<Electron.Protocol['handle']>[1]): void {
      afterReady('protocol.handle')
      if (this.handlers.has(scheme)) throw new Error(`${scheme} is handled already`)
      // Electron hands on its own GlobalRequest, which is the Fetch standard's.
      this.handlers.set(scheme, handler as Handler)
    }

    unhandle(scheme: string): void {
      if (!this.handlers.delete(scheme)) throw new Error(`${scheme} is not handled`)
    }

    isProtocolHandled(scheme: string): boolean {
      return this.handlers.has(scheme)
    }
  }

  /** The form without a filter, which takes every request. */
  type RequestListener = Parameters<Electron.WebRequest['onBeforeRequest']>[0]
  class Session extends StrictEmitter implements Pick<
    Electron.Session,
    'setPermissionRequestHandler' | 'setPermissionCheckHandler' | 'setDevicePermissionHandler' | 'setSpellCheckerEnabled'
  > {
    readonly protocol: Protocol
    onRequest: Parameters<Electron.Session['setPermissionRequestHandler']>[0] = null
    onCheck: Parameters<Electron.Session['setPermissionCheckHandler']>[0] = null
    onDevice: Parameters<Electron.Session['setDevicePermissionHandler']>[0] = null
    onBeforeRequest: RequestListener = null
    spellChecker = true

    readonly webRequest = {
      onBeforeRequest: (listener: RequestListener): void => {
        this.onBeforeRequest = listener
      },
    }

    constructor(ownProtocol: Protocol) {
      super('Session')
      standsFor(this.webRequest, 'WebRequest')
      this.protocol = ownProtocol
    }

    setPermissionRequestHandler(handler: Parameters<Electron.Session['setPermissionRequestHandler']>[0]): void {
      this.onRequest = handler
    }

    setPermissionCheckHandler(handler: Parameters<Electron.Session['setPermissionCheckHandler']>[0]): void {
      this.onCheck = handler
    }

    setDevicePermissionHandler(handler: Parameters<Electron.Session['setDevicePermissionHandler']>[0]): void {
      this.onDevice = handler
    }

    setSpellCheckerEnabled(enabled: boolean): void {
      this.spellChecker = enabled
    }
  }

  class App extends StrictEmitter implements Pick<
    Electron.App,
    'whenReady' | 'getVersion' | 'getPath' | 'setPath' | 'requestSingleInstanceLock' | 'quit' | 'exit' | 'enableSandbox'
    | 'isPackaged'
  > {
    readonly isPackaged = true
    readonly commandLine: Pick<Electron.CommandLine, 'hasSwitch'> = { hasSwitch: (name) => switches.includes(name) }
    setAppUserModelId?: (id: string) => void
    private readonly paths = new Map<string, string>()
    private readonly whenReadyOnce = new Promise<void>((done) => {
      setImmediate(() => {
        state.ready = true
        this.emit('ready')
        done()
      })
    })

    constructor() {
      super('App')
      standsFor(this.commandLine, 'CommandLine')
      if (platform === 'win32') this.setAppUserModelId = (id) => void (state.appUserModelId = id)
    }

    whenReady(): Promise<void> {
      return this.whenReadyOnce
    }

    getVersion(): string {
      return '0.0.0'
    }

    getPath(name: Parameters<Electron.App['getPath']>[0]): string {
      return this.paths.get(name) ?? join(home, name)
    }

    setPath(name: string, path: string): void {
      if (!existsSync(path)) throw new Error(`Failed to set path: ${path} does not exist`)
      if (name === 'userData') beforeReady('setting userData')
      if (name === 'userData' && state.lockData !== undefined) throw new Error('the lock was asked for in another folder')
      this.paths.set(name, path)
    }

    requestSingleInstanceLock(data?: Record<string, unknown>): boolean {
      state.lockData = structuredClone(data)
      state.locked = first
      return first
    }

    quit(): void {
      state.quits += 1
      for (const each of [...Window.all]) each.close()
    }

    exit(code = 0): void {
      state.exitCode = code
    }

    enableSandbox(): void {
      beforeReady('app.enableSandbox')
      state.sandboxed = true
    }
  }

  const app = new App()
  const protocol = new Protocol()
  const defaultSession = new Session(protocol)
  const partitions = new Map<string, Session>()
  const mainSession = (): Session => {
    afterReady('session.defaultSession')
    return defaultSession
  }
  const session = {
    get defaultSession(): Session {
      return mainSession()
    },
    fromPartition(name: string): Session {
      afterReady('session.fromPartition')
      const known = partitions.get(name) ?? new Session(new Protocol())
      partitions.set(name, known)
      return known
    },
  }

  type Keys = Pick<Electron.MessageBoxOptions, 'buttons' | 'defaultId' | 'cancelId'>
  function ask<T>(kind: string, window: unknown, asked: Keys & object, usual: T): T {
    afterReady(`dialog.${kind}`)
    if (!(window instanceof Window) || window.destroyed) throw new TypeError(`dialog.${kind} takes a window that is open`)
    onlyOptions(asked, 'MessageBoxOptions', 'OpenDialogOptions')
    for (const key of asked.buttons ? [asked.defaultId ?? 0, asked.cancelId ?? 0] : []) {
      if (asked.buttons?.[key] === undefined) throw new Error(`there is no button ${key}`)
    }
    const told = { kind, options: asked }
    state.asked.push(told)
    return (state.answer(told) as T | undefined) ?? usual
  }
  const dialog = {
    showMessageBoxSync: (window: unknown, asked: Electron.MessageBoxSyncOptions): number =>
      ask('showMessageBoxSync', window, asked, 0),
    showMessageBox: async (window: unknown, asked: Electron.MessageBoxOptions) =>
      ask('showMessageBox', window, asked, { response: 0, checkboxChecked: false }),
    showOpenDialog: async (window: unknown, asked: Electron.OpenDialogOptions) =>
      ask('showOpenDialog', window, { ...asked }, { canceled: true, filePaths: [] as string[] }),
    showErrorBox: (title: string, content: string): void => {
      state.asked.push({ kind: 'showErrorBox', options: { title, content } })
    },
  }

  const screen = {
    getPrimaryDisplay: () => {
      afterReady('screen')
      return { workArea: workAreas[0] as Electron.Rectangle }
    },
    getDisplayMatching: (place: Electron.Rectangle) => {
      afterReady('screen')
      const shared = (low: number, size: number, from: number, room: number): number =>
        Math.max(0, Math.min(low + size, from + room) - Math.max(low, from))
      const overlap = (area: Electron.Rectangle): number =>
        shared(place.x, place.width, area.x, area.width) * shared(place.y, place.height, area.y, area.height)
      return { workArea: [...workAreas].sort((a, b) => overlap(b) - overlap(a))[0] as Electron.Rectangle }
    },
  }

  const theme = { source: 'system' as Electron.NativeTheme['themeSource'], systemIsDark: false }
  const nativeTheme = {
    get themeSource(): Electron.NativeTheme['themeSource'] {
      return theme.source
    },
    set themeSource(source: Electron.NativeTheme['themeSource']) {
      if (!['system', 'light', 'dark'].includes(source)) throw new TypeError(`no theme “${String(source)}”`)
      theme.source = source
    },
    get shouldUseDarkColors(): boolean {
      return theme.source === 'system' ? theme.systemIsDark : theme.source === 'dark'
    },
  }

  const Menu = {
    buildFromTemplate(template: Electron.MenuItemConstructorOptions[]): Electron.MenuItemConstructorOptions[] {
      checkMenu(template, platform)
      return template
    },
    setApplicationMenu(template: Electron.MenuItemConstructorOptions[]): void {
      afterReady('Menu.setApplicationMenu')
      state.menu = template
    },
  }

  type Invoke = (event: unknown, ...args: unknown[]) => unknown
  const channels = new Map<string, Invoke>()
  const pageChannels = new Map<string, ((event: unknown, ...args: unknown[]) => void)[]>()
  const ipcMain = {
    handle(channel: string, listener: Invoke): void {
      if (channels.has(channel)) throw new Error(`Attempted to register a second handler for '${channel}'`)
      channels.set(channel, listener)
    },
  }

  /** Asks a channel as a page in a frame would. */
  async function invoke(
    sender: Contents, senderFrame: Frame | null, channel: string, ...args: unknown[]
  ): Promise<unknown> {
    const copied = structuredClone(args)
    const listener = channels.get(channel)
    if (listener === undefined) throw new Error(`No handler registered for '${channel}'`)
    return structuredClone(await listener({ sender, senderFrame }, ...copied))
  }

  const contextBridge: Pick<Electron.ContextBridge, 'exposeInMainWorld'> = {
    exposeInMainWorld: (name, api) => {
      if (name in state.world) throw new Error(`Cannot bind an API on top of an existing property: ${name}`)
      state.world[name] = Object.freeze(throughBridge(api))
    },
  }
  const ipcRenderer = {
    invoke: (channel: string, ...args: unknown[]): Promise<unknown> => {
      const contents = state.preloadIn
      if (contents === null) throw new Error('no window')
      return invoke(contents, contents.mainFrame, channel, ...args)
    },
    on: (channel: string, hear: (event: unknown, ...args: unknown[]) => void): void => {
      pageChannels.set(channel, [...pageChannels.get(channel) ?? [], hear])
    },
  }

  const parts = { app, dialog, ipcMain, Menu, nativeTheme, protocol, screen, session }
  const kindOf: Record<keyof typeof parts, string> = {
    app: 'App', dialog: 'Dialog', ipcMain: 'IpcMain', Menu: 'Menu', nativeTheme: 'NativeTheme', protocol: 'Protocol',
    screen: 'Screen', session: 'Session',
  }
  const main: Record<string, unknown> = Object.fromEntries(
    Object.entries(parts).map(([name, part]) => [name, strict(part, kindOf[name as keyof typeof parts])]),
  )
  main['BrowserWindow'] = new Proxy(Window, {
    construct: (_target, [wished]: [Electron.BrowserWindowConstructorOptions?]) => strict(new Window(wished)),
    get: (target, key) => {
      if (typeof key !== 'string' || key === 'prototype') return Reflect.get(target, key) as unknown
      if (!membersOf('BrowserWindow').has(key) || !(key in target)) throw new Error(`BrowserWindow.${key} is not known`)
      return (): Window[] => target.getAllWindows().map((each) => strict(each))
    },
  })
  return {
    /** What `import … from 'electron'` gives the program. */
    main,
    /** What `require('electron')` gives the preload. */
    preload: { contextBridge: strict(contextBridge, 'ContextBridge'), ipcRenderer: strict(ipcRenderer, 'IpcRenderer') },
    ...parts, BrowserWindow: Window, Contents, defaultSession,
    state, theme, channels, invoke, windows: () => Window.all,
  }
}

export type StandIn = ReturnType<typeof standIn>
export type StandInWindow = ReturnType<StandIn['windows']>[number]
export type StandInContents = StandInWindow['webContents']
