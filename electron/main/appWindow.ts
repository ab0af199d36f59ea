/** The one window. */
import { app, BrowserWindow } from 'electron'
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
  await window.loadURL(PAGE_ADDRESS)
  return window
}
