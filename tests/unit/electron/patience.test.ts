/** A disk on which something else holds files for a moment, as scanners and indexers do on Windows. */
import { mkdtemp, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { systemDisk } from '@electron/services/disk'
import type { Disk } from '@electron/services/disk'
import { someChassis, someExchange, someSession } from '../../harness/documents'
import { libraryAt } from '../../harness/libraryAt'

let folder: string
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'squatbench-patience-'))
})
afterEach(() => rm(folder, { recursive: true, force: true }))

/** Refuses the first renames of every path so many times. */
function holding(times: number, code: string): Disk {
  const left = new Map<string, number>()
  return {
    ...systemDisk,
    rename: (from, to) => {
      const before = left.get(String(from)) ?? times
      left.set(String(from), before - 1)
      if (before > 0) return Promise.reject(Object.assign(new Error(`${code}: rename`), { code, path: String(from) }))
      return systemDisk.rename(from, to)
    },
  }
}

describe.each(['EPERM', 'EACCES', 'EBUSY'])('a disk that answers %s while something holds a file', (code) => {
  it('delays saving, importing and removing, and fails none', async () => {
    const at = libraryAt(folder, holding(2, code), {}, [1, 1])
    await at.value('library.saveChassis', { chassis: someChassis('a'), baseRevision: 0 })
    await at.value('library.saveSession', { session: someSession('a', 'q', 12), baseRevision: 0 })
    await at.value('exchange.import', { text: JSON.stringify(someExchange('b', 2)) })
    await at.value('library.removeSession', { chassisId: 'a', sessionId: 'q' })
    await at.value('library.removeChassis', { chassisId: 'b' })
    expect((await at.value('library.list', {})).chassis.map(({ id }) => id)).toEqual(['a'])
    expect(await readdir(join(folder, 'removed'))).toEqual(['chassis', 'sessions'])
  })

  it('is not waited for where nothing holds files, nor for ever', async () => {
    const impatient = libraryAt(folder, holding(1, code), {}, [])
    expect(await impatient.call('library.saveChassis', { chassis: someChassis('a'), baseRevision: 0 })).toMatchObject({ ok: false })
    const held = libraryAt(folder, holding(3, code), {}, [1, 1])
    expect(await held.call('library.saveChassis', { chassis: someChassis('a'), baseRevision: 0 })).toMatchObject({ ok: false })
  })
})
