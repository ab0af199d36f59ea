/**
 * `tsx tests/harness/scale.ts [--chassis N] [--sessions N]`: a large library, asked as the window asks. Times
 * are medians of several calls through the table, each answer parsed as it is for the window.
 */
import { randomUUID } from 'node:crypto'
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { createDispatch, createTable, ProfileLibrary } from '@electron/services'
import type { Dispatch } from '@electron/services'
import type { Figure } from './figure'
import { report } from './figure'
import { sampleChassis, sampleSquat } from './sample'

const LIST_MS = 150
const OPEN_MS = 100
const SAVE_MS = 200
const READINGS = 40

/** Lays the files down directly: what is timed is the reading. */
export async function layDown(
  folder: string, chassisCount: number, sessionCount: number, readingCount = READINGS,
): Promise<void> {
  const numbers = Array.from({ length: readingCount }, (_, index) => index)
  for (let count = 0; count < chassisCount; count += 1) {
    const id = `car-${count}`
    const own = join(folder, 'chassis', id)
    await mkdir(join(own, 'sessions'), { recursive: true })
    await writeFile(join(own, 'chassis.json'), JSON.stringify({ ...sampleChassis(id), revision: 1 }))
    await Promise.all(Array.from({ length: sessionCount }, (_, index) => {
      const session = { ...sampleSquat(id, `s${index}`, numbers), revision: 1 }
      return writeFile(join(own, 'sessions', `s${index}.json`), JSON.stringify(session))
    }))
  }
}

const tableOf = (folder: string): Dispatch => createDispatch(createTable({
  library: new ProfileLibrary({ folder, newId: randomUUID }), version: '0.0.0', transport: 'host', printPdf: null, saveTables: null,
}))

async function medianMs(times: number, work: (index: number) => Promise<unknown>): Promise<number> {
  const took: number[] = []
  for (let index = 0; index < times; index += 1) {
    const startMs = performance.now()
    await work(index)
    took.push(performance.now() - startMs)
  }
  return took.sort((a, b) => a - b)[Math.floor(times / 2)] ?? NaN
}

async function must(dispatch: Dispatch, name: string, input: unknown): Promise<unknown> {
  const answer = await dispatch(name, input)
  if (!answer.ok) throw new Error(`${name}: ${answer.error.message}`)
  return answer.value
}

const timed = (what: string, ms: number, limitMs: number): Figure =>
  ({ what, figure: `${ms.toFixed(0)} ms (limit ${limitMs} ms)`, good: ms < limitMs })

/** All rows of this command. */
export async function scaleFigures(chassisCount = 1000, sessionCount = 50): Promise<Figure[]> {
  const folder = await mkdtemp(join(tmpdir(), 'squatbench-scale-'))
  const title = `${chassisCount} chassis x ${sessionCount} sessions`
  try {
    await layDown(folder, chassisCount, sessionCount)
    // Stamps younger than some seconds are not trusted; the builder's library is older than that.
    await new Promise((done) => setTimeout(done, 3000))
    const first = tableOf(folder)
    const firstMs = await medianMs(1, () => must(first, 'library.list', {}))
    const listMs = await medianMs(7, () => must(first, 'library.list', {}))
    const startedMs = await medianMs(5, () => must(tableOf(folder), 'library.list', {}))
    const openMs = await medianMs(15, (index) => must(first, 'library.open', { chassisId: `car-${index * 7}` }))
    const session = sampleSquat('car-1', 'long', Array.from({ length: 5000 }, (_, index) => index))
    const saveMs = await medianMs(9, (index) =>
      must(first, 'library.saveSession', { session: { ...session, note: `${index}` }, baseRevision: index }))
    return [
      { what: `${title}: first list, index built from the files`, figure: `${(firstMs / 1000).toFixed(1)} s, once`, good: true },
      timed(`${title}: list in a running program`, listMs, LIST_MS),
      timed(`${title}: first list after a start, index there`, startedMs, LIST_MS),
      timed(`${title}: open one chassis with its sessions`, openMs, OPEN_MS),
      timed('Save of a session of 5,000 readings, on the disk', saveMs, SAVE_MS),
    ]
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

if (import.meta.url === `file://${process.argv[1]}`) {
  const { values } = parseArgs({
    options: { chassis: { type: 'string', default: '1000' }, sessions: { type: 'string', default: '50' } },
  })
  report('Scale', await scaleFigures(Number(values.chassis), Number(values.sessions)))
}
