/**
 * `tsx tests/harness/powerCut.ts [--draws N]`: the power fails after each disk operation of a working
 * day, on a disk that forgets what was not synced; what it forgets is drawn several times. A second
 * run on a disk whose syncs do nothing must lose readings, or this harness sees nothing.
 */
import { parseArgs } from 'node:util'
import { ProfileLibrary } from '@electron/services'
import type { Disk } from '@electron/services/disk'
import { day, verify } from './day'
import type { Acknowledged } from './day'
import type { Figure } from './figure'
import { report } from './figure'
import { chance } from './fuzz/mutate'
import { MemoryDisk } from './memoryDisk'

const FOLDER = '/home/builder/library'

/** A disk whose syncs are not done. */
function lazy(disk: Disk): Disk {
  const open = async (path: string, flags: string) =>
    ({ ...await disk.open(path, flags), sync: () => Promise.resolve() })
  return { ...disk, open: open as unknown as Disk['open'] }
}

const libraryOn = (disk: Disk): ProfileLibrary => {
  let count = 0
  return new ProfileLibrary({ folder: FOLDER, newId: () => `new-${count++}`, disk, lock: { patienceMs: 1, pollMs: 1 } })
}

async function cutAfter(operations: number, seed: number, syncs: boolean): Promise<{ wrong: string[]; done: number }> {
  const memory = new MemoryDisk()
  memory.cutAt = operations
  const acknowledged: Acknowledged = new Map()
  await day(libraryOn(syncs ? memory.disk : lazy(memory.disk)), acknowledged).catch(() => undefined)
  const done = memory.operations
  memory.cut(chance(seed), seed % 2 === 0)
  const wrong = await verify(libraryOn(memory.disk), acknowledged).catch((error: unknown) => [String(error)])
  return { wrong, done }
}

interface Count { operations: number; cuts: number; losses: number; first: string[] }

async function everyCut(draws: number, syncs: boolean): Promise<Count> {
  const { done } = await cutAfter(Infinity, 0, syncs)
  const count: Count = { operations: done, cuts: 0, losses: 0, first: [] }
  for (let operations = 1; operations <= done; operations += 1) {
    for (let draw = 0; draw < draws; draw += 1) {
      const { wrong } = await cutAfter(operations, operations * draws + draw, syncs)
      count.cuts += 1
      if (wrong.length > 0) count.losses += 1
      if (wrong.length > 0 && count.first.length < 5) count.first.push(`after operation ${operations}: ${wrong.join('; ')}`)
    }
  }
  return count
}

/** All rows of this command. */
export async function powerCutFigures(draws = 20): Promise<Figure[]> {
  const real = await everyCut(draws, true)
  for (const each of real.first) console.log(`  ${each}`)
  const without = await everyCut(2, false)
  return [
    {
      what: 'Power cut after each disk operation, on a disk that forgets what was not synced',
      figure: `${real.operations} operations, ${real.cuts} cuts, ${real.losses} with a loss`,
      good: real.losses === 0 && real.operations > 50,
    },
    {
      what: 'The same with the syncs left out (the harness must see it)',
      figure: `${without.losses} of ${without.cuts} cuts with a loss`,
      good: without.losses > 0,
    },
  ]
}

if (import.meta.url === `file://${process.argv[1]}`) {
  const { values } = parseArgs({ options: { draws: { type: 'string', default: '20' } } })
  report('Power cuts', await powerCutFigures(Number(values.draws)))
}
