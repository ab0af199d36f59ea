/** Sees to a Chromium for the browser tests: the one that is there, or the system's own package. */
import { spawnSync } from 'node:child_process'
import { findChromium } from './e2e/browser'

/**
 * Returns when a Chromium can be started.
 * @throws with what to install, where none is there and the system's packages can't be used.
 */
export function ensureBrowser(): void {
  if (findChromium() !== null) return
  if (process.platform === 'linux' && process.getuid?.() === 0) {
    console.log('No Chromium here: installing the system package.')
    spawnSync('apt-get', ['update', '-qq'], { stdio: 'inherit' })
    spawnSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], {
      stdio: 'inherit',
      env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' },
    })
    if (findChromium() !== null) return
  }
  throw new Error(
    'The browser tests need Chromium or Chrome. Install it (Debian: apt-get install chromium) '
    + 'or name one you have in the environment variable CHROMIUM_PATH.',
  )
}
