/**
 * The one-time fetch of Electron's binary, by Electron's own script: it is watched while it runs, and a
 * failure is remembered for a day, so that a start without a network does not wait each time.
 */
import { spawn } from 'node:child_process'
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { z } from 'zod'

export interface Fetch {
  /** The folder of Electron's package. */
  folder: string
  environment: NodeJS.ProcessEnv
  /** Tries again even where a try failed within a day. */
  again: boolean
  say: (line: string) => void
  /** The file that remembers a failure. */
  note?: string
  nowMs?: number
  /** Given up after so long without a byte more, ms. */
  quietMs?: number
  /** How often it is looked at and told, ms. */
  lookMs?: number
}

const DAY_MS = 86_400_000
const QUIET_MS = 30_000
const LOOK_MS = 2_000

const failure = z.object({ version: z.string(), failedAtMs: z.number(), why: z.string() })
const manifest = z.object({ version: z.string() })

/** Node's fetch hides the cause of a failure (no such host, a certificate, a proxy) in its `cause`. */
const TELL_CAUSE = 'data:text/javascript,' + encodeURIComponent(`
const fetched = globalThis.fetch
globalThis.fetch = (...args) => fetched(...args).catch((error) => {
  throw new Error(error.cause?.message ?? error.message)
})`)

/** Fetches the binary. @returns null once it is done, else in a few words why it could not be had */
export async function fetchBinary(fetch: Fetch): Promise<string | null> {
  const { folder, say, nowMs = Date.now(), note = join(dirname(folder), '.cache', 'squatbench', 'electron-fetch.json') } = fetch
  const { version } = manifest.parse(JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')))
  const before = failureIn(note)
  if (!fetch.again && before?.version === version && nowMs - before.failedAtMs < DAY_MS) {
    return `fetching Electron’s binary failed within the last day: ${before.why}; “npm start -- --fetch” tries again`
  }
  say('Fetching Electron’s binary (over 100 MB), once.')
  const why = await runScript(fetch)
  if (why === null) {
    rmSync(note, { force: true })
    return null
  }
  mkdirSync(dirname(note), { recursive: true })
  writeFileSync(note, JSON.stringify({ version, failedAtMs: nowMs, why }))
  return `Electron’s binary could not be fetched: ${why}; “npm start -- --fetch” tries again, else it is tried in a day`
}

function failureIn(note: string): z.infer<typeof failure> | null {
  try {
    return failure.parse(JSON.parse(readFileSync(note, 'utf8')))
  } catch {
    return null
  }
}

/** Runs the script to its end, or until nothing more arrives. */
async function runScript(
  { folder, environment, say, quietMs = QUIET_MS, lookMs = LOOK_MS }: Fetch,
): Promise<string | null> {
  const scratch = mkdtempSync(join(tmpdir(), 'squatbench-fetch-'))
  const child = spawn(process.execPath, ['--import', TELL_CAUSE, join(folder, 'install.js')], {
    stdio: ['ignore', 'ignore', 'pipe'],
    env: {
      ...environment, ...proxyWish(environment),
      TMPDIR: scratch, TEMP: scratch, TMP: scratch, ELECTRON_GET_NO_PROGRESS: '1',
    },
  })
  let told = ''
  child.stderr.on('data', (chunk: Buffer) => (told = (told + String(chunk)).slice(-20_000)))
  let arrived = 0
  let sinceMs = performance.now()
  let stalled = false
  const look = setInterval(() => {
    const bytes = bytesIn(scratch) + bytesIn(join(folder, 'dist'))
    if (bytes > arrived) {
      arrived = bytes
      sinceMs = performance.now()
      say(`  ${(bytes / 1e6).toFixed(0)} MB here`)
    } else if (performance.now() - sinceMs > quietMs) {
      stalled = true
      child.kill('SIGKILL')
    }
  }, lookMs)
  try {
    const code = await new Promise<number | null>((done) => {
      child.on('error', (error) => {
        told = error.message
        done(1)
      })
      child.on('close', done)
    })
    if (stalled) return `nothing arrived for ${Math.round(quietMs / 1_000)} s`
    return code === 0 ? null : reasonIn(told)
  } finally {
    clearInterval(look)
    rmSync(scratch, { recursive: true, force: true })
  }
}

/** Electron's script heeds the usual proxy variables only when told to. */
function proxyWish(environment: NodeJS.ProcessEnv): NodeJS.ProcessEnv {
  const named = ['HTTPS_PROXY', 'https_proxy', 'HTTP_PROXY', 'http_proxy'].some((name) => environment[name])
  return named ? { ELECTRON_GET_USE_PROXY: 'true' } : {}
}

/** The line of a printed error that says what happened. */
function reasonIn(told: string): string {
  const lines = told.split('\n').map((line) => line.trim()).filter((line) => line !== '' && !line.startsWith('at '))
  const line = lines.find((each) => /error/i.test(each)) ?? lines.at(-1) ?? 'its script said nothing'
  return line.replace(/^(?:\w*Error: )+/, '').slice(0, 200)
}

function bytesIn(path: string): number {
  try {
    const own = statSync(path)
    if (!own.isDirectory()) return own.size
    return readdirSync(path).reduce((sum, name) => sum + bytesIn(join(path, name)), 0)
  } catch {
    return 0
  }
}
