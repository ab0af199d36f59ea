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
import { ProfileLibrary } from '@electron/services'
import { day, verify } from './day'
import type { Acknowledged } from './day'
import { FAULTS, faultyDisk } from './faultyDisk'
import type { Fault } from './faultyDisk'
import type { Figure } from './figure'
import { report } from './figure'
import { sampleExchange } from './sample'

const WORDS: Record<Fault, string> = {
  ENOSPC: 'The disk is full (ENOSPC)',
  EACCES: 'The system refuses (EACCES)',
  EIO: 'The disk fails (EIO)',
  torn: 'Half of a text is written, then the process is dead',
  death: 'The process is dead',
}

interface Found { wrong: string[]; hit: string | null; operations: number }

async function tryFault(at: number, fault: Fault): Promise<Found> {
  const folder = await mkdtemp(join(tmpdir(), 'squatbench-fault-'))
  const faulty = faultyDisk(at, fault)
  const acknowledged: Acknowledged = new Map()
  try {
    const first = new ProfileLibrary({ folder, newId: randomUUID, disk: faulty.disk, lock: { patienceMs: 30 } })
    await day(first, acknowledged).catch(() => undefined)
    const wrong = await afterwards(folder, acknowledged)
    return { wrong, hit: faulty.hit(), operations: faulty.count() }
  } finally {
    await rm(folder, { recursive: true, force: true })
  }
}

/** Opens the library as a new start would, and looks for half-written files after it was written to. */
async function afterwards(folder: string, acknowledged: Acknowledged): Promise<string[]> {
  const wrong = await verify(new ProfileLibrary({ folder, newId: randomUUID, lock: { patienceMs: 30 } }), acknowledged)
  const parts = (await readdir(folder, { recursive: true })).filter((file) => /chassis.*\.part$/.test(file))
  return parts.length === 0 ? wrong : [...wrong, `half-written files stay: ${parts.join(', ')}`]
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
      what: `${WORDS[fault]}, at each disk operation in turn`,
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
