/**
 * `tsx tests/harness/odd.ts`: odd names (every character there is, very long, the same twice, differing in case
 * only), a clock that only goes backwards, a folder that can't be written to. Each through the whole table.
 */
import { readdir, utimes } from 'node:fs/promises'
import { join } from 'node:path'
import { sampleChassis, sampleExchange, sampleReading, sampleSquat } from './sample'
import type { Figure } from './figure'
import { report } from './figure'
import { libraryAt, withFolder } from './libraryAt'
import type { Opened } from './libraryAt'
import { readOnlyDisk } from './readOnly'

/** Code points of one name. */
const CHUNK = 64

/** Every code point of the basic plane and samples of the planes above, some to a name; lone surrogates too. */
function everyCharacter(): string[] {
  const above = [0x1f000, 0x1f600, 0x1f680, 0x20000, 0x2f800, 0xe0000, 0xf0000, 0x10ffc0]
  const starts = [...Array.from({ length: 0x10000 / CHUNK }, (_, index) => index * CHUNK), ...above]
  return starts.map((start) =>
    `n${Array.from({ length: CHUNK }, (_, index) => String.fromCodePoint(start + index)).join('')}n`)
}

const SPECIAL = [
  'CON', 'nul.txt', 'COM1', 'LPT9', 'aux.', '.', '..', '../../up', '..\\up', '/etc/passwd', 'C:\\x', 'a/b', 'a\\b', '%2e%2e',
  '~', '$HOME', '`id`', '$(id)', '"; DROP', '\'', '<script>', '-rf', ' . ', '...', 'name.', 'name ', '\u202eright to left',
  'e\u0301', '\u00e9', '\ufb01', '\u200b', 'I\u0307', 'ß', '__proto__', 'constructor', 'x'.repeat(200), '\ud83d\ude97'.repeat(100),
]

interface NameCount { kept: number; refused: number; wrong: string[] }

/** A name given to a chassis and a session, listed, opened, exported, imported again: it comes back as typed. */
async function tryName(at: Opened, index: number, name: string): Promise<'kept' | 'refused' | string> {
  const id = `car-${index}`
  const saved = await at.call('library.saveChassis', { chassis: sampleChassis(id, name), baseRevision: 0 })
  if (!saved.ok) return saved.error.problems[0]?.where === 'chassis.name' ? 'refused' : `refused without a path: ${saved.error.message}`
  const session = sampleSquat(id, 's', [1], name)
  const saving = await at.call('library.saveSession', { session, baseRevision: 0 })
  if (!saving.ok) return `its session was refused: ${saving.error.message}`
  const opened = await at.value('library.open', { chassisId: id })
  if (opened.chassis.name !== name.trim() || opened.sessions[0]?.name !== name.trim()) return 'opened under another name'
  const { text, fileName } = await at.value('exchange.export', { chassisId: id })
  if (!/^[\p{L}\p{M}\p{N}_-][\p{L}\p{M}\p{N}._-]{0,80}\.json$/u.test(fileName)) return `exported as ${fileName}`
  const { chassisId } = await at.value('exchange.import', { text })
  const copy = await at.value('library.open', { chassisId })
  await at.value('library.removeChassis', { chassisId })
  return copy.chassis.name === name.trim() ? 'kept' : 'imported under another name'
}

async function names(): Promise<Figure> {
  return withFolder(async (around) => {
    const at = libraryAt(join(around, 'library'))
    const all = [...everyCharacter(), ...SPECIAL]
    const count: NameCount = { kept: 0, refused: 0, wrong: [] }
    for (const [index, name] of all.entries()) {
      const came = await tryName(at, index, name)
      if (came === 'kept') count.kept += 1
      else if (came === 'refused') count.refused += 1
      else count.wrong.push(`${JSON.stringify(name)}: ${came}`)
    }
    const listed = await libraryAt(join(around, 'library')).value('library.list', {})
    if (listed.chassis.length !== count.kept) count.wrong.push(`${listed.chassis.length} of ${count.kept} are listed`)
    if ((await readdir(around)).join() !== 'library') count.wrong.push('something lies outside the library')
    const files = await readdir(join(around, 'library'), { recursive: true })
    if (files.some((file) => !/^[\w./\\-]+$/.test(file))) count.wrong.push('a name became a file name')
    for (const each of count.wrong.slice(0, 10)) console.log(`  ${each}`)
    return {
      what: 'Names with every character of Unicode’s basic plane, device names, paths, 200 characters',
      figure: `${all.length} names for chassis and session: ${count.kept} come back as typed, ${count.refused} refused in words `
        + `at their field (control characters), ${count.wrong.length} wrong`,
      good: count.wrong.length === 0 && count.kept > 1000,
    }
  })
}

