import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { Session } from '@core/schema'
import { exchangeFileName } from '@electron/services/library'
import { someChassis, someExchange, someReading, someSession } from '../../harness/documents'
import { libraryAt } from '../../harness/libraryAt'
import type { Opened } from '../../harness/libraryAt'

let folder: string
let at: Opened
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'squatbench-library-'))
  at = libraryAt(folder)
})
afterEach(() => rm(folder, { recursive: true, force: true }))

const save = (id: string) => at.value('library.saveChassis', { chassis: someChassis(id), baseRevision: 0 })
const saveSession = (session: Session, baseRevision = 0) => at.value('library.saveSession', { session, baseRevision })

describe('a library that is new', () => {
  it('lists nothing and makes nothing', async () => {
    const lost = libraryAt(join(folder, 'not', 'there'))
    expect(await lost.value('library.list', {})).toEqual({ chassis: [], unreadable: [] })
    expect(await readdir(folder)).toEqual([])
  })

  it('says what is missing where a chassis is not there', async () => {
    const answer = await at.call('library.open', { chassisId: 'none' })
    expect(answer).toMatchObject({ ok: false, error: { code: 'notFound' } })
  })
})

describe('saving and opening', () => {
  it('gives back what was saved, with its revision', async () => {
    expect(await save('a')).toEqual({ kind: 'saved', revision: 1 })
    expect(await saveSession(someSession('a', 'q', 12))).toEqual({ kind: 'saved', revision: 1 })
    const opened = await libraryAt(folder).value('library.open', { chassisId: 'a' })
    expect(opened.chassis).toEqual({ ...someChassis('a'), revision: 1 })
    expect(opened.sessions).toEqual([{ ...someSession('a', 'q', 12), revision: 1 }])
    expect(opened.unreadable).toEqual([])
  })

  it('keeps sessions as files of their own, named by id, and leaves no temporary file', async () => {
    await save('a')
    await saveSession(someSession('a', 'q', 4, '../../odd: "name" \\ / * ?'))
    expect(await readdir(join(folder, 'chassis', 'a', 'sessions'))).toEqual(['q.json'])
    expect((await readdir(join(folder, 'chassis', 'a'))).sort()).toEqual(['chassis.json', 'sessions'])
  })

  it('refuses a session of a chassis that is not there', async () => {
    const answer = await at.call('library.saveSession', { session: someSession('none', 'q'), baseRevision: 0 })
    expect(answer).toMatchObject({ ok: false, error: { code: 'notFound' } })
  })

  it('opens the rest where a session file is damaged, and names the file', async () => {
    await save('a')
    await saveSession(someSession('a', 'good'))
    await saveSession(someSession('a', 'bad'))
    await writeFile(join(folder, 'chassis', 'a', 'sessions', 'bad.json'), '{"schemaVersion":1,')
    const opened = await at.value('library.open', { chassisId: 'a' })
    expect(opened.sessions.map((session) => session.id)).toEqual(['good'])
    expect(opened.unreadable).toEqual([
      { file: 'chassis/a/sessions/bad.json', why: expect.stringContaining('not JSON') as string },
    ])
    expect(await readFile(join(folder, 'chassis', 'a', 'sessions', 'bad.json'), 'utf8')).toBe('{"schemaVersion":1,')
  })

  it('names the field where a session file does not fit', async () => {
    await save('a')
    await saveSession(someSession('a', 'q'))
    const file = join(folder, 'chassis', 'a', 'sessions', 'q.json')
    const broken = JSON.parse(await readFile(file, 'utf8')) as { readings: { shownMm: number }[] }
    broken.readings[2]!.shownMm = 5e6
    await writeFile(file, JSON.stringify(broken))
    const { unreadable } = await at.value('library.open', { chassisId: 'a' })
    expect(unreadable[0]?.why).toBe('readings[2].shownMm: not above 1000')
  })

  it('does not overwrite a damaged file: it is kept beside the new one', async () => {
    await save('a')
    await saveSession(someSession('a', 'q'))
    const file = join(folder, 'chassis', 'a', 'sessions', 'q.json')
    await writeFile(file, 'torn')
    expect(await saveSession(someSession('a', 'q', 8), 1)).toEqual({ kind: 'saved', revision: 2 })
    expect(await readFile(join(folder, 'chassis', 'a', 'kept', 'q.unreadable.1.json'), 'utf8')).toBe('torn')
  })

  it('refuses to write over a file of a newer version, with words', async () => {
    await save('a')
    const file = join(folder, 'chassis', 'a', 'chassis.json')
    const newer = JSON.stringify({ ...someChassis('a'), schemaVersion: 99 })
    await writeFile(file, newer)
    const saved = await at.call('library.saveChassis', { chassis: someChassis('a'), baseRevision: 1 })
    expect(saved).toMatchObject({ ok: false, error: { code: 'newerVersion' } })
    const opened = await at.call('library.open', { chassisId: 'a' })
    expect(opened).toMatchObject({ ok: false, error: { code: 'newerVersion' } })
    expect(opened.ok ? '' : opened.error.message).toContain('newer Squatbench (file version 99')
    expect(await readFile(file, 'utf8')).toBe(newer)
  })

  it('tells a file that lies under the wrong name', async () => {
    await save('a')
    await mkdir(join(folder, 'chassis', 'b'))
    await writeFile(join(folder, 'chassis', 'b', 'chassis.json'), JSON.stringify(someChassis('a')))
    const { chassis, unreadable } = await at.value('library.list', {})
    expect(chassis.map((each) => each.id)).toEqual(['a'])
    expect(unreadable).toEqual([
      { file: 'chassis/b/chassis.json', why: 'it says it is the chassis "a", its folder says "b"' },
    ])
  })

  it('makes usable files of ids that Windows keeps for devices', async () => {
    await save('con')
    await saveSession(someSession('con', 'aux'))
    expect(await readdir(join(folder, 'chassis'))).toEqual(['con_'])
    expect((await at.value('library.open', { chassisId: 'con' })).sessions[0]?.id).toBe('aux')
    expect((await at.value('library.list', {})).chassis[0]?.id).toBe('con')
  })
})

