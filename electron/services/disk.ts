/**
 * The few file operations the library is built on, and the one way a file is written.
 *
 * Own, not a package: the common atomic-write packages do not sync the folder after the rename (so
 * an acknowledged file can be gone after a power cut) and give no seam at which a test can make a
 * single operation fail.
 */
import { randomUUID } from 'node:crypto'
import fs from 'node:fs/promises'
import { dirname } from 'node:path'
import { isMissing, systemCode } from './failure'

/** The seam: Node's own functions in use, faulty ones in tests. */
export type Disk =
  Pick<typeof fs, 'open' | 'rename' | 'readdir' | 'mkdir' | 'unlink' | 'rm' | 'stat' | 'readFile'>

export const systemDisk: Disk = fs

/** Other users of the machine are kept out of what is made here. */
const OWNER_ONLY = 0o700

/** Ending of a file that is being written; one left behind by a crash is swept away. */
export const PART_ENDING = '.part'

/**
 * Writes a whole file so that after a crash at any moment the path holds either the old content or
 * the new, never a mixture: temporary file, fsync, rename, fsync of the folder. Resolves when the
 * content is on the disk.
 * @param check called right before the rename; throws where the write must not happen any more
 * @throws the system's error; the path then holds the old content or (folder sync failed) the new
 */
export async function writeWhole(disk: Disk, path: string, text: string, check?: () => Promise<void>): Promise<void> {
  const temporary = `${path}.${randomUUID()}${PART_ENDING}`
  try {
    await writeSynced(disk, temporary, text)
    await check?.()
    await disk.rename(temporary, path)
  } catch (error) {
    await disk.unlink(temporary).catch(() => undefined)
    throw error
  }
  await syncFolder(disk, dirname(path))
}

/** Writes a whole file that may be lost with the power, and takes no harm where it can't be written. */
export async function writeSpare(disk: Disk, path: string, text: string): Promise<void> {
  const temporary = `${path}.${randomUUID()}${PART_ENDING}`
  try {
    await disk.mkdir(dirname(path), { recursive: true, mode: OWNER_ONLY })
    const file = await disk.open(temporary, 'wx')
    try {
      await file.writeFile(text, 'utf8')
    } finally {
      await file.close()
    }
    await disk.rename(temporary, path)
  } catch {
    await disk.unlink(temporary).catch(() => undefined)
  }
}

/** Writes a new file and waits until its content is on the disk. */
export async function writeSynced(disk: Disk, path: string, text: string): Promise<void> {
  const file = await disk.open(path, 'wx')
  try {
    await file.writeFile(text, 'utf8')
    await file.sync()
  } finally {
    await file.close()
  }
}

/** Waits until the names in a folder are on the disk. Windows has no such call and keeps names by itself. */
export async function syncFolder(disk: Disk, folder: string): Promise<void> {
  if (process.platform === 'win32') return
  const handle = await disk.open(folder, 'r')
  try {
    await handle.sync()
  } finally {
    await handle.close()
  }
}

/** Makes a folder and those above it, each name on the disk before this resolves. */
export async function makeFolder(disk: Disk, folder: string): Promise<void> {
  const first = await disk.mkdir(folder, { recursive: true, mode: OWNER_ONLY })
  if (first === undefined) return
  for (let at = folder; at.length >= first.length; at = dirname(at)) await syncFolder(disk, dirname(at))
}

/** Largest file that is read, bytes. */
const MAX_BYTES = 200_000_000

/**
 * The text of a file, or null where there is none.
 * @throws at once where it is no plain file (a pipe would never end, a device neither) or too large, and the
 * system's error where it can't be read
 */
export async function readText(disk: Disk, path: string): Promise<string | null> {
  try {
    const found = await disk.stat(path)
    if (!found.isFile()) throw new NotReadable('it is no plain file')
    if (found.size > MAX_BYTES) throw new NotReadable(`it is larger than ${MAX_BYTES / 1e6} MB`)
    return await disk.readFile(path, 'utf8')
  } catch (error) {
    if (isMissing(error)) return null
    throw error
  }
}

/** Says in words why a file is not read at all. */
export class NotReadable extends Error {}

/** The names in a folder, sorted; none where there is no folder. */
export async function namesIn(disk: Disk, folder: string): Promise<string[]> {
  try {
    return (await disk.readdir(folder)).sort()
  } catch (error) {
    if (isMissing(error)) return []
    throw error
  }
}

/** Waits between tries of a rename that another program stands in the way of, ms; about a second in all. */
const RENAME_WAITS_MS: readonly number[] = process.platform === 'win32' ? [10, 40, 160, 320, 640] : []

/** What Windows says of a file or folder that a scanner or an indexer holds for a moment. */
const HELD = ['EPERM', 'EACCES', 'EBUSY']

/**
 * The same disk with patient renames: one that is refused because something holds the file is tried again.
 * @param waitsMs waits before each further try; none on systems where nothing holds files
 */
export function patient(disk: Disk, waitsMs: readonly number[] = RENAME_WAITS_MS): Disk {
  const rename: Disk['rename'] = async (from, to) => {
    for (const waitMs of waitsMs) {
      try {
        return await disk.rename(from, to)
      } catch (error) {
        if (!HELD.includes(systemCode(error) ?? '')) throw error
        await new Promise((done) => setTimeout(done, waitMs))
      }
    }
    return disk.rename(from, to)
  }
  return { ...disk, rename }
}
