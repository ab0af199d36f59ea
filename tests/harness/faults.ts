/**
 * `tsx tests/harness/faults.ts`: every operation of a working day's writing is made to fail in turn,
 * in each of five ways; then the library is opened as after a new start. All that was acknowledged
 * must be there, whole, and nothing else may be half there.
 */
import { randomUUID } from 'node:crypto'
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { isDeepStrictEqual } from 'node:util'
import type { Session } from '@core/schema'
import { ProfileLibrary } from '@electron/services'
import { FAULTS, faultyDisk } from './faultyDisk'
import type { Fault } from './faultyDisk'
import type { Figure } from './figure'
import { report } from './figure'
import { sampleChassis, sampleExchange, sampleSquat } from './sample'

/** What was acknowledged: session id to the numbers of its readings. */
type Acknowledged = Map<string, number[]>

const numbersOf = (session: Session): number[] =>
  (session.kind === 'squat' ? session.readings.map((reading) => Number(reading.id.slice(1))) : [])

const SAVES = 4

/** A short day: a chassis, a growing session, an import, a removal. Ends at the first failure. */
async function day(library: ProfileLibrary, acknowledged: Acknowledged): Promise<void> {
  await library.saveChassis(sampleChassis('mule'), 0)
  acknowledged.set('(chassis)', [])
  for (let count = 1; count <= SAVES; count += 1) {
    const numbers = Array.from({ length: count }, (_, index) => index)
    const outcome = await library.saveSession(sampleSquat('mule', 'squat', numbers), count - 1)
    if (outcome.kind !== 'saved') throw new Error('a conflict where nobody else writes')
    acknowledged.set('squat', numbers)
  }
  await library.import(sampleExchange('guest', 2))
  acknowledged.set('(guest)', [])
  await library.saveSession(sampleSquat('mule', 'second', [7]), 0)
  acknowledged.set('second', [7])
  await library.removeSession('mule', 'second')
  acknowledged.delete('second')
  await library.list()
}

interface Found { wrong: string[]; hit: string | null; operations: number }

async function tryFault(at: number, fault: Fault): Promise<Found> {
  const folder = await mkdtemp(join(tmpdir(), 'squatbench-fault-'))
  const faulty = faultyDisk(at, fault)
  const acknowledged: Acknowledged = new Map()
  try {
    const first = new ProfileLibrary({ folder, newId: randomUUID, disk: faulty.disk, lock: { patienceMs: 30 } })
    await day(first, acknowledged).catch(() => undefined)
    const wrong = await verify(folder, acknowledged)
    return { wrong, hit: faulty.hit(), operations: faulty.count() }
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

/** Opens the library as a new start would, and writes to it. */
async function verify(folder: string, acknowledged: Acknowledged): Promise<string[]> {
  const wrong: string[] = []
  const library = new ProfileLibrary({ folder, newId: randomUUID, lock: { patienceMs: 30 } })
  const listed = await library.list()
  if (listed.unreadable.length > 0) wrong.push(`not readable: ${listed.unreadable.map((each) => each.file).join(', ')}`)
  const has = (id: string): boolean => listed.chassis.some((each) => each.id === id)
  if (acknowledged.has('(chassis)') && !has('mule')) return [...wrong, 'the chassis is gone']
  if (acknowledged.has('(guest)') && !has('guest')) wrong.push('the import is gone')
  if (has('guest') && (await library.open('guest')).sessions.length !== 2) wrong.push('the import is there in part')
  if (!has('mule')) return wrong
  const { sessions, unreadable } = await library.open('mule')
  wrong.push(...unreadable.map((each) => `not readable: ${each.file}`))
  for (const [id, numbers] of acknowledged) {
    if (id.startsWith('(')) continue
    const session = sessions.find((each) => each.id === id)
    // The removal of `second` may have happened although its answer was a failure.
    if (session === undefined && id === 'second') continue
    const there = session === undefined ? [] : numbersOf(session)
    if (numbers.some((number) => !there.includes(number))) wrong.push(`readings of ${id} are gone`)
  }
  const current = sessions.find((each) => each.id === 'squat')
  const saved = await library.saveSession(sampleSquat('mule', 'squat', [0, 1, 2, 3, 4]), current?.revision ?? 0)
  if (saved.kind !== 'saved') wrong.push('the library takes no more saves')
  const parts = (await readdir(folder, { recursive: true })).filter((file) => /chassis.*\.part$/.test(file))
  if (parts.length > 0) wrong.push(`half-written files stay: ${parts.join(', ')}`)
  return wrong
}

/** Every operation, every fault. */
async function everyFault(): Promise<Figure[]> {
  const { operations } = await tryFault(-1, 'EIO')
  const figures: Figure[] = []
  for (const fault of FAULTS) {
    const wrong: string[] = []
    for (let at = 0; at < operations; at += 1) {
      const found = await tryFault(at, fault)
      wrong.push(...found.wrong.map((each) => `operation ${at} (${found.hit}): ${each}`))
    }
    for (const each of wrong.slice(0, 5)) console.log(`  ${fault}: ${each}`)
    figures.push({
      what: `${fault} at each disk operation in turn`,
      figure: `${operations} operations, ${wrong.length} losses`,
      good: operations > 50 && wrong.length === 0,
    })
  }
  return figures
}

/** The index cut, garbled, taken away or of another version: the list is the same. */
async function indexLoss(): Promise<Figure> {
  const folder = await mkdtemp(join(tmpdir(), 'squatbench-index-'))
  try {
    const fresh = () => new ProfileLibrary({ folder, newId: randomUUID })
    for (let count = 0; count < 20; count += 1) await fresh().import(sampleExchange(`car-${count}`, 3))
    const before = await fresh().list()
    const path = join(folder, 'index.json')
    const whole = await readFile(path, 'utf8')
    const contents = [whole.slice(0, whole.length / 2), '', '[]', '\u0000\u0001', '{"indexVersion":99,"entries":{}}', null]
    let same = 0
    for (const content of contents) {
      if (content === null) await rm(path)
      else await writeFile(path, content)
      if (isDeepStrictEqual(await fresh().list(), before)) same += 1
    }
    return {
      what: 'Index cut, emptied, garbled, of another version, deleted',
      figure: `same list in ${same} of ${contents.length} cases (${before.chassis.length} chassis)`,
      good: same === contents.length && before.chassis.length === 20,
    }
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

/** All rows of this command. */
export const faultFigures = async (): Promise<Figure[]> => [...await everyFault(), await indexLoss()]

if (import.meta.url === `file://${process.argv[1]}`) report('Faults of the disk', await faultFigures())
