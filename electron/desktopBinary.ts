/** Whether the desktop window can be had here: a display to show it on and Electron's binary to run. */
import { spawnSync } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'

export type Desktop = { kind: 'binary'; path: string } | { kind: 'none'; why: string }

/** Longest wait for the one-time fetch of the binary, ms. */
const FETCH_MS = 180_000

/** Finds Electron's binary; where it was never fetched and `mayFetch` says so, fetches it by Electron's own script. */
export function findDesktop(environment: NodeJS.ProcessEnv = process.env, mayFetch = true): Desktop {
  const display = displayProblem(environment)
  if (display !== null) return { kind: 'none', why: display }
  const folder = packageFolder()
  if (folder === null) return { kind: 'none', why: 'the package electron is not installed' }
  const there = binaryIn(folder, environment)
  if (there !== null) return { kind: 'binary', path: there }
  if (!mayFetch || environment['ELECTRON_SKIP_BINARY_DOWNLOAD'] === '1') {
    return { kind: 'none', why: 'Electron’s binary is not here' }
  }
  console.log('Fetching Electron’s binary, once.')
  spawnSync(process.execPath, [join(folder, 'install.js')], { stdio: 'ignore', timeout: FETCH_MS })
  const fetched = binaryIn(folder, environment)
  if (fetched !== null) return { kind: 'binary', path: fetched }
  return { kind: 'none', why: 'Electron’s binary could not be fetched' }
}

/** Why no window can be shown here, or null. */
function displayProblem(environment: NodeJS.ProcessEnv): string | null {
  if (process.platform !== 'linux') return null
  if (!environment['DISPLAY'] && !environment['WAYLAND_DISPLAY']) return 'there is no display here'
  if (process.getuid?.() === 0) return 'its sandbox does not run as root'
  return null
}

function packageFolder(): string | null {
  try {
    return dirname(createRequire(import.meta.url).resolve('electron/package.json'))
  } catch {
    return null
  }
}

/** The binary where Electron's package says it is: `path.txt` below `dist` or below the folder of an override. */
function binaryIn(folder: string, environment: NodeJS.ProcessEnv): string | null {
  const note = join(folder, 'path.txt')
  if (!existsSync(note)) return null
  const path = join(environment['ELECTRON_OVERRIDE_DIST_PATH'] ?? join(folder, 'dist'), readFileSync(note, 'utf8'))
  return existsSync(path) ? path : null
}
