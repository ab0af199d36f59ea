/**
 * The browser engine's own folder: caches, and what a page keeps until it is written down. It has a name of its
 * own beside the library, so that whoever clears it does not clear the library.
 */
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { app } from 'electron'

/** The folder below the system's place for programs' data. */
export const profileFolder = (appData: string): string => join(appData, 'Squatbench', 'window')

/** Before `ready`, and before the lock against a second start, which is told apart by this folder. */
export function setProfile(): void {
  const folder = profileFolder(app.getPath('appData'))
  mkdirSync(folder, { recursive: true })
  app.setPath('userData', folder)
}
