/**
 * A stand-in for the package `electron`: the parts the program uses, with Electron's own types, so
 * that a call Electron would not take does not compile. It records what it is told.
 */
import { EventEmitter } from 'node:events'
import type Electron from 'electron'

type Frame = Pick<Electron.WebFrameMain, 'url'>

/** The contents of one window. */
export class StandInContents extends EventEmitter implements Pick<
  Electron.WebContents, 'setWindowOpenHandler' | 'getURL' | 'printToPDF'
> {
  openHandler: Parameters<Electron.WebContents['setWindowOpenHandler']>[0] | null = null
  mainFrame: Frame = { url: '' }
  printed: Electron.PrintToPDFOptions[] = []

  setWindowOpenHandler(handler: Parameters<Electron.WebContents['setWindowOpenHandler']>[0]): void {
    this.openHandler = handler
  }

  getURL(): string {
    return this.mainFrame.url
  }

  printToPDF(options: Electron.PrintToPDFOptions): Promise<Buffer<ArrayBuffer>> {
    this.printed.push(options)
    return Promise.resolve(Buffer.from('%PDF-stand-in'))
  }
}

/** One window. */
export class StandInWindow extends EventEmitter implements Pick<
  Electron.BrowserWindow,
  'loadURL' | 'show' | 'destroy' | 'isVisible' | 'isMinimized' | 'restore' | 'focus'
> {
  static all: StandInWindow[] = []
  static getAllWindows(): StandInWindow[] {
    return StandInWindow.all
  }

  readonly options: Electron.BrowserWindowConstructorOptions
  readonly webContents = new StandInContents()
  visible = false
  focused = 0
  destroyed = false
  /** The document the window's session served for the address. */
  loaded: Response | null = null

  constructor(options: Electron.BrowserWindowConstructorOptions = {}) {
    super()
    this.options = options
    StandInWindow.all.push(this)
    app.emit('web-contents-created', {}, this.webContents)
  }

  async loadURL(address: string): Promise<void> {
    this.webContents.mainFrame = { url: address }
    const ses = (this.options.webPreferences?.session ?? session.defaultSession) as unknown as StandInSession
    const handler = ses.protocol.handlers.get(new URL(address).protocol.slice(0, -1))
    this.loaded = await handler?.(new Request(address)) ?? null
    this.emit('ready-to-show')
  }

  show(): void {
    this.visible = true
  }

  isVisible(): boolean {
    return this.visible
  }

  isMinimized(): boolean {
    return false
  }

  restore(): void {
    this.visible = true
  }

  focus(): void {
    this.focused += 1
  }

  destroy(): void {
    this.destroyed = true
    StandInWindow.all = StandInWindow.all.filter((each) => each !== this)
  }
}

type Handler = (request: Request) => Response | Promise<Response>

export class StandInProtocol implements Pick<
  Electron.Protocol, 'registerSchemesAsPrivileged' | 'handle' | 'unhandle' | 'isProtocolHandled'
> {
  readonly handlers = new Map<string, Handler>()
  schemes: Electron.CustomScheme[] = []

  registerSchemesAsPrivileged(schemes: Electron.CustomScheme[]): void {
    this.schemes = schemes
  }

  handle(scheme: string, handler: Parameters<Electron.Protocol['handle']>[1]): void {
    if (this.handlers.has(scheme)) throw new Error(`${scheme} is handled already`)
    // Electron hands on its own GlobalRequest, which is the Fetch standard's.
    this.handlers.set(scheme, handler as Handler)
  }

  unhandle(scheme: string): void {
    this.handlers.delete(scheme)
  }

  isProtocolHandled(scheme: string): boolean {
    return this.handlers.has(scheme)
  }
}

/** The form without a filter, which takes every request. */
type RequestListener = Parameters<Electron.WebRequest['onBeforeRequest']>[0]

export class StandInSession extends EventEmitter implements Pick<
  Electron.Session,
  'setPermissionRequestHandler' | 'setPermissionCheckHandler' | 'setDevicePermissionHandler' | 'setSpellCheckerEnabled'
> {
  readonly protocol: StandInProtocol
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

  constructor(ownProtocol: StandInProtocol) {
    super()
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

class StandInApp extends EventEmitter implements Pick<
  Electron.App,
  'whenReady' | 'getVersion' | 'getPath' | 'requestSingleInstanceLock' | 'quit' | 'enableSandbox' | 'isPackaged'
> {
  isPackaged = true
  locked = true
  sandboxed = false
  quits = 0
  readonly told: string[] = []

  whenReady(): Promise<void> {
    this.told.push('whenReady')
    return Promise.resolve()
  }

  getVersion(): string {
    return '0.0.0'
  }

  getPath(name: Parameters<Electron.App['getPath']>[0]): string {
    return `/standing-in/${name}`
  }

  requestSingleInstanceLock(): boolean {
    return this.locked
  }

  quit(): void {
    this.quits += 1
  }

  enableSandbox(): void {
    this.sandboxed = true
  }
}

type Invoke = Parameters<Electron.IpcMain['handle']>[1]

/** What `ipcMain` and `ipcRenderer` are wired through; arguments are cloned as Electron clones them. */
export const channels = new Map<string, Invoke>()

export const app = new StandInApp()
export const protocol = new StandInProtocol()
const partitions = new Map<string, StandInSession>()
export const session = {
  defaultSession: new StandInSession(protocol),
  fromPartition(name: string): StandInSession {
    const known = partitions.get(name) ?? new StandInSession(new StandInProtocol())
    partitions.set(name, known)
    return known
  },
}
export const BrowserWindow = StandInWindow

/** Answers every question with the key that `answer` names; keeps what was asked. */
export const dialog = {
  answer: 0,
  asked: [] as Electron.MessageBoxSyncOptions[],
  showMessageBoxSync(_window: unknown, options: Electron.MessageBoxSyncOptions): number {
    dialog.asked.push(options)
    return dialog.answer
  },
}
export const ipcMain: Pick<Electron.IpcMain, 'handle'> = {
  handle: (channel, listener) => void channels.set(channel, listener),
}

/** Asks a channel as a page in a frame would. */
export function invoke(
  sender: StandInContents, senderFrame: Frame | null, channel: string, ...args: unknown[]
): Promise<unknown> {
  const event = { sender, senderFrame } as unknown as Electron.IpcMainInvokeEvent
  const listener = channels.get(channel)
  if (listener === undefined) return Promise.reject(new Error(`no handler for ${channel}`))
  return Promise.resolve(listener(event, ...(structuredClone(args) as unknown[]))).then(structuredClone)
}

/** The window whose page the preload runs in. */
export const preloadIn: { contents: StandInContents | null } = { contents: null }
export const ipcRenderer: Pick<Electron.IpcRenderer, 'invoke'> = {
  invoke: (channel, ...args: unknown[]) => {
    const contents = preloadIn.contents
    if (contents === null) throw new Error('no window')
    return invoke(contents, contents.mainFrame, channel, ...args)
  },
}

/** What the preload put on the window. */
export const world: Record<string, unknown> = {}
export const contextBridge: Pick<Electron.ContextBridge, 'exposeInMainWorld'> = {
  exposeInMainWorld: (name, api) => {
    world[name] = api
  },
}

export const menu: { template: Electron.MenuItemConstructorOptions[] } = { template: [] }
export const Menu = {
  buildFromTemplate: (template: Electron.MenuItemConstructorOptions[]) => template,
  setApplicationMenu: (template: Electron.MenuItemConstructorOptions[]) => {
    menu.template = template
  },
}