describe('two windows on one chassis', () => {
  it('tells the second writer what is there now', async () => {
    await save('a')
    await saveSession(someSession('a', 'q'))
    const other = libraryAt(folder)
    const first = { ...someSession('a', 'q', 8), revision: 1 }
    expect(await saveSession(first, 1)).toEqual({ kind: 'saved', revision: 2 })
    const late = await other.value('library.saveSession', { session: someSession('a', 'q', 16), baseRevision: 1 })
    expect(late).toEqual({ kind: 'conflict', current: { ...first, revision: 2 } })
    expect((await at.value('library.open', { chassisId: 'a' })).sessions[0]).toEqual({ ...first, revision: 2 })
  })

  it('takes a save that is repeated because its answer was lost as done', async () => {
    await save('a')
    const session = someSession('a', 'q')
    await saveSession(session)
    expect(await saveSession(session)).toEqual({ kind: 'saved', revision: 1 })
  })

  it('loses no reading of two libraries that write at once and merge on conflict', async () => {
    await save('a')
    await saveSession(someSession('a', 'q', 0))
    const add = async (window: Opened, from: number) => {
      for (let index = from; index < from + 20; index += 1) {
        for (;;) {
          const { sessions } = await window.value('library.open', { chassisId: 'a' })
          const current = sessions[0]
          if (current?.kind !== 'squat') throw new Error('the session is gone')
          const session = { ...current, readings: [...current.readings, someReading(index)] }
          const outcome = await window.value('library.saveSession', { session, baseRevision: current.revision })
          if (outcome.kind === 'saved') break
        }
      }
    }
    await Promise.all([add(libraryAt(folder), 0), add(libraryAt(folder), 100)])
    const { sessions } = await at.value('library.open', { chassisId: 'a' })
    const ids = sessions[0]?.kind === 'squat' ? sessions[0].readings.map((reading) => reading.id) : []
    expect(new Set(ids).size).toBe(40)
  })

  it('shows the other window’s revisions', async () => {
    await save('a')
    await saveSession(someSession('a', 'q'))
    expect(await at.value('library.revisions', { chassisId: 'a' })).toEqual({ chassis: 1, sessions: { q: 1 } })
    await libraryAt(folder).value('library.saveSession', { session: someSession('a', 'q', 8), baseRevision: 1 })
    expect(await at.value('library.revisions', { chassisId: 'a' })).toEqual({ chassis: 1, sessions: { q: 2 } })
  })

  it('says so where the chassis was removed by the other', async () => {
    await save('a')
    await libraryAt(folder).value('library.removeChassis', { chassisId: 'a' })
    const answer = await at.call('library.saveChassis', { chassis: someChassis('a'), baseRevision: 1 })
    expect(answer).toMatchObject({ ok: false, error: { code: 'notFound' } })
    expect(answer.ok ? '' : answer.error.message).toContain('removed meanwhile')
  })
})

