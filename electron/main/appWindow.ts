/** The one window. */
import { app, BrowserWindow, dialog } from 'electron'
import type { WebPreferences } from 'electron'
import { PAGE_ADDRESS } from './pageScheme'

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

/** Opens the window on our page; it shows when there is something to see. */
export async function openWindow(preload: string): Promise<BrowserWindow> {
  const window = new BrowserWindow({
    width: 1280,
    height: 860,
    minWidth: 480,
    minHeight: 480,
    show: false,
    webPreferences: { ...KEPT_APART, preload, devTools: !app.isPackaged },
  })
  window.once('ready-to-show', () => window.show())
  askBeforeLosing(window)
  await window.loadURL(PAGE_ADDRESS)
  return window
}

const CLOSE = 1

/**
 * The page objects to being closed while something is not written down. Electron shows no question
 * of its own and would just leave the window open: so it is asked here.
 */
function askBeforeLosing(window: BrowserWindow): void {
  window.webContents.on('will-prevent-unload', (event) => {
    const answer = dialog.showMessageBoxSync(window, {
      type: 'warning', buttons: ['Keep it open', 'Close and lose it'], defaultId: 0, cancelId: 0, noLink: true,
      message: 'Something is not written down yet.',
      detail: 'Keep the window open until the bar says “Written down”, or save a copy as a file first.',
    })
    // Preventing this event is what lets the page go.
    if (answer === CLOSE) event.preventDefault()
  })
}
