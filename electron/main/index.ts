/** The desktop program: one window on our own page, the service table behind one channel. */
import { randomUUID } from 'node:crypto'
import { fileURLToPath } from 'node:url'
import { app, BrowserWindow, session } from 'electron'
import { createDispatch, createTable, libraryFolder, ProfileLibrary } from '@electron/services'
import { openWindow } from './appWindow'
import { lockDown } from './lockdown'
import { setMenu } from './menu'
import { registerPageScheme, servePages } from './pageScheme'
import { inTurn, printPdf } from './pdf'
import { askWhereToSave } from './saving'
import { answerChannel } from './serviceChannel'

const built = (path: string): string => fileURLToPath(new URL(path, import.meta.url))

async function run(): Promise<void> {
  await app.whenReady()
  lockDown()
  setMenu()
  servePages(built('../renderer'))
  askWhereToSave(session.defaultSession)
  const library = new ProfileLibrary({ folder: libraryFolder(), newId: randomUUID })
  answerChannel(createDispatch(createTable({
    library, version: app.getVersion(), transport: 'desktop', printPdf: inTurn(printPdf),
  })))
  const preload = built('../preload/index.cjs')
  app.on('activate', () => {
    if (BrowserWindow.getAllWindows().length === 0) void openWindow(preload)
  })
  await openWindow(preload)
}

app.enableSandbox()
registerPageScheme()
if (app.requestSingleInstanceLock()) {
  app.on('second-instance', () => {
    const window = BrowserWindow.getAllWindows().find((each) => each.isVisible())
    if (window?.isMinimized()) window.restore()
    window?.focus()
  })
  app.on('window-all-closed', () => {
    if (process.platform !== 'darwin') app.quit()
  })
  void run()
} else {
  app.quit()
}
