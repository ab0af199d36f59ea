/** A disk that fails at a chosen operation: an error of the system, a torn write, or a dead process. */
import { systemDisk } from '@electron/services/disk'
import type { Disk } from '@electron/services/disk'

export type Fault = 'ENOSPC' | 'EACCES' | 'EIO' | 'torn' | 'death'

/** The faults that are tried at each operation. */
export const FAULTS: readonly Fault[] = ['ENOSPC', 'EACCES', 'EIO', 'torn', 'death']

const failed = (code: string, path: string): Error =>
  Object.assign(new Error(`${code}: made to fail, '${path}'`), { code, path })

export interface FaultyDisk {
  disk: Disk
  /** Operations counted so far. */
  count(): number
  /** What the failing operation was, once it happened. */
  hit(): string | null
}

/**
 * Counts every operation and lets number `at` (from 0) fail. A torn write leaves half of the text
 * and then the process is dead; after a death nothing reaches the disk any more.
 */
export function faultyDisk(at: number, fault: Fault): FaultyDisk {
  let count = 0
  let dead = false
  let hit: string | null = null

  const step = (what: string, path: string): 'go' | 'tear' => {
    if (dead) throw failed('EIO', path)
    if (count++ !== at) return 'go'
    hit = what
    dead = fault === 'death' || fault === 'torn'
    if (fault === 'torn' && what === 'write') return 'tear'
    throw failed(fault === 'torn' || fault === 'death' ? 'EIO' : fault, path)
  }

  const disk: Disk = {
    ...systemDisk,
    open: (async (path: string, flags?: string) => {
      step('open', path)
      return handle(await systemDisk.open(path, flags), path)
    }) as Disk['open'],
    rename: async (from, to) => {
      step('rename', String(from))
      await systemDisk.rename(from, to)
    },
    unlink: async (path) => {
      step('unlink', String(path))
      await systemDisk.unlink(path)
    },
    rm: async (path, options) => {
      step('rm', String(path))
      await systemDisk.rm(path, options)
    },
    mkdir: (async (path: string, options: object) => {
      step('mkdir', path)
      return systemDisk.mkdir(path, options)
    }) as Disk['mkdir'],
    stat: (async (path: string) => {
      step('stat', path)
      return systemDisk.stat(path)
    }) as Disk['stat'],
    readdir: (async (path: string) => {
      step('readdir', path)
      return systemDisk.readdir(path)
    }) as unknown as Disk['readdir'],
    readFile: (async (path: string, options: 'utf8') => {
      step('readFile', path)
      return systemDisk.readFile(path, options)
    }) as Disk['readFile'],
  }

  type Handle = Awaited<ReturnType<Disk['open']>>
  function handle(file: Handle, path: string): Handle {
    const wrapped: Pick<Handle, 'writeFile' | 'sync' | 'close'> = {
      writeFile: async (data, options) => {
        if (step('write', path) === 'go') return file.writeFile(data, options)
        const text = String(data)
        await file.writeFile(text.slice(0, Math.floor(text.length / 2)), options)
        throw failed('EIO', path)
      },
      sync: async () => {
        step('sync', path)
        await file.sync()
      },
      // The system closes a dead process' files; a close itself does not fail here.
      close: () => file.close(),
    }
    return wrapped as Handle
  }

  return { disk, count: () => count, hit: () => hit }
}
