/**
 * `tsx tests/harness/soak.ts [--hours N]`: the calls of a long working day sent to the loopback host one after
 * the other, without the waits between them; heap and open files are read along the way.
 */
import { randomUUID } from 'node:crypto'
import { mkdtemp, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { parseArgs } from 'node:util'
import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import { startHost } from '@electron/host'
import { createDispatch, createTable, ProfileLibrary } from '@electron/services'
import type { Figure } from './figure'
import { report } from './figure'
import { enter } from './hostClient'
import type { Call } from './hostClient'
import { sampleChassis, sampleReading, sampleSquat } from './sample'

/** One reading typed every ten seconds, and a look for the other window's changes as often. */
const READINGS_PER_HOUR = 360
/** A session is closed and the next begun after so many readings. */
const READINGS_PER_SESSION = 240
/** Most growth of the heap from the first hour to the last, MB. */
const GROWTH_MB = 8

/** The collector, so that only what is held counts. */
const collect = (() => {
  setFlagsFromString('--expose-gc')
  return runInNewContext('gc') as () => void
})()

const heapMb = (): number => {
  collect()
  collect()
  return process.memoryUsage().heapUsed / 2 ** 20
}

/** Open files of this process, where the system shows them. */
const openFiles = (): Promise<number | null> => readdir('/proc/self/fd').then((names) => names.length, () => null)

async function hour(call: Call, number: number): Promise<void> {
  for (let count = 0; count < READINGS_PER_HOUR; count += 1) {
    const total = number * READINGS_PER_HOUR + count
    const within = total % READINGS_PER_SESSION
    const readings = Array.from({ length: within + 1 }, (_, index) => index)
    const session = sampleSquat('mule', `s${Math.floor(total / READINGS_PER_SESSION)}`, readings.slice(0, -1))
    const next = { ...session, readings: [...session.readings, sampleReading(within)] }
    const saved = await call('library.saveSession', { session: next, baseRevision: within })
    if (!saved.ok || saved.value.kind !== 'saved') throw new Error(`not saved: ${JSON.stringify(saved).slice(0, 300)}`)
    await call('library.revisions', { chassisId: 'mule' })
    if (count % 60 === 0) await call('library.list', {})
    if (count % 120 === 0) await call('library.open', { chassisId: 'mule' })
    if (count % 180 === 0) await call('exchange.export', { chassisId: 'mule' })
  }
}

/** All rows of this command. */
export async function soakFigures(hours = 8): Promise<Figure[]> {
  const folder = await mkdtemp(join(tmpdir(), 'squatbench-soak-'))
  const library = new ProfileLibrary({ folder, newId: randomUUID })
  const dispatch = createDispatch(createTable({ library, version: '0.0.0', transport: 'host', printPdf: null, saveTables: null }))
  const host = await startHost({ dispatch, pageFolder: folder })
  try {
    const { call } = await enter(host.address)
    await call('library.saveChassis', { chassis: sampleChassis('mule'), baseRevision: 0 })
    const heaps: number[] = []
    const files: (number | null)[] = []
    for (let number = 0; number < hours; number += 1) {
      await hour(call, number)
      heaps.push(heapMb())
      files.push(await openFiles())
    }
    const growth = (heaps.at(-1) ?? NaN) - (heaps[0] ?? NaN)
    const handles = files[0] === null ? null : (files.at(-1) ?? 0) - (files[0] ?? 0)
    return [
      {
        what: `${hours} hours of use (${hours * READINGS_PER_HOUR} saves) through the host: heap`,
        figure: `${heaps.map((each) => each.toFixed(1)).join(', ')} MB after each hour, growth ${growth.toFixed(1)} MB`,
        good: growth < GROWTH_MB,
      },
      {
        what: `${hours} hours of use: open files`,
        figure: handles === null ? 'not shown by this system' : `${handles} more at the end than after the first hour`,
        good: handles === null || handles <= 2,
      },
    ]
  } finally {
    await host.close()
    await rm(folder, { recursive: true, force: true })
  }
}

if (import.meta.url === `file://${process.argv[1]}`) {
  const { values } = parseArgs({ options: { hours: { type: 'string', default: '8' } } })
  report('Long use', await soakFigures(Number(values.hours)))
}
