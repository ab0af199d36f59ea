/**
 * `tsx tests/harness/crash.ts [--writes N] [--seed N]`: the host is a process of its own; this one
 * sends it save after save and kills it (SIGKILL) at random moments. After each kill a new host must
 * open the library and hold every acknowledged reading. Then two writers at once, in two processes.
 */
import { spawn } from 'node:child_process'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import { uniformInt } from 'pure-rand/distribution/uniformInt'
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'
import { build } from 'vite'
import type { SquatSession } from '@core/schema'
import type { Figure } from './figure'
import { report } from './figure'
import { alias } from '../../electron.vite.config'
import { enter } from './hostClient'
import type { Call } from './hostClient'
import { sampleChassis, sampleReading, sampleSquat } from './sample'

const HOST = fileURLToPath(new URL('./hostProcess.ts', import.meta.url))

/** The host as one file, so that the many starts are quick. */
export async function bundleHost(folder: string): Promise<string> {
  await build({
    configFile: false,
    logLevel: 'error',
    resolve: { alias },
    ssr: { noExternal: true },
    build: { ssr: HOST, outDir: folder, rollupOptions: { output: { entryFileNames: 'host.mjs' } } },
  })
  return join(folder, 'host.mjs')
}

export interface HostProcess { address: string; kill(): Promise<void> }
interface RunningHost { call: Call; kill(): Promise<void> }

/** Starts the bundled host over a library; `kill` is SIGKILL. */
export async function spawnHost(program: string, library: string, pages = library, port = 0): Promise<HostProcess> {
  const child = spawn(process.execPath, [program, library, pages, String(port)], { stdio: ['ignore', 'pipe', 'inherit'] })
  const ended = new Promise<void>((done) => child.once('exit', () => done()))
  const lines = createInterface({ input: child.stdout as NodeJS.ReadableStream })
  const address = await new Promise<string>((done, fail) => {
    lines.once('line', done)
    child.once('exit', (code) => fail(new Error(`the host ended at its start (${code})`)))
  })
  return {
    address,
    kill: async () => {
      child.kill('SIGKILL')
      await ended
    },
  }
}

async function startHostProcess(program: string, library: string): Promise<RunningHost> {
  const { address, kill } = await spawnHost(program, library)
  return { kill, ...await enter(address) }
}

async function squatOf(call: Call): Promise<SquatSession | null> {
  const opened = await call('library.open', { chassisId: 'mule' })
  if (!opened.ok) throw new Error(`the library does not open: ${opened.error.message}`)
  if (opened.value.unreadable.length > 0) throw new Error(`not readable: ${JSON.stringify(opened.value.unreadable)}`)
  return opened.value.sessions.find((each): each is SquatSession => each.kind === 'squat') ?? null
}

/**
 * Saves one more reading each time until the host dies; answers the numbers that were acknowledged.
 * @param each called before each save with the count of those acknowledged
 */
async function writeUntilDeath(
  call: Call, session: SquatSession, from: number, each: (count: number) => void,
): Promise<number[]> {
  const acknowledged: number[] = []
  let current = session
  for (let number = from; ; number += 1) {
    each(acknowledged.length)
    const next = { ...current, readings: [...current.readings, sampleReading(number)] }
    const answer = await call('library.saveSession', { session: next, baseRevision: current.revision }).catch(() => null)
    if (answer === null) break
    if (!answer.ok) throw new Error(answer.error.message)
    if (answer.value.kind === 'conflict') throw new Error('a conflict where nobody else writes')
    acknowledged.push(number)
    current = { ...next, revision: answer.value.revision }
  }
  return acknowledged
}

/** Spins for short waits: timers are no finer than a millisecond, and an operation of the disk is. */
async function pause(ms: number): Promise<void> {
  const endMs = performance.now() + ms
  while (performance.now() < endMs) await new Promise<void>((done) => setImmediate(done))
}

