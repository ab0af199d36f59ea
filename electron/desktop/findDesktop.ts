/** Whether the desktop window can be had here: a display to show it on and Electron's binary to run. */
import { existsSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'

export type Desktop =
  | { kind: 'binary'; path: string }
  /** Everything is here but the binary; Electron's package, which can fetch it, lies in `folder`. */
  | { kind: 'unfetched'; folder: string }
  | { kind: 'none'; why: string }

/** What is asked of the machine. */
export interface Machine {
  environment: NodeJS.ProcessEnv
  platform: NodeJS.Platform
  /** The user's number where the system has such numbers. */
  userId: number | undefined
  /** The folder of Electron's package, or null where it is not installed. */
  packageFolder: string | null
}

/** This machine. */
export const thisMachine = (): Machine => ({
  environment: process.env,
  platform: process.platform,
  userId: process.getuid?.(),
  packageFolder: electronFolder(),
})

/** Finds Electron's binary, or says in a few words why no window can be shown. Changes nothing. */
export function findDesktop(machine: Machine = thisMachine()): Desktop {
  const display = displayProblem(machine)
  if (display !== null) return { kind: 'none', why: display }
  const folder = machine.packageFolder
  if (folder === null) return { kind: 'none', why: 'the package electron is not installed' }
  const path = binaryIn(folder, machine.environment)
  if (path !== null) return { kind: 'binary', path }
  if (fetchForbidden(machine.environment)) return { kind: 'none', why: 'Electron’s binary is not here' }
  return { kind: 'unfetched', folder }
}

/** The binary where Electron's own `index.js` looks for it, or null where it is not there. */
export function binaryIn(folder: string, environment: NodeJS.ProcessEnv): string | null {
  const override = environment['ELECTRON_OVERRIDE_DIST_PATH'] ?? ''
  const note = join(folder, 'path.txt')
  const named = existsSync(note) ? readFileSync(note, 'utf8') : ''
  if (override === '' && named === '') return null
  const path = override === '' ? join(folder, 'dist', named) : join(override, named === '' ? 'electron' : named)
  return existsSync(path) ? path : null
}

/** Why no window can be shown here, or null. */
function displayProblem({ environment, platform, userId }: Machine): string | null {
  if (platform !== 'linux') return environment['SSH_CONNECTION'] ? 'this is a session from another machine' : null
  if (!environment['DISPLAY'] && !environment['WAYLAND_DISPLAY']) return 'there is no display here'
  if (userId === 0) return 'its sandbox does not run as root'
  return null
}

/** An override names a binary of the builder's own, which is not ours to fetch. */
function fetchForbidden(environment: NodeJS.ProcessEnv): boolean {
  const skip = (environment['ELECTRON_SKIP_BINARY_DOWNLOAD'] ?? '').toLowerCase()
  return !['', '0', 'false'].includes(skip) || Boolean(environment['ELECTRON_OVERRIDE_DIST_PATH'])
}

function electronFolder(): string | null {
  try {
    return dirname(createRequire(import.meta.url).resolve('electron/package.json'))
  } catch {
    return null
  }
}