describe('the list', () => {
  it('is in the order of the names, with session names, and follows every change', async () => {
    await at.value('library.saveChassis', { chassis: someChassis('x', 'Zebra'), baseRevision: 0 })
    await at.value('library.saveChassis', { chassis: someChassis('y', 'ähnlich'), baseRevision: 0 })
    await saveSession(someSession('x', 'q', 4, 'First'))
    const listed = async () => (await at.value('library.list', {})).chassis
    expect((await listed()).map((each) => each.name)).toEqual(['ähnlich', 'Zebra'])
    expect((await listed())[1]).toMatchObject({ sessionCount: 1, sessionNames: ['First'] })
    await saveSession(someSession('x', 'q', 4, 'Renamed'), 1)
    expect((await listed())[1]?.sessionNames).toEqual(['Renamed'])
    await at.value('library.removeSession', { chassisId: 'x', sessionId: 'q' })
    expect((await listed())[1]?.sessionCount).toBe(0)
    await at.value('library.removeChassis', { chassisId: 'x' })
    expect((await listed()).map((each) => each.id)).toEqual(['y'])
  })

  it('is built again where the index is lost or damaged', async () => {
    await save('a')
    const whole = await at.value('library.list', {})
    for (const damage of [() => rm(join(folder, 'index.json')), () => writeFile(join(folder, 'index.json'), '{"x"')]) {
      await damage()
      expect(await libraryAt(folder).value('library.list', {})).toEqual(whole)
    }
  })

  it('names what it could not read', async () => {
    await mkdir(join(folder, 'chassis', 'Not an Id'), { recursive: true })
    await mkdir(join(folder, 'chassis', 'orphan', 'sessions'), { recursive: true })
    await writeFile(join(folder, 'chassis', 'orphan', 'sessions', 'q.json'), '{}')
    const { chassis, unreadable } = await at.value('library.list', {})
    expect(chassis).toEqual([])
    expect(unreadable.map(({ file }) => file)).toEqual(['chassis/Not an Id', 'chassis/orphan'])
  })
})

describe('removing', () => {
  it('deletes nothing: each removed thing has a place of its own', async () => {
    for (const count of [1, 2]) {
      await save('a')
      await saveSession(someSession('a', 'q', 4 * count))
      await at.value('library.removeSession', { chassisId: 'a', sessionId: 'q' })
      await at.value('library.removeChassis', { chassisId: 'a' })
    }
    expect((await readdir(join(folder, 'removed', 'sessions', 'a'))).sort()).toEqual(['q.1.json', 'q.2.json'])
    expect((await readdir(join(folder, 'removed', 'chassis'))).sort()).toEqual(['a.1', 'a.2'])
  })

  it('says so where there is nothing to remove', async () => {
    await save('a')
    const answer = await at.call('library.removeSession', { chassisId: 'a', sessionId: 'none' })
    expect(answer).toMatchObject({ ok: false, error: { code: 'notFound' } })
  })
})

