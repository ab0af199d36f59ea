/** A library that a full disk, a kill, another program or another user got at. */
import { execFileSync } from 'node:child_process'
import { mkdir, mkdtemp, readdir, readFile, rename, rm, stat, symlink, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { systemDisk } from '@electron/services/disk'
import type { Disk } from '@electron/services/disk'
import { LibraryLock } from '@electron/services/lock'
import { someChassis, someReading, someSession } from '../../harness/documents'
import { libraryAt } from '../../harness/libraryAt'
import type { Opened } from '../../harness/libraryAt'

let folder: string
let at: Opened
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'squatbench-attacked-'))
  at = libraryAt(folder)
  await at.value('library.saveChassis', { chassis: someChassis('a'), baseRevision: 0 })
  await at.value('library.saveSession', { session: someSession('a', 'q', 12), baseRevision: 0 })
})
afterEach(() => rm(folder, { recursive: true, force: true }))

const chassisFile = () => join(folder, 'chassis', 'a', 'chassis.json')
const sessionFile = () => join(folder, 'chassis', 'a', 'sessions', 'q.json')
const saveSession = (library = at) => library.call('library.saveSession', { session: someSession('a', 'q', 16), baseRevision: 1 })
const saveChassis = (library = at) => library.call('library.saveChassis', { chassis: someChassis('a'), baseRevision: 1 })

/** Fails once, at the first operation that fits. */
function failingOnce(what: 'write' | 'rename', fits: (path: string) => boolean): Disk {
  let failed = false
  const fail = (path: string): void => {
    if (failed || !fits(path)) return
    failed = true
    throw Object.assign(new Error('ENOSPC: no space left on device'), { code: 'ENOSPC', path })
  }
  return {
    ...systemDisk,
    open: (async (path: string, flags: string) => {
      if (what === 'write' && flags === 'wx') fail(path)
      return systemDisk.open(path, flags)
    }) as Disk['open'],
    rename: async (from, to) => {
      if (what === 'rename') fail(String(to))
      await systemDisk.rename(from, to)
    },
  }
}

describe.each([
  ['session', sessionFile, saveSession], ['chassis', chassisFile, saveChassis],
] as const)('a damaged %s file', (_kind, file, save) => {
  beforeEach(() => writeFile(file(), '{"cut'))

  it('that meets a full disk stays where it is, and is saved once there is space', async () => {
    const full = libraryAt(folder, failingOnce('write', (path) => path.startsWith(file())))
    expect(await save(full)).toMatchObject({ ok: false, error: { code: 'noSpace' } })
    expect(await readFile(file(), 'utf8')).toBe('{"cut')
    expect(await save(full)).toMatchObject({ ok: true, value: { kind: 'saved', revision: 2 } })
    expect((await readdir(join(folder, 'chassis', 'a', 'kept'))).length).toBe(1)
  })

  it('whose mending was killed halfway is saved by the same window and by the next one', async () => {
    // The damaged file is put aside, and then the process dies before the new one has its name.
    const killed = libraryAt(folder, failingOnce('rename', (path) => path === file()))
    expect(await save(killed)).toMatchObject({ ok: false })
    expect(await readdir(join(file(), '..'))).not.toContain(file().split('/').at(-1))
    expect(await save()).toMatchObject({ ok: true, value: { kind: 'saved', revision: 2 } })
    const [kept = ''] = await readdir(join(folder, 'chassis', 'a', 'kept'))
    expect(await readFile(join(folder, 'chassis', 'a', 'kept', kept), 'utf8')).toBe('{"cut')
  })
})

describe('what is not in the library any more', () => {
  it('is said to lie in the removed folder only where it lies there', async () => {
    await at.value('library.removeSession', { chassisId: 'a', sessionId: 'q' })
    const removed = await saveSession()
    expect(removed).toMatchObject({ ok: false, error: { code: 'notFound', message: expect.stringContaining('"removed" folder;') } })
    await rm(join(folder, 'removed'), { recursive: true })
    const taken = await saveSession()
    expect(taken).toMatchObject({ ok: false, error: { code: 'notFound', message: expect.stringContaining('not in its "removed"') } })
  })

  it('is not made anew where it was damaged once, mended, and then removed', async () => {
    await writeFile(sessionFile(), '{"cut')
    await saveSession()
    await at.value('library.removeSession', { chassisId: 'a', sessionId: 'q' })
    const session = { ...someSession('a', 'q', 16), readings: [someReading(1)] }
    expect(await at.call('library.saveSession', { session, baseRevision: 2 })).toMatchObject({ ok: false, error: { code: 'notFound' } })
  })

  it('is the whole library, and so it is said, where its folder is gone', async () => {
    await rename(folder, `${folder}-moved`)
    for (const save of [saveSession, saveChassis]) {
      expect(await save()).toMatchObject({ ok: false, error: { code: 'libraryGone', problems: [{ where: folder }] } })
    }
    await rm(folder, { recursive: true, force: true })
    await rename(`${folder}-moved`, folder)
    expect(await saveSession()).toMatchObject({ ok: true })
  })
})

