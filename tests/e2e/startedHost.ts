/** The app as `npm start -- --browser` serves it, on a library of its own, watched for what it reaches out to. */
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
const WATCH = new URL('./watchNetwork.ts', import.meta.url).href

export interface StartedHost {
  /** The printed address with its one-time token. */
  address: string
  origin: string
  port: number
  /** Everything it printed so far. */
  printed(): string
  /** Addresses its process tried to reach off the loopback interface. */
  reachedOut(): Promise<string[]>
  /** Ends it as Ctrl-C does; gives the exit code. */
  stop(): Promise<number | null>
}

/** A folder for a library, and its removal. */
export async function libraryFolderForTest(): Promise<{ folder: string; remove: () => Promise<void> }> {
  const folder = await mkdtemp(join(tmpdir(), 'squatbench-e2e-'))
  return { folder, remove: () => rm(folder, { recursive: true, force: true }) }
}

/** Starts it and waits for its address. @throws with what it printed where none comes */
export async function startHostFor(library: string, port = 0): Promise<StartedHost> {
  const log = join(await mkdtemp(join(tmpdir(), 'squatbench-reach-')), 'reached')
  const child = spawn(
    process.execPath,
    [
      '--import', 'tsx', '--import', WATCH, join(ROOT, 'electron', 'start.ts'),
      '--browser', '--no-open', '--library', library, '--port', String(port),
    ],
    { cwd: ROOT, env: { ...process.env, SQUATBENCH_REACH_LOG: log }, stdio: ['ignore', 'pipe', 'pipe'] },
  )
  let printed = ''
  const address = await new Promise<string>((done, fail) => {
    const hear = (chunk: Buffer) => {
      printed += chunk.toString()
      const found = /http:\/\/127\.0\.0\.1:\d+\/\?token=[\w-]+/.exec(printed)
      if (found !== null) done(found[0])
    }
    child.stdout.on('data', hear)
    child.stderr.on('data', hear)
    child.on('exit', (code) => fail(new Error(`it ended with ${code}:\n${printed}`)))
  })
  const url = new URL(address)
  return {
    address,
    origin: url.origin,
    port: Number(url.port),
    printed: () => printed,
    reachedOut: async () => (await readFile(log, 'utf8').catch(() => '')).split('\n').filter(Boolean),
    stop: async () => {
      if (child.exitCode !== null) return child.exitCode
      const ended = once(child, 'exit')
      child.kill('SIGINT')
      const [code] = await ended as [number | null]
      return code
    },
  }
}
