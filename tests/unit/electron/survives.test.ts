/** What a library survives: power cuts, a read-only folder, a clock that goes backwards, newer files, many files. */
import { randomUUID } from 'node:crypto'
import { mkdtemp, readdir, readFile, rm, utimes, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { createDispatch, createTable, ProfileLibrary } from '@electron/services'
import { systemDisk } from '@electron/services/disk'
import type { Disk } from '@electron/services/disk'
import { powerCutFigures } from '../../harness/powerCut'
import { readOnlyDisk } from '../../harness/readOnly'
import { sampleChassis, sampleExchange, sampleSquat } from '../../harness/sample'

let folder: string

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'squatbench-survives-'))
})

afterEach(() => rm(folder, { recursive: true, force: true }))

const library = (disk: Disk = systemDisk) => new ProfileLibrary({ folder, newId: randomUUID, disk })

describe('power cuts', () => {
  it('lose nothing that was acknowledged, after any operation', async () => {
    const [cuts, withoutSyncs] = await powerCutFigures(2)
    expect(cuts).toMatchObject({ good: true, figure: expect.stringContaining(' 0 with a loss') as string })
    expect(withoutSyncs?.good).toBe(true)
  })
})

describe('a folder that can only be read', () => {
  it('lists and opens, says that it can’t be written to, and refuses a save in words', async () => {
    await library().import(sampleExchange('mule', 2))
    const table = createTable({ library: library(readOnlyDisk), version: '0.0.0', transport: 'host', printPdf: null, saveTables: null })
    const dispatch = createDispatch(table)
    expect(await dispatch('library.list', {})).toMatchObject({ ok: true, value: { chassis: [{ id: 'mule', sessionCount: 2 }] } })
    expect(await dispatch('library.open', { chassisId: 'mule' })).toMatchObject({ ok: true })
    expect(await dispatch('app.info', {})).toMatchObject({ ok: true, value: { libraryWritable: false } })
    const refused = await dispatch('library.saveSession', { session: sampleSquat('mule', 'new', [1]), baseRevision: 0 })
    expect(refused).toMatchObject({
      ok: false, error: { code: 'notWritable', message: expect.stringContaining('Make the library folder writable') as string },
    })
  })
})

describe('a clock that goes backwards', () => {
  it('hides no change from the list, and takes saves', async () => {
    await library().import(sampleExchange('mule', 1))
    const early = new Date('2001-01-01T00:00:00.000Z')
    const file = join(folder, 'chassis', 'mule', 'chassis.json')
    const late = new Date('2090-01-01T00:00:00.000Z')
    await utimes(file, late, late)
    await library().list()
    const saved = await library().saveChassis(sampleChassis('mule', 'Renamed'), 1)
    expect(saved).toEqual({ kind: 'saved', revision: 2 })
    await utimes(file, early, early)
    const { chassis } = await library().list()
    expect(chassis.map((each) => each.name)).toEqual(['Renamed'])
    expect((await library().open('mule')).chassis.revision).toBe(2)
  })
})

describe('a newer file', () => {
  it('is refused in words and stays as it is, while the rest opens', async () => {
    await library().import(sampleExchange('mule', 2))
    const path = join(folder, 'chassis', 'mule', 'sessions', 's0.json')
    const newer = (await readFile(path, 'utf8')).replace('"schemaVersion": 2', '"schemaVersion": 3')
    await writeFile(path, newer)
    const opened = await library().open('mule')
    expect(opened.sessions.map((each) => each.id)).toEqual(['s1'])
    expect(opened.unreadable).toEqual([
      { file: 'chassis/mule/sessions/s0.json', why: expect.stringContaining('newer Squatbench') as string },
    ])
    await expect(library().saveSession(sampleSquat('mule', 's0', [1]), 1)).rejects.toMatchObject({ code: 'newerVersion' })
    expect(await readFile(path, 'utf8')).toBe(newer)
  })
})

describe('a large chassis', () => {
  it('of two thousand sessions opens with few files open at once', async () => {
    let open = 0
    let most = 0
    const counting: Disk = {
      ...systemDisk,
      readFile: (async (path: string, options: 'utf8') => {
        open += 1
        most = Math.max(most, open)
        try {
          return await systemDisk.readFile(path, options)
        } finally {
          open -= 1
        }
      }) as Disk['readFile'],
    }
    await library().import(sampleExchange('mule', 2000, 1))
    expect((await library(counting).open('mule')).sessions).toHaveLength(2000)
    expect(Object.keys((await library(counting).revisions('mule')).sessions)).toHaveLength(2000)
    expect(most).toBeLessThan(200)
    expect(await readdir(join(folder, 'chassis', 'mule', 'sessions'))).toHaveLength(2000)
  }, 60_000)
})