if (process.platform === 'win32') console.log('Tests of pipes and of other users are skipped: Windows has neither.')

describe.skipIf(process.platform === 'win32')('what is no plain file', () => {
  const pipe = (path: string): void => void execFileSync('mkfifo', [path])

  it.each([
    ['a pipe', pipe], ['a link to a device', (path: string) => symlink('/dev/zero', path)], ['a folder', (path: string) => mkdir(path)],
  ])('is refused at once, where %s stands for a session, a car, the list and the preferences', async (_case, lay) => {
    await lay(join(folder, 'chassis', 'a', 'sessions', 'pipe.json'))
    const opened = await at.value('library.open', { chassisId: 'a' })
    expect(opened.sessions.map(({ id }) => id)).toEqual(['q'])
    expect(opened.unreadable).toEqual([{ file: 'chassis/a/sessions/pipe.json', why: 'it is no plain file' }])
    expect((await at.value('library.list', {})).chassis).toHaveLength(1)
    await at.value('library.revisions', { chassisId: 'a' })
    await mkdir(join(folder, 'chassis', 'b'), { recursive: true })
    await lay(join(folder, 'chassis', 'b', 'chassis.json'))
    expect((await at.value('library.list', {})).unreadable)
      .toEqual([{ file: 'chassis/b/chassis.json', why: 'it is no plain file' }])
    await rm(join(folder, 'index.json'))
    await lay(join(folder, 'index.json'))
    expect((await libraryAt(folder).value('library.list', {})).chassis).toHaveLength(1)
    await lay(join(folder, 'preferences.json'))
    expect(await at.call('preferences.read', {})).toMatchObject({ ok: false, error: { message: expect.stringContaining('no plain file') } })
  }, 10_000)

  it('does not stop the lock', async () => {
    await mkdir(join(folder, 'other'))
    pipe(join(folder, 'other', '4.held'))
    const lock = new LibraryLock(systemDisk, join(folder, 'other'), { patienceMs: 40 })
    expect(await lock.run(() => Promise.resolve('done'))).toBe('done')
  }, 10_000)
})

describe.skipIf(process.platform === 'win32')('other users of the machine', () => {
  it('can’t look into what the library made', async () => {
    const own = join(folder, 'new', 'library')
    const fresh = libraryAt(own)
    await fresh.value('library.saveChassis', { chassis: someChassis('a'), baseRevision: 0 })
    for (const path of [own, join(own, 'chassis'), join(own, 'chassis', 'a'), join(own, '.lock')]) {
      expect([path, (await stat(path)).mode & 0o077]).toEqual([path, 0])
    }
  })
})

describe('a lock with a number that nobody reaches by counting', () => {
  it.each([
    ['999999999999999.held'], ['999999999999999.free'], ['999999999999999.held', '999999999999999.free'],
    ['1000000000000000.held'], ['999999999999998.free'], ['99999999999999999999.free'],
  ])('stops no write: %s %s', async (...files) => {
    const place = join(folder, 'lock')
    await mkdir(place)
    for (const file of files) await writeFile(join(place, file), '')
    const lock = new LibraryLock(systemDisk, place, { patienceMs: 30, pollMs: 1 })
    let inside = 0
    for (let turn = 0; turn < 4; turn += 1) await lock.run(() => Promise.resolve(inside += 1))
    await Promise.all([1, 2, 3].map(() => new LibraryLock(systemDisk, place, { pollMs: 1 }).run(async () => {
      inside += 1
      await new Promise((done) => setTimeout(done, 2))
    })))
    expect(inside).toBe(7)
  }, 10_000)
})
