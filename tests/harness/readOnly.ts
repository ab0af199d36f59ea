/** The system's disk in a folder that can be read and not written to. */
import { systemDisk } from '@electron/services/disk'
import type { Disk } from '@electron/services/disk'

const refuse = (path: string) => Promise.reject(Object.assign(new Error('EROFS'), { code: 'EROFS', path }))

export const readOnlyDisk: Disk = {
  ...systemDisk,
  open: ((path: string, flags: string) => (flags === 'r' ? systemDisk.open(path, flags) : refuse(path))) as Disk['open'],
  mkdir: ((path: string) => refuse(path)) as Disk['mkdir'],
  rename: (from) => refuse(String(from)),
  unlink: (path) => refuse(String(path)),
  rm: (path) => refuse(String(path)),
}