describe('exchange files', () => {
  it('come back equal after export, removal and import', async () => {
    await save('a')
    await saveSession(someSession('a', 'q', 12))
    const before = await at.value('library.open', { chassisId: 'a' })
    const { text, fileName } = await at.value('exchange.export', { chassisId: 'a' })
    expect(fileName).toBe('squatbench-Car-a.json')
    await at.value('library.removeChassis', { chassisId: 'a' })
    expect(await at.value('exchange.import', { text })).toEqual({ chassisId: 'a', renamedFrom: null })
    expect(await at.value('library.open', { chassisId: 'a' })).toEqual(before)
  })

  it('get a new chassis id where theirs is taken, and say so', async () => {
    const text = JSON.stringify(someExchange('a', 2))
    await at.value('exchange.import', { text })
    expect(await at.value('exchange.import', { text })).toEqual({ chassisId: 'fresh-1', renamedFrom: 'a' })
    const copy = await at.value('library.open', { chassisId: 'fresh-1' })
    expect(copy.sessions.map((session) => session.chassisId)).toEqual(['fresh-1', 'fresh-1'])
    expect((await at.value('library.list', {})).chassis).toHaveLength(2)
  })

  it('are refused with the path of each bad field, and leave nothing behind', async () => {
    const file = someExchange('a', 2)
    const bad = { ...file, sessions: [file.sessions[0], { ...file.sessions[1], chassisId: 'b', name: '' }] }
    const answer = await at.call('exchange.import', { text: JSON.stringify(bad) })
    expect(answer.ok ? [] : answer.error.problems).toEqual([
      { where: 'sessions[1].name', what: 'give it a name', code: 'textMissing', limit: '1' },
      { where: 'sessions[1].chassisId', what: 'names the chassis "b", but this file holds "a"', code: 'otherChassis' },
    ])
    expect(await readdir(folder)).toEqual([])
  })

  it('of a newer version are refused with words', async () => {
    const text = JSON.stringify({ ...someExchange('a'), schemaVersion: 3 })
    const answer = await at.call('exchange.import', { text })
    expect(answer).toMatchObject({ ok: false, error: { code: 'newerVersion' } })
  })

  it('are not written where a session would be left out in silence', async () => {
    await save('a')
    await saveSession(someSession('a', 'q'))
    await writeFile(join(folder, 'chassis', 'a', 'sessions', 'q.json'), 'torn')
    const answer = await at.call('exchange.export', { chassisId: 'a' })
    expect(answer.ok ? [] : answer.error.problems.map(({ where }) => where)).toEqual(['chassis/a/sessions/q.json'])
  })

  it.each([
    ['Blue car', 'squatbench-Blue-car.json'],
    ['../../etc/passwd', 'squatbench-etc-passwd.json'],
    ['日本 №1', 'squatbench-日本-1.json'],
    ['???', 'squatbench-chassis.json'],
    ['x'.repeat(200), `squatbench-${'x'.repeat(60)}.json`],
  ])('of %s are named %s', (name, fileName) => {
    expect(exchangeFileName(name)).toBe(fileName)
  })
})

describe('preferences', () => {
  it('start with the defaults, are kept, and fall back one by one', async () => {
    const defaults = await at.value('preferences.read', {})
    expect(defaults.language).toBe('en')
    await at.value('preferences.save', { ...defaults, theme: 'dark', force: 'gramForce' })
    expect(await libraryAt(folder).value('preferences.read', {})).toMatchObject({ theme: 'dark', force: 'gramForce' })
    await writeFile(join(folder, 'preferences.json'), '{"theme":"dark","force":"stone","new":1}')
    expect(await at.value('preferences.read', {})).toEqual({ ...defaults, theme: 'dark' })
    await writeFile(join(folder, 'preferences.json'), 'torn')
    expect(await at.value('preferences.read', {})).toEqual(defaults)
  })
})

describe('the program', () => {
  it('tells its version and that it can write', async () => {
    expect(await at.value('app.info', {})).toEqual({
      version: '0.0.0', transport: 'host', canMakePdf: false, libraryWritable: true,
    })
  })

  it('tells its library by the folder, the same at every start and without its name', async () => {
    const { libraryId } = await at.value('library.identity', {})
    expect(await libraryAt(folder).value('library.identity', {})).toEqual({ libraryId })
    expect(await libraryAt(join(folder, 'other')).value('library.identity', {})).not.toEqual({ libraryId })
    expect(libraryId).toMatch(/^[0-9a-f]{16}$/)
  })

  it('tells that it can’t write where the folder is no folder', async () => {
    await writeFile(join(folder, 'file'), '')
    const lost = libraryAt(join(folder, 'file', 'library'))
    expect((await lost.value('app.info', {})).libraryWritable).toBe(false)
  })
})
