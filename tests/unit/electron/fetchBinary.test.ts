/** Where Electron's binary is found and how it is fetched, with a package of our own in the place of Electron's. */
import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { fetchBinary } from '@electron/desktop/fetchBinary'
import type { Fetch } from '@electron/desktop/fetchBinary'
import { findDesktop } from '@electron/desktop/findDesktop'
import type { Machine } from '@electron/desktop/findDesktop'

let scratch: string
let folder: string
let said: string[]
beforeEach(() => {
  scratch = mkdtempSync(join(tmpdir(), 'squatbench-fetching-'))
  folder = join(scratch, 'node_modules', 'electron')
  mkdirSync(folder, { recursive: true })
  writeFileSync(join(folder, 'package.json'), JSON.stringify({ version: '45.0.0' }))
  said = []
})
afterEach(() => rmSync(scratch, { recursive: true, force: true }))

const script = (text: string): void => writeFileSync(join(folder, 'install.js'), text)
const fetching = (options: Partial<Fetch> = {}): Promise<string | null> => fetchBinary({
  folder, environment: process.env, again: false, say: (line) => said.push(line), lookMs: 20, nowMs: 0, ...options,
})
const machine = (environment: NodeJS.ProcessEnv = {}, change: Partial<Machine> = {}): Machine =>
  ({ environment: { DISPLAY: ':0', ...environment }, platform: 'linux', userId: 1000, packageFolder: folder, ...change })
const lay = (path: string): string => {
  mkdirSync(join(path, '..'), { recursive: true })
  writeFileSync(path, '')
  return path
}

describe('Electron’s binary', () => {
  it('is found where its package says', () => {
    expect(findDesktop(machine())).toEqual({ kind: 'unfetched', folder })
    writeFileSync(join(folder, 'path.txt'), 'electron')
    expect(findDesktop(machine())).toEqual({ kind: 'unfetched', folder })
    const path = lay(join(folder, 'dist', 'electron'))
    expect(findDesktop(machine())).toEqual({ kind: 'binary', path })
  })

  it('is found in another folder by its usual name, with and without a note of the package', () => {
    const path = lay(join(scratch, 'other', 'electron'))
    const environment = { ELECTRON_OVERRIDE_DIST_PATH: join(scratch, 'other') }
    expect(findDesktop(machine(environment))).toEqual({ kind: 'binary', path })
    writeFileSync(join(folder, 'path.txt'), 'named')
    expect(findDesktop(machine(environment))).toEqual({ kind: 'none', why: 'Electron’s binary is not here' })
    expect(findDesktop(machine(environment, { packageFolder: null }))).toMatchObject({ kind: 'none' })
  })

  it.each(['1', 'true', 'TRUE', 'yes'])('is not fetched where ELECTRON_SKIP_BINARY_DOWNLOAD is %s', (value) => {
    expect(findDesktop(machine({ ELECTRON_SKIP_BINARY_DOWNLOAD: value }))).toMatchObject({ kind: 'none' })
  })

  it.each(['', '0', 'false'])('is fetched where ELECTRON_SKIP_BINARY_DOWNLOAD is “%s”', (value) => {
    expect(findDesktop(machine({ ELECTRON_SKIP_BINARY_DOWNLOAD: value }))).toMatchObject({ kind: 'unfetched' })
  })

  it.each([
    ['without a display', machine({ DISPLAY: '' }), 'there is no display here'],
    ['as root', machine({}, { userId: 0 }), 'its sandbox does not run as root'],
    ['from another machine, on macOS', machine({ SSH_CONNECTION: '10.0.0.1 1 10.0.0.2 22' }, { platform: 'darwin' }), 'this is a session from another machine'],
    ['from another machine, on Windows', machine({ SSH_CONNECTION: '10.0.0.1 1 10.0.0.2 22' }, { platform: 'win32' }), 'this is a session from another machine'],
  ])('is not tried %s, and the reason is told', (_case, here, why) => {
    expect(findDesktop(here)).toEqual({ kind: 'none', why })
  })
})

describe('the fetch of the binary', () => {
  it('runs the package’s own script and tells how far it is', async () => {
    script(`
      const fs = require('node:fs')
      fs.writeFileSync(require('node:os').tmpdir() + '/part', Buffer.alloc(3e6))
      setTimeout(() => fs.writeFileSync(__dirname + '/path.txt', 'electron'), 300)`)
    expect(await fetching()).toBeNull()
    expect(said[0]).toMatch(/once/)
    expect(said).toContain('  3 MB here')
    expect(existsSync(join(folder, 'path.txt'))).toBe(true)
  })

  it('says why it failed, remembers that for a day, and tries again after it or when told to', async () => {
    script('console.error("Error: no such release\\n    at somewhere"); process.exit(1)')
    expect(await fetching()).toMatch(/could not be fetched: no such release; .*--fetch/)
    script('require("node:fs").writeFileSync(__dirname + "/tried", "")')
    expect(await fetching({ nowMs: 86_399_999 })).toMatch(/failed within the last day: no such release; .*--fetch/)
    expect(existsSync(join(folder, 'tried'))).toBe(false)
    expect(await fetching({ nowMs: 1, again: true })).toBeNull()
    rmSync(join(folder, 'tried'))
    // A fetch that went well is not remembered as a failure.
    expect(await fetching({ nowMs: 2 })).toBeNull()
    expect(existsSync(join(folder, 'tried'))).toBe(true)
  })

  it('is tried anew after a day, and for another version', async () => {
    script('process.exit(1)')
    expect(await fetching()).toMatch(/its script said nothing/)
    script('')
    expect(await fetching({ nowMs: 86_400_001 })).toBeNull()
    script('process.exit(1)')
    await fetching()
    writeFileSync(join(folder, 'package.json'), JSON.stringify({ version: '46.0.0' }))
    script('')
    expect(await fetching({ nowMs: 1 })).toBeNull()
  })

  it('tells the cause that Node’s fetch hides', async () => {
    script(`fetch('http://127.0.0.1:9/').catch((error) => { console.error(error.stack); process.exit(1) })`)
    expect(await fetching()).toMatch(/could not be fetched: (?!fetch failed)/)
  })

  it('is given up when nothing more arrives, not after a fixed time', async () => {
    script('setInterval(() => undefined, 1000)')
    expect(await fetching({ quietMs: 300 })).toMatch(/nothing arrived for/)
    script(`
      let parts = 0
      const more = setInterval(() => {
        require('node:fs').appendFileSync(require('node:os').tmpdir() + '/part', 'x')
        if ((parts += 1) === 8) clearInterval(more)
      }, 100)`)
    expect(await fetching({ again: true, quietMs: 600 })).toBeNull()
  })

  it('asks through the proxy that the environment names', async () => {
    script('process.exit(process.env.ELECTRON_GET_USE_PROXY === "true" ? 0 : 1)')
    expect(await fetching({ environment: { ...process.env, https_proxy: 'http://127.0.0.1:1' } })).toBeNull()
  })
})
