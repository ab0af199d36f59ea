/** A stored document that changed without Squatbench: told, and the copy of before can be had. */
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { sealedText, unseal } from '@electron/services/seal'
import { someChassis, someSession } from '../../harness/documents'
import { libraryAt } from '../../harness/libraryAt'
import type { Opened } from '../../harness/libraryAt'

let folder: string
let at: Opened
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'squatbench-seal-'))
  at = libraryAt(folder)
  await at.value('library.saveChassis', { chassis: someChassis('a'), baseRevision: 0 })
  await at.value('library.saveSession', { session: someSession('a', 'q', 12), baseRevision: 0 })
  await at.value('library.saveSession', { session: someSession('a', 'q', 16), baseRevision: 1 })
})
afterEach(() => rm(folder, { recursive: true, force: true }))

const sessionFile = () => join(folder, 'chassis', 'a', 'sessions', 'q.json')
const chassisFile = () => join(folder, 'chassis', 'a', 'chassis.json')
const open = () => libraryAt(folder).value('library.open', { chassisId: 'a' })
const kept = () => readdir(join(folder, 'chassis', 'a', 'kept')).catch(() => [])
const SESSION = { chassisId: 'a', sessionId: 'q' }

/** Changes a digit as a fault of the disk would: the file still opens. */
async function alter(path: string): Promise<string> {
  const text = await readFile(path, 'utf8')
  const changed = text.replace(/("name": ")(\w)/, '$1X')
  expect(changed).not.toBe(text)
  await writeFile(path, changed)
  return changed
}

describe('the seal of a document', () => {
  it('is of its content: order and numbers as they were written', () => {
    const content = { b: [1.5, 1e21, -0.1, 'ä\u2028'], a: { z: null, 2: true } }
    const opened = (text: string) => unseal(JSON.parse(text), text)
    const text = sealedText(content)
    expect(opened(text)).toEqual({ content, seal: 'whole' })
    expect(opened(JSON.stringify(JSON.parse(text)))).toEqual({ content, seal: 'whole' })
    expect(opened(JSON.stringify(content)).seal).toBe('none')
    expect(opened(JSON.stringify({ ...content, digest: 'x' })).seal).toBe('broken')
    expect(opened(text.replace('1.5', '1.6')).seal).toBe('broken')
    expect(opened('[1]').seal).toBe('none')
  })

  it('tells every single changed bit that changes anything', async () => {
    const path = sessionFile()
    const whole = await readFile(path)
    const before = await open()
    const untold: number[] = []
    for (let byte = 0; byte < whole.length; byte += 7) {
      const changed = Buffer.from(whole)
      changed[byte] = (changed[byte] ?? 0) ^ (1 << (byte % 8))
      await writeFile(path, changed)
      const { sessions, altered, unreadable } = await open()
      const told = altered.length + unreadable.length === 1
      if (!told && JSON.stringify(sessions) !== JSON.stringify(before.sessions)) untold.push(byte)
    }
    expect(untold).toEqual([])
  })

  it('is not missed in files of before there were seals', async () => {
    const { content } = unseal(JSON.parse(await readFile(sessionFile(), 'utf8')), '')
    await writeFile(sessionFile(), JSON.stringify(content))
    expect(await open()).toMatchObject({ altered: [], unreadable: [], sessions: [{ id: 'q' }] })
  })
})

describe('a file that changed since it was written', () => {
  it('opens and is told, with the copy of before; opening changes nothing', async () => {
    const changed = await alter(sessionFile())
    const { altered, sessions, unreadable } = await open()
    expect([sessions.length, unreadable]).toEqual([1, []])
    expect(altered).toEqual([
      { file: 'chassis/a/sessions/q.json', why: 'it changed since Squatbench wrote it', spare: SESSION },
    ])
    expect(await readFile(sessionFile(), 'utf8')).toBe(changed)
    expect(await kept()).toEqual([])
  })

  it('is told of the car itself as well, and without a copy where there is none', async () => {
    await alter(chassisFile())
    expect((await open()).altered).toEqual([
      { file: 'chassis/a/chassis.json', why: 'it changed since Squatbench wrote it' },
    ])
  })

  it('is kept aside when the window writes over it, and does not become the copy of before', async () => {
    const changed = await alter(sessionFile())
    const spare = join(folder, 'chassis', 'a', 'spare', 'sessions', 'q.json')
    const before = await readFile(spare, 'utf8')
    await at.value('library.saveSession', { session: someSession('a', 'q', 20), baseRevision: 2 })
    expect(await kept()).toEqual(['q.altered.1.json'])
    expect(await readFile(join(folder, 'chassis', 'a', 'kept', 'q.altered.1.json'), 'utf8')).toBe(changed)
    expect(await readFile(spare, 'utf8')).toBe(before)
    expect((await open()).altered).toEqual([])
  })
})

describe('a file whose very revision changed', () => {
  it('is told, joined and kept aside: neither the window’s values nor the copy of before are lost', async () => {
    const text = await readFile(sessionFile(), 'utf8')
    const changed = text.replace('"revision": 2', '"revision": 7')
    expect(changed).not.toBe(text)
    await writeFile(sessionFile(), changed)
    expect((await open()).altered).toHaveLength(1)
    const mine = someSession('a', 'q', 20)
    const refused = await at.value('library.saveSession', { session: mine, baseRevision: 2 })
    expect(refused).toMatchObject({ kind: 'conflict', current: { revision: 7 } })
    expect(await readFile(sessionFile(), 'utf8')).toBe(changed)
    expect(await at.value('library.saveSession', { session: mine, baseRevision: 7 })).toEqual({ kind: 'saved', revision: 8 })
    expect(await kept()).toEqual(['q.altered.1.json'])
    const { altered, sessions } = await open()
    expect([altered, sessions]).toEqual([[], [{ ...mine, revision: 8 }]])
    await at.value('library.restore', SESSION)
    expect((await open()).sessions[0]).toMatchObject({ readings: someSession('a', 'q', 12).readings })
  })
})

describe('the copy of before', () => {
  it.each([['changed', alter], ['damaged', (path: string) => writeFile(path, '{"cut')]])(
    'takes the place of a %s session as a newer revision, and what stood there is kept', async (_how, spoil) => {
      await spoil(sessionFile())
      await at.value('library.restore', SESSION)
      const { sessions, altered, unreadable } = await open()
      expect([altered, unreadable]).toEqual([[], []])
      expect(sessions).toEqual([{ ...someSession('a', 'q', 12), revision: sessions[0]?.revision }])
      expect(sessions[0]?.revision).toBeGreaterThan(1)
      expect(await kept()).toHaveLength(1)
    },
  )

  it('brings a car back whose own file is damaged, from the list', async () => {
    await at.value('library.saveChassis', { chassis: { ...someChassis('a'), name: 'Later' }, baseRevision: 1 })
    await writeFile(chassisFile(), '')
    const { unreadable } = await at.value('library.list', {})
    expect(unreadable).toMatchObject([{ file: 'chassis/a/chassis.json', spare: { chassisId: 'a', sessionId: null } }])
    await at.value('library.restore', { chassisId: 'a', sessionId: null })
    expect((await at.value('library.list', {})).chassis.map(({ name }) => name)).toEqual([someChassis('a').name])
  })

  it('is not taken where it is damaged itself, or not there', async () => {
    expect(await at.call('library.restore', { chassisId: 'a', sessionId: null })).toMatchObject({ ok: false, error: { code: 'notFound' } })
    await alter(join(folder, 'chassis', 'a', 'spare', 'sessions', 'q.json'))
    await alter(sessionFile())
    expect((await open()).altered[0]).not.toHaveProperty('spare')
    expect(await at.call('library.restore', SESSION)).toMatchObject({ ok: false, error: { code: 'notFound' } })
    expect(await kept()).toEqual([])
  })

  it('does not bring a session back that was removed meanwhile', async () => {
    await at.value('library.removeSession', SESSION)
    expect(await at.call('library.restore', SESSION)).toMatchObject({ ok: false, error: { code: 'notFound' } })
    expect((await open()).sessions).toEqual([])
  })

  it('fails no save where it can’t be written', async () => {
    await rm(join(folder, 'chassis', 'a', 'spare'), { recursive: true })
    await writeFile(join(folder, 'chassis', 'a', 'spare'), '')
    const saved = await at.call('library.saveSession', { session: someSession('a', 'q', 20), baseRevision: 2 })
    expect(saved).toMatchObject({ ok: true, value: { kind: 'saved', revision: 3 } })
  })
})
