/** The library as the next version of the program would run it: one version on, one step that renames a key. */
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest'
import type { MigrationStep } from '@core/schema'
import { libraryAt } from '../../harness/libraryAt'

vi.mock(import('../../../shared-core/schema/scalars'), async (original) => ({ ...await original(), SCHEMA_VERSION: 3 as 2 }))

const schema = await import('@core/schema')
const FIXTURE = new URL('../schema/fixtures/version-2/exchange.json', import.meta.url)

let folder: string
/** The files of version 2 as they lie in a library, before the program of version 3 opens it. */
const before = new Map<string, string>()

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'squatbench-upgrade-'))
  const file = JSON.parse(await readFile(FIXTURE, 'utf8')) as { chassis: { id: string }; sessions: { id: string }[] }
  const sessions = join(folder, 'chassis', file.chassis.id, 'sessions')
  await mkdir(sessions, { recursive: true })
  before.set(join(folder, 'chassis', file.chassis.id, 'chassis.json'), JSON.stringify(file.chassis))
  for (const session of file.sessions) before.set(join(sessions, `${session.id}.json`), JSON.stringify(session))
  for (const [path, text] of before) await writeFile(path, text)
  const mark: MigrationStep = (document) => ({ ...document, note: `${String(document['note'] ?? '')} brought forward` })
  const steps = schema.MIGRATION_STEPS as unknown as Record<string, MigrationStep[]>
  steps['chassis']?.push(mark)
  steps['session']?.push(mark)
  steps['exchange']?.push((document) => document)
})
afterAll(() => rm(folder, { recursive: true, force: true }))

describe('a library of the version before', () => {
  it('opens brought forward, and its files stay as they are', async () => {
    const { chassis, sessions, unreadable } = await libraryAt(folder).value('library.open', { chassisId: 'marten' })
    expect(unreadable).toEqual([])
    expect([chassis, ...sessions].map((each) => each.schemaVersion)).toEqual([3, 3, 3, 3])
    expect([chassis, ...sessions].every((each) => each.note.endsWith('brought forward'))).toBe(true)
    for (const [path, text] of before) expect(await readFile(path, 'utf8')).toBe(text)
  })

  it('keeps the original of each file that is written anew, once', async () => {
    const at = libraryAt(folder)
    const { chassis, sessions } = await at.value('library.open', { chassisId: 'marten' })
    const squat = sessions.find((session) => session.kind === 'squat')
    if (squat === undefined) throw new Error('the fixture holds a squat test')
    for (const count of [0, 1]) {
      const baseRevision = squat.revision + count
      const saved = await at.value('library.saveSession', { session: { ...squat, name: `Name ${count}` }, baseRevision })
      expect(saved).toEqual({ kind: 'saved', revision: baseRevision + 1 })
    }
    await at.value('library.saveChassis', { chassis, baseRevision: chassis.revision })
    const kept = join(folder, 'chassis', 'marten', 'kept')
    expect((await readdir(kept)).sort()).toEqual(['chassis.version-2.json', 'squat.version-2.json'])
    const originals = [...before.entries()]
    for (const name of ['chassis', 'squat']) {
      const [, text] = originals.find(([path]) => path.endsWith(`${name}.json`)) ?? []
      expect(await readFile(join(kept, `${name}.version-2.json`), 'utf8')).toBe(text)
    }
    const { sessions: after } = await libraryAt(folder).value('library.open', { chassisId: 'marten' })
    expect(after.find((session) => session.kind === 'squat')?.name).toBe('Name 1')
  })

  it('takes an exchange file of the version before', async () => {
    const text = await readFile(FIXTURE, 'utf8')
    const taken = await libraryAt(folder).value('exchange.import', { text })
    expect(taken.renamedFrom).toBe('marten')
    const { chassis, sessions } = await libraryAt(folder).value('library.open', { chassisId: taken.chassisId })
    expect([chassis, ...sessions].map((each) => each.schemaVersion)).toEqual([3, 3, 3, 3])
  })

  it('refuses the version after it in words', async () => {
    const text = JSON.stringify({ ...JSON.parse(await readFile(FIXTURE, 'utf8')) as object, schemaVersion: 4 })
    const answer = await libraryAt(folder).call('exchange.import', { text })
    expect(answer.ok ? '' : answer.error.message).toContain('file version 4, this one knows up to 3')
  })
})