/** Kills at random moments until so many writes were acknowledged and so many kills were made. */
export async function killFigure(writes: number, seed: number, leastKills = 6): Promise<Figure> {
  const folder = await mkdtemp(join(tmpdir(), 'squatbench-crash-'))
  const random = xoroshiro128plus(seed)
  const acknowledged = new Set<number>()
  let kills = 0
  let lost = 0
  let host: RunningHost | null = null
  const library = join(folder, 'library')
  try {
    const program = await bundleHost(folder)
    host = await startHostProcess(program, library)
    await host.call('library.saveChassis', { chassis: sampleChassis('mule'), baseRevision: 0 })
    let next = 0
    while (acknowledged.size < writes || kills < leastKills) {
      const session = await squatOf(host.call) ?? sampleSquat('mule', 'squat', [])
      const there = new Set(session.readings.map((reading) => Number(reading.id.slice(1))))
      lost += [...acknowledged].filter((number) => !there.has(number)).length
      next = Math.max(next, ...there) + 1
      const running: RunningHost = host
      // The kill falls within some save: after so many, and then so many tenths of a millisecond.
      const after = uniformInt(random, 0, 24)
      const laterMs = uniformInt(random, 0, 150) / 10
      let killed: Promise<void> | null = null
      const numbers = await writeUntilDeath(running.call, session, next, (count) => {
        if (count === after) killed = pause(laterMs).then(() => running.kill())
      })
      for (const number of numbers) acknowledged.add(number)
      next = Math.max(next, ...numbers)
      await killed
      kills += 1
      host = await startHostProcess(program, library)
    }
    const last = await squatOf(host.call)
    const there = new Set(last?.readings.map((reading) => Number(reading.id.slice(1))))
    lost += [...acknowledged].filter((number) => !there.has(number)).length
  } finally {
    await host?.kill()
    await rm(folder, { recursive: true, force: true })
  }
  return {
    what: `Host killed (SIGKILL) at random moments while writing (seed ${seed})`,
    figure: `${acknowledged.size} acknowledged writes, ${kills} kills, ${lost} lost`,
    good: lost === 0 && kills >= leastKills && acknowledged.size >= writes,
  }
}

/** One writer of two: adds its own readings, merging with the other's where it is told of them. */
async function writer(call: Call, numbers: number[]): Promise<number> {
  let conflicts = 0
  let current = await squatOf(call)
  for (const number of numbers) {
    for (;;) {
      const base: SquatSession = current ?? sampleSquat('mule', 'squat', [])
      const session = { ...base, readings: [...base.readings, sampleReading(number)] }
      const answer = await call('library.saveSession', { session, baseRevision: current?.revision ?? 0 })
      if (!answer.ok) throw new Error(answer.error.message)
      if (answer.value.kind === 'saved') {
        current = { ...session, revision: answer.value.revision }
        break
      }
      conflicts += 1
      current = answer.value.current as SquatSession
    }
  }
  return conflicts
}

/** Two processes write to one session at once. */
export async function twoWritersFigure(each: number): Promise<Figure> {
  const folder = await mkdtemp(join(tmpdir(), 'squatbench-two-'))
  const hosts: RunningHost[] = []
  try {
    const program = await bundleHost(folder)
    for (let count = 0; count < 2; count += 1) hosts.push(await startHostProcess(program, join(folder, 'library')))
    const [first, second] = hosts as [RunningHost, RunningHost]
    await first.call('library.saveChassis', { chassis: sampleChassis('mule'), baseRevision: 0 })
    const range = (from: number) => Array.from({ length: each }, (_, index) => from + index)
    const told = await Promise.all([writer(first.call, range(0)), writer(second.call, range(10_000))])
    const there = new Set((await squatOf(first.call))?.readings.map((reading) => Number(reading.id.slice(1))))
    const missing = [...range(0), ...range(10_000)].filter((number) => !there.has(number)).length
    return {
      what: 'Two processes writing to one session at once',
      figure: `${2 * each} acknowledged writes, the later writer told ${told[0] + told[1]} times, ${missing} lost`,
      good: missing === 0 && told[0] + told[1] > 0,
    }
  } finally {
    await Promise.all(hosts.map((host) => host.kill()))
    await rm(folder, { recursive: true, force: true })
  }
}

/** All rows of this command. */
export const crashFigures = async (writes = 500, seed = 1, leastKills = 200): Promise<Figure[]> =>
  [await killFigure(writes, seed, leastKills), await twoWritersFigure(100)]

if (import.meta.url === `file://${process.argv[1]}`) {
  const { values } = parseArgs({
    options: { writes: { type: 'string', default: '500' }, seed: { type: 'string', default: '1' } },
  })
  report('Crashes', await crashFigures(Number(values.writes), Number(values.seed)))
}
