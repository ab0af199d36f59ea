/** The desktop program: one window on our own page, the service table behind one channel. */
import { randomUUID } from 'node:crypto'
import { fileURLToPath } from 'node:url'
import { app, dialog, session } from 'electron'
import { z } from 'zod'
import { DEFAULT_PREFERENCES } from '@core/services'
import { createDispatch, createTable, libraryFolder, ProfileLibrary } from '@electron/services'
import type { ServiceTable } from '@electron/services'
import { APP_ID } from '../appId'
import { openWindowNow, showWindow, tellPage } from './appWindow'
import { lockDown } from './lockdown'
import { follow, words } from './look'
import { setMenu } from './menu'
import { registerPageScheme, servePages } from './pageScheme'
import { inTurn, printPdf } from './pdf'
import { setProfile } from './profile'
import { askWhereToSave } from './saving'
import { answerChannel } from './serviceChannel'
import { saveTables } from './tables'

const built = (path: string): string => fileURLToPath(new URL(path, import.meta.url))

const PRELOAD = built('../preload/index.cjs')

/** What has to stand before Electron is ready; all of it in the first turn. */
function begin(): void {
  setProfile()
  if (process.platform === 'win32') app.setAppUserModelId(APP_ID)
  // Forcing the sandbox takes the switch back that a launcher sets where none can start, and no page would start then.
  if (!app.commandLine.hasSwitch('no-sandbox')) app.enableSandbox()
  registerPageScheme()
  const library = libraryFolder()
  if (!app.requestSingleInstanceLock({ library })) {
    console.log('Squatbench is open already; its window has come to the front.')
    app.quit()
    return
  }
  app.on('second-instance', (_event, _argv, _folder, asked) => {
    void showWindow(PRELOAD).then(() => tellOtherLibrary(library, asked)).catch(fail)
  })
  app.on('window-all-closed', () => {
    if (process.platform !== 'darwin') app.quit()
  })
  void run(library).catch(fail)
}

async function run(folder: string): Promise<void> {
  await app.whenReady()
  lockDown()
  servePages(built('../renderer'))
  askWhereToSave(session.defaultSession)
  const library = new ProfileLibrary({ folder, newId: randomUUID })
  const table = followed(createTable({
    library, version: app.getVersion(), transport: 'desktop', printPdf: inTurn(printPdf), saveTables,
  }))
  answerChannel(createDispatch(table))
  await table['preferences.read']({}).catch(() => dress(DEFAULT_PREFERENCES))
  app.on('activate', () => void showWindow(PRELOAD).catch(fail))
  await showWindow(PRELOAD)
}

type Dressed = Awaited<ReturnType<ServiceTable['preferences.read']>>

/** Menu, questions and frame as the preferences say. */
function dress(preferences: Dressed): Dressed {
  follow(preferences)
  setMenu(words(), tellPage)
  return preferences
}

/** The table whose preferences the frame follows, too. */
const followed = (table: ServiceTable): ServiceTable => ({
  ...table,
  'preferences.read': async (input) => dress(await table['preferences.read'](input)),
  'preferences.save': async (input) => dress(await table['preferences.save'](input)),
})

/** Says so where the second start meant another library than the one that is open. */
async function tellOtherLibrary(library: string, asked: unknown): Promise<void> {
  const other = z.object({ library: z.string() }).safeParse(asked)
  const window = openWindowNow()
  if (!other.success || other.data.library === library || window === null) return
  const { message, detail, understood } = words().otherLibrary
  await dialog.showMessageBox(window, {
    type: 'info', buttons: [understood], noLink: true, message, detail: detail(library, other.data.library),
  })
}

/** A program without a window would hold the lock unseen, and every later start would end at once. */
function fail(error: unknown): void {
  const { title, detail } = words().failed
  dialog.showErrorBox(title, detail(error instanceof Error ? error.message : String(error)))
  app.exit(1)
}

try {
  begin()
} catch (error) {
  fail(error)
}
