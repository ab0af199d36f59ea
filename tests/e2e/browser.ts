/** The Chromium of the browser tests: where it is found, and how it is started. */
import { accessSync, constants } from 'node:fs'
import { join } from 'node:path'
import { chromium } from 'playwright-core'
import type { Browser } from 'playwright-core'

/** Nothing a test needs goes out: the browser's own housekeeping is switched off too. */
const FLAGS = [
  '--no-sandbox', '--disable-gpu', '--no-first-run', '--disable-background-networking',
  '--disable-component-update', '--disable-sync',
]

function usualPlaces(): string[] {
  if (process.platform === 'darwin') {
    return ['Chromium', 'Google Chrome'].map((app) => `/Applications/${app}.app/Contents/MacOS/${app}`)
  }
  if (process.platform === 'win32') {
    return ['PROGRAMFILES', 'PROGRAMFILES(X86)', 'LOCALAPPDATA'].flatMap((variable) => {
      const folder = process.env[variable]
      return folder === undefined ? [] : ['Google\\Chrome', 'Chromium'].map(
        (maker) => join(folder, maker, 'Application', 'chrome.exe'),
      )
    })
  }
  return ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'].map((file) => `/usr/bin/${file}`)
}

function canRun(file: string): boolean {
  try {
    accessSync(file, constants.X_OK)
    return true
  } catch {
    return false
  }
}

/** Path of a Chromium or Chrome: the one named by `CHROMIUM_PATH`, else one in a usual place, else null. */
export function findChromium(): string | null {
  const named = process.env['CHROMIUM_PATH']
  const candidates = named === undefined || named === '' ? usualPlaces() : [named]
  return candidates.find(canRun) ?? null
}

/**
 * Starts that browser without a window. The caller closes it.
 * @param more flags of the test's own
 * @throws where there is none, with what to install
 */
export async function launchBrowser(more: readonly string[] = []): Promise<Browser> {
  const executablePath = findChromium()
  if (executablePath === null) {
    throw new Error('No Chromium or Chrome here: install one, or name it in the environment variable CHROMIUM_PATH.')
  }
  return chromium.launch({ executablePath, headless: true, args: [...FLAGS, ...more] })
}
