/** The one window: opened, brought back, and asked about before something in it is lost. */
import { app, BrowserWindow, dialog } from 'electron'
import type { WebPreferences } from 'electron'
import { COMMAND_CHANNEL } from '@core/services'
import type { PageCommand } from '@core/services'
import icon from '../tools/icon.png?asset'
import { paper, words } from './look'
import { PAGE_ADDRESS } from './pageScheme'
import { keepPlace, placeNow } from './windowPlace'

/** How every page is kept apart from Node and from other pages. */
export const KEPT_APART: WebPreferences = {
  contextIsolation: true,
  sandbox: true,
  nodeIntegration: false,
  nodeIntegrationInWorker: false,
  nodeIntegrationInSubFrames: false,
  webSecurity: true,
  allowRunningInsecureContent: false,
  experimentalFeatures: false,
  webviewTag: false,
  spellcheck: false,
}

/** The window that is open, or null. */
let open: BrowserWindow | null = null

export const openWindowNow = (): BrowserWindow | null => open

/** Brings the window to the front, out of the task bar too; opens one where there is none. */
export async function showWindow(preload: string): Promise<void> {
  if (open === null) return openWindow(preload)
  if (open.isMinimized()) open.restore()
  open.show()
  open.focus()
}

/** Tells the page what was chosen in the menu. */
export function tellPage(command: PageCommand): void {
  open?.webContents.send(COMMAND_CHANNEL, command)
}

/** Opens the window on our page. @throws where the page can't be loaded */
async function openWindow(preload: string): Promise<void> {
  const { maximized, ...bounds } = placeNow()
  const window = new BrowserWindow({
    ...bounds,
    minWidth: 480,
    minHeight: 480,
    show: false,
    backgroundColor: paper(),
    // Windows and macOS take it from the program itself.
    ...(process.platform === 'linux' && { icon }),
    webPreferences: { ...KEPT_APART, preload, devTools: !app.isPackaged },
  })
  open = window
  window.on('closed', () => {
    open = null
  })
  window.on('close', () => keepPlace(window))
  askBeforeLosing(window)
  askAfterCrash(window)
  let shown = false
  const show = (): void => {
    if (shown || window.isDestroyed()) return
    shown = true
    if (maximized) window.maximize()
    window.show()
  }
  window.once('ready-to-show', show)
  try {
    await window.loadURL(PAGE_ADDRESS)
  } catch (error) {
    if (window.isDestroyed()) return
    throw error
  }
  // Not every display server tells when there is something to see.
  show()
}

const GO = 1

/**
 * The page objects to being closed or loaded anew while something is not written down. Electron shows no
 * question of its own and would just leave the window as it is: so it is asked here.
 */
function askBeforeLosing(window: BrowserWindow): void {
  window.webContents.on('will-prevent-unload', (event) => {
    const { message, detail, stay, go } = words().leave
    const answer = dialog.showMessageBoxSync(window, {
      type: 'warning', buttons: [stay, go], defaultId: 0, cancelId: 0, noLink: true, message, detail,
    })
    // Preventing this event is what lets the page go.
    if (answer === GO) event.preventDefault()
  })
}

/** A page whose process ended leaves an empty window: it is told, and opened again when that is wished. */
function askAfterCrash(window: BrowserWindow): void {
  window.webContents.on('render-process-gone', (_event, { reason }) => {
    if (reason === 'clean-exit' || window.isDestroyed()) return
    window.show()
    const { message, detail, reload, quit } = words().crashed
    const question = dialog.showMessageBox(window, {
      type: 'error', buttons: [reload, quit], defaultId: 0, cancelId: 0, noLink: true, message, detail: detail(reason),
    })
    void question.then(({ response }) => {
      if (response !== 0) app.quit()
      else if (!window.isDestroyed()) window.webContents.reload()
    })
  })
}
