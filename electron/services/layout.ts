/** Where things lie in the library folder. Names typed by the builder never become file names; ids do. */
import { join } from 'node:path'
import { id } from '@core/schema'

/** Names Windows keeps for devices; an underscore, which no id holds, makes them usable. */
const DEVICE = /^(?:con|prn|aux|nul|com\d|lpt\d)$/

const fileWord = (anId: string): string => (DEVICE.test(anId) ? `${anId}_` : anId)

/** The id a file or folder name stands for, or null where it stands for none. */
export function idOfWord(word: string): string | null {
  const bare = word.endsWith('_') && DEVICE.test(word.slice(0, -1)) ? word.slice(0, -1) : word
  return id.safeParse(bare).success && fileWord(bare) === word ? bare : null
}

const SESSION_ENDING = '.json'

/** The session id a file name stands for, or null. */
export const idOfSessionFile = (file: string): string | null =>
  (file.endsWith(SESSION_ENDING) ? idOfWord(file.slice(0, -SESSION_ENDING.length)) : null)

/** Paths inside one library folder. */
export const layout = (library: string) => {
  const chassisRoot = join(library, 'chassis')
  const chassisFolder = (chassisId: string) => join(chassisRoot, fileWord(chassisId))
  const spareFolder = (chassisId: string) => join(chassisFolder(chassisId), 'spare')
  const spareSessionsFolder = (chassisId: string) => join(spareFolder(chassisId), 'sessions')
  const sessionsFolder = (chassisId: string) => join(chassisFolder(chassisId), 'sessions')
  return {
    lock: join(library, '.lock'),
    index: join(library, 'index.json'),
    preferences: join(library, 'preferences.json'),
    /** Where an import is put together before it moves in as a whole. */
    incoming: join(library, '.incoming'),
    removed: join(library, 'removed'),
    chassisRoot,
    chassisFolder,
    chassisFile: (chassisId: string) => join(chassisFolder(chassisId), 'chassis.json'),
    sessionsFolder,
    sessionFile: (chassisId: string, sessionId: string) =>
      join(sessionsFolder(chassisId), `${fileWord(sessionId)}${SESSION_ENDING}`),
    spareFolders: (chassisId: string) => [spareFolder(chassisId), spareSessionsFolder(chassisId)],
    /** The copy of before the last change, of the chassis' own file (no session id) and of each session. */
    spareFile: (chassisId: string, sessionId: string | null) => (sessionId === null
      ? join(spareFolder(chassisId), 'chassis.json')
      : join(spareSessionsFolder(chassisId), `${fileWord(sessionId)}${SESSION_ENDING}`)),
    /** Originals of files brought forward from an older version, and files that could not be read. */
    keptFolder: (chassisId: string) => join(chassisFolder(chassisId), 'kept'),
    /** The name of a removed thing; a number is added to make it free. */
    removedWord: fileWord,
  }
}
export type Layout = ReturnType<typeof layout>
