/** `npm start` as a whole, with small programs in the place of Electron's binary. */
import { spawn } from 'node:child_process'
import { chmodSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'squatbench-start-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** A user who is not root, as Electron's sandbox wants; and a clock that runs faster, so that no test waits. */
const machine = (speed: number): string => 'data:text/javascript,' + encodeURIComponent(`
  process.getuid = () => 1000
  const now = performance.now.bind(performance)
  performance.now = () => now() * ${speed}`)

let count = 0
/** Starts with a window that does what the lines of shell say; ends it as Ctrl-C does once it serves a browser. */
function start(lines: string, speed = 1): Promise<{ code: number | null; printed: string }> {
  const dist = mkdtempSync(join(folder, `dist-${(count += 1)}-`))
  writeFileSync(join(dist, 'electron'), `#!/bin/sh\n${lines}\n`)
  chmodSync(join(dist, 'electron'), 0o755)
  const child = spawn(
    process.execPath,
    [
      '--import', 'tsx', '--import', machine(speed), join(ROOT, 'electron', 'start.ts'),
      '--no-open', '--library', join(dist, 'library'), '--port', '0',
    ],
    {
      cwd: ROOT, stdio: ['ignore', 'pipe', 'pipe'],
      env: { ...process.env, DISPLAY: ':99', ELECTRON_OVERRIDE_DIST_PATH: dist },
    },
  )
  let printed = ''
  const hear = (chunk: Buffer): void => {
    printed += String(chunk)
    if (printed.includes('Ctrl-C ends it')) child.kill('SIGINT')
  }
  child.stdout.on('data', hear)
  child.stderr.on('data', hear)
  return new Promise((done) => child.on('close', (code) => done({ code, printed })))
}

if (process.platform !== 'linux') console.log('The tests of a start are skipped: their small programs are made for Linux.')

describe.skipIf(process.platform !== 'linux')('npm start', () => {
  it.each([
    ['kill -TRAP $$', /could not be started \(.*(?:SIGTRAP|user namespaces).*\), so Squatbench serves your browser/],
    ['kill -SEGV $$', /could not be started \(.*SIGSEGV.*\), so Squatbench serves your browser/],
    ['exit 127', /could not be started \(.*code 127\), so Squatbench serves your browser/],
  ])('serves the browser, and says why, where the window ends at once by “%s”', async (lines, why) => {
    const { code, printed } = await start(lines)
    expect(printed).toMatch(why)
    expect(printed).toMatch(/Squatbench is at http:\/\/127\.0\.0\.1:\d+\/\?token=/)
    expect(code).toBe(0)
  })

  it('ends with 1, and says so, where the window stood and ended by itself', async () => {
    const { code, printed } = await start('sleep 0.3; kill -SEGV $$', 100)
    expect(printed).toMatch(/window ended by itself \(.*SIGSEGV.*What was written down is safe/)
    expect(printed).not.toMatch(/serves your browser/)
    expect(code).toBe(1)
  })

  it('ends with the window, and hands the library on', async () => {
    const note = join(folder, 'library-note')
    const { code, printed } = await start(`echo "$SQUATBENCH_LIBRARY $1" > ${note}`)
    expect([code, printed]).toEqual([0, expect.not.stringMatching(/browser/)])
    expect(readFileSync(note, 'utf8')).toMatch(/\/library \/.*\n$/)
  })
})