/** Names that are the same, or the same but for case; and one too long. */
async function likeNames(): Promise<Figure[]> {
  return withFolder(async (folder) => {
    const at = libraryAt(folder)
    const like = ['Mule', 'mule', 'MULE', 'mULE', 'Mule', 'Mule ', 'STRASSE', 'Straße', 'straße']
    for (const [index, name] of like.entries()) {
      await at.value('library.saveChassis', { chassis: sampleChassis(`like-${index}`, name), baseRevision: 0 })
      for (const [place, other] of like.entries()) {
        const session = sampleSquat(`like-${index}`, `s${place}`, [index, place + 100], other)
        await at.value('library.saveSession', { session, baseRevision: 0 })
      }
    }
    const listed = (await libraryAt(folder).value('library.list', {})).chassis
    let whole = 0
    for (const [index, name] of like.entries()) {
      const { chassis, sessions } = await at.value('library.open', { chassisId: `like-${index}` })
      const own = sessions.every((each) => each.kind === 'squat' && each.readings.some(({ id }) => id === `r${index}`))
      if (chassis.name === name.trim() && sessions.length === like.length && own) whole += 1
    }
    const files = await readdir(folder, { recursive: true })
    const cased = files.filter((file) => file !== file.toLowerCase()).length
    const capital = await at.call('library.saveChassis', { chassis: sampleChassis('MULE'), baseRevision: 0 })
    const long = await at.call('library.saveChassis', { chassis: sampleChassis('long', 'x'.repeat(201)), baseRevision: 0 })
    const where = [capital, long].map((each) => (each.ok ? 'taken' : each.error.problems[0]?.where))
    return [
      {
        what: 'Names that are the same or differ in case only, and disks that know no case',
        figure: `${whole} of ${like.length} chassis with ${like.length} sessions each stay their own, ${listed.length} listed; `
          + `${files.length} files and folders, ${cased} with a capital in its name`,
        good: whole === like.length && listed.length === like.length && cased === 0,
      },
      {
        what: 'An id in capitals, a name of 201 characters',
        figure: `refused at ${where.join(' and at ')}`,
        good: where[0] === 'chassis.id' && where[1] === 'chassis.name',
      },
    ]
  })
}

const SAVES = 60
const HOUR_MS = 3_600_000

/** The clock, and the times of the files with it, go back by an hour before each save. */
async function clockBackwards(): Promise<Figure> {
  const { now } = Date
  return withFolder(async (folder) => {
    const wrong: string[] = []
    try {
      let atMs = now()
      Date.now = () => atMs
      const [first, second] = [libraryAt(folder), libraryAt(folder)]
      await first.value('library.saveChassis', { chassis: sampleChassis('mule'), baseRevision: 0 })
      for (let count = 0; count < SAVES; count += 1) {
        atMs -= HOUR_MS
        const window = count % 2 === 0 ? first : second
        const numbers = Array.from({ length: count + 1 }, (_, index) => index)
        const session = { ...sampleSquat('mule', 's', [], `Name ${count}`), readings: numbers.map(sampleReading) }
        const saved = await window.value('library.saveSession', { session, baseRevision: count })
        if (saved.kind !== 'saved') wrong.push(`save ${count} met a conflict`)
        const stamp = new Date(atMs)
        await utimes(join(folder, 'chassis', 'mule', 'sessions', 's.json'), stamp, stamp)
        for (const each of [first, second]) {
          const { chassis } = await each.value('library.list', {})
          if (chassis[0]?.sessionNames[0] !== `Name ${count}`) wrong.push(`the list is old after save ${count}`)
        }
      }
      const { sessions } = await libraryAt(folder).value('library.open', { chassisId: 'mule' })
      const there = sessions[0]?.kind === 'squat' ? sessions[0].readings.length : 0
      if (there !== SAVES) wrong.push(`${SAVES - there} readings are lost`)
    } finally {
      Date.now = now
    }
    for (const each of wrong.slice(0, 5)) console.log(`  ${each}`)
    return {
      what: 'A clock that goes back by an hour before each save, two windows in turn',
      figure: `${SAVES} saves, ${wrong.length} lost, refused or hidden from the list`,
      good: wrong.length === 0,
    }
  })
}

/** Every service on a folder that can't be written to: reading goes on, writing is refused in words. */
async function readOnly(): Promise<Figure> {
  return withFolder(async (folder) => {
    await libraryAt(folder).value('exchange.import', { text: JSON.stringify(sampleExchange('mule', 3)) })
    const before = await readdir(folder, { recursive: true })
    const at = libraryAt(folder, readOnlyDisk)
    const reads = [
      await at.call('library.list', {}), await at.call('library.open', { chassisId: 'mule' }),
      await at.call('library.revisions', { chassisId: 'mule' }), await at.call('exchange.export', { chassisId: 'mule' }),
      await at.call('preferences.read', {}), await at.call('app.info', {}),
    ]
    const preferences = await at.value('preferences.read', {})
    const writes = [
      await at.call('library.saveChassis', { chassis: sampleChassis('mule', 'Other'), baseRevision: 1 }),
      await at.call('library.saveSession', { session: sampleSquat('mule', 'new', [1]), baseRevision: 0 }),
      await at.call('library.removeSession', { chassisId: 'mule', sessionId: 's0' }),
      await at.call('library.removeChassis', { chassisId: 'mule' }),
      await at.call('exchange.import', { text: JSON.stringify(sampleExchange('guest', 1)) }),
      await at.call('preferences.save', { ...preferences, theme: 'dark' }),
    ]
    const answered = reads.filter((each) => each.ok).length
    const told = writes.filter((each) => !each.ok && each.error.code === 'notWritable' && each.error.message !== '').length
    const info = await at.value('app.info', {})
    const same = (await readdir(folder, { recursive: true })).join() === before.join()
    return {
      what: 'A library folder that can only be read',
      figure: `${answered} of ${reads.length} reading services answer, ${told} of ${writes.length} writing ones refuse in words, `
        + `the window is told ${info.libraryWritable ? 'nothing' : 'beforehand'}`,
      good: answered === reads.length && told === writes.length && !info.libraryWritable && same,
    }
  })
}

/** All rows of this command. */
export const oddFigures = async (): Promise<Figure[]> =>
  [await names(), ...await likeNames(), await clockBackwards(), await readOnly()]

if (import.meta.url === `file://${process.argv[1]}`) report('Odd names, clocks and folders', await oddFigures())
