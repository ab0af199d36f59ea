/** Where the library lies when nobody says otherwise. */
import { homedir } from 'node:os'
import { join, resolve } from 'node:path'

/** Name of the environment variable that names another library folder. */
export const LIBRARY_VARIABLE = 'SQUATBENCH_LIBRARY'

/**
 * The library's folder: the one asked for, else `SQUATBENCH_LIBRARY`, else the system's place for a
 * program's data (XDG base directories on Linux). Desktop window and loopback host share it.
 */
export function libraryFolder(
  asked: string | null = null, environment: NodeJS.ProcessEnv = process.env, platform = process.platform,
): string {
  const named = asked ?? environment[LIBRARY_VARIABLE] ?? ''
  if (named !== '') return resolve(named)
  return join(dataFolder(environment, platform), 'library')
}

function dataFolder(environment: NodeJS.ProcessEnv, platform: NodeJS.Platform): string {
  if (platform === 'darwin') return join(homedir(), 'Library', 'Application Support', 'Squatbench')
  if (platform === 'win32') return join(environment['APPDATA'] ?? join(homedir(), 'AppData', 'Roaming'), 'Squatbench')
  const xdg = environment['XDG_DATA_HOME'] ?? ''
  // The XDG specification: a relative path there is to be ignored.
  return join(xdg.startsWith('/') ? xdg : join(homedir(), '.local', 'share'), 'squatbench')
}
