/**
 * The profile library: a folder with one folder per chassis, in it `chassis.json` and one file per
 * session. Every write is whole or not there, acknowledged only when it is on the disk, and made
 * from a stated revision, so that two windows can't undo each other's work.
 */
import { createHash } from 'node:crypto'
import { basename, join, resolve } from 'node:path'
import { z } from 'zod'
import type { Chassis, Exchange, Session } from '@core/schema'
import { EXCHANGE_FORMAT, readJson, SCHEMA_VERSION } from '@core/schema'
import type { DocumentPlace, ServiceOutput, Unreadable } from '@core/services'
import { isOld, readChassis, readSession, readSpare, withSpare } from './documents'
import type { Found } from './documents'
import {
  makeFolder, namesIn, NotReadable, PART_ENDING, patient, readText, syncFolder, systemDisk, writeSpare, writeSynced,
  writeWhole,
} from './disk'
import type { Disk } from './disk'
import { isMissing, ServiceFailure } from './failure'
import { idOfSessionFile, layout } from './layout'
import type { Layout } from './layout'
import { LibraryIndex } from './libraryIndex'
import { LibraryLock } from './lock'
import type { LockOptions, StillHeld } from './lock'
import { fileText, sealedText } from './seal'
import { someAtATime } from './someAtATime'
import { stampOf } from './stamp'

export interface LibraryOptions {
  /** The library's folder; made at the first write. */
  folder: string
  /** Makes a fresh identifier. */
  newId: () => string
  disk?: Disk
  /** Waits between tries of a rename that another program stands in the way of, ms; else the system's usual ones. */
  renameWaitsMs?: readonly number[]
  lock?: Partial<LockOptions>
}

type Saved<T> = { kind: 'saved'; revision: number } | { kind: 'conflict'; current: T }

export class ProfileLibrary {
  readonly folder: string
  /** The same for the same folder at every start: 16 hexadecimal digits that tell nothing of its name. */
  readonly id: string
  private readonly at: Layout
  private readonly disk: Disk
  private readonly newId: () => string
  private readonly lock: LibraryLock
  private readonly index: LibraryIndex
  private readonly swept = new Set<string>()
  private readonly revisionsRead = new Map<string, { stamp: string; revision: number | null }>()

  constructor(options: LibraryOptions) {
    this.folder = options.folder
    this.id = createHash('sha256').update(resolve(options.folder)).digest('hex').slice(0, 16)
    this.at = layout(options.folder)
    this.disk = patient(options.disk ?? systemDisk, options.renameWaitsMs)
    this.newId = options.newId
    this.lock = new LibraryLock(this.disk, this.at.lock, options.lock)
    this.index = new LibraryIndex(this.disk, this.at)
  }

  /** Every chassis with the names of its sessions, and the files that could not be read. */
  list(): Promise<ServiceOutput<'library.list'>> {
    return this.index.list()
  }

  /**
   * One chassis with its sessions, oldest first; a session file that can't be read is named, the rest opens.
   * @throws ServiceFailure `notFound`, `newerVersion`, or `failed` where `chassis.json` can't be read
   */
  async open(chassisId: string): Promise<ServiceOutput<'library.open'>> {
    const chassis = await this.chassisOrThrow(chassisId)
    const files = await namesIn(this.disk, this.at.sessionsFolder(chassisId))
    const read = await someAtATime(files, async (file) => ({ file, found: await this.sessionOfFile(chassisId, file) }))
    const place = this.place(chassisId)
    const unreadable: Unreadable[] = []
    const altered: Unreadable[] = []
    const sessions: Session[] = []
    if (chassis.altered) altered.push(await this.told(`${place}/chassis.json`, ALTERED, chassisId, null))
    for (const { file, found } of read) {
      if (found.kind === 'missing') continue
      const path = `${place}/sessions/${file}`
      const sessionId = idOfSessionFile(file)
      if (found.kind !== 'opened') unreadable.push(await this.told(path, found.why, chassisId, sessionId))
      else if (found.altered) altered.push(await this.told(path, ALTERED, chassisId, sessionId))
      if (found.kind === 'opened') sessions.push(found.document)
    }
    sessions.sort((a, b) => (a.createdAt === b.createdAt ? compare(a.id, b.id) : compare(a.createdAt, b.createdAt)))
    return { chassis: chassis.document, sessions, unreadable, altered }
  }

  /** What is said of a session's file, or of the chassis' own (`sessionId` null and the file no session's). */
  private async told(file: string, why: string, chassisId: string, sessionId: string | null): Promise<Unreadable> {
    if (sessionId === null && !file.endsWith('/chassis.json')) return { file, why }
    return withSpare(this.disk, this.at, { file, why }, { chassisId, sessionId })
  }

  /** The revisions as they stand on the disk; a file that did not change since is not read again. */
  async revisions(chassisId: string): Promise<ServiceOutput<'library.revisions'>> {
    const chassis = await this.revisionOf(this.at.chassisFile(chassisId))
    if (chassis === null) throw noChassis(chassisId)
    const ids = (await namesIn(this.disk, this.at.sessionsFolder(chassisId)))
      .flatMap((file) => idOfSessionFile(file) ?? [])
    const read = await someAtATime(ids, async (sessionId) =>
      [sessionId, await this.revisionOf(this.at.sessionFile(chassisId, sessionId))] as const)
    return { chassis, sessions: Object.fromEntries(read.filter((each): each is [string, number] => each[1] !== null)) }
  }

  /** Writes a chassis made from `baseRevision`; 0 makes a new one. */
  saveChassis(chassis: Chassis, baseRevision: number): Promise<Saved<Chassis>> {
    return this.write(chassis.id, async (stillHeld) => {
      const path = this.at.chassisFile(chassis.id)
      const found = await readChassis(this.disk, path, chassis.id)
      return this.save(chassis, baseRevision, found, path, chassis.id, stillHeld)
    })
  }

  /** Writes a session made from `baseRevision`; 0 makes a new one. Its chassis must be there. */
  saveSession(session: Session, baseRevision: number): Promise<Saved<Session>> {
    return this.write(session.chassisId, async (stillHeld) => {
      const chassisThere = await this.exists(this.at.chassisFile(session.chassisId))
      if (!chassisThere) await this.ensureOnlyFileMissing(session, baseRevision)
      const path = this.at.sessionFile(session.chassisId, session.id)
      const found = await readSession(this.disk, path, session.chassisId, session.id)
      return this.save(session, baseRevision, found, path, session.chassisId, stillHeld)
    })
  }

  /**
   * Puts the copy of before a document's last change in its place, as a newer revision; what stands there is kept
   * aside.
   * @throws ServiceFailure `notFound` where there is no such copy that is as it was written, and where the session was
   * removed meanwhile
   */
  restore(place: DocumentPlace): Promise<void> {
    const { chassisId, sessionId } = place
    return this.write(chassisId, async (stillHeld) => {
      const spare = await readSpare(this.disk, this.at, place)
      if (spare === null) throw new ServiceFailure('notFound', 'There is no earlier copy of it that can be taken.')
      const path = sessionId === null ? this.at.chassisFile(chassisId) : this.at.sessionFile(chassisId, sessionId)
      if (sessionId !== null && !await this.exists(path) && await this.isRemoved(chassisId, sessionId)) {
        throw removedMeanwhile(spare.name)
      }
      const revision = Math.max(spare.revision, await this.revisionOf(path) ?? 0) + 1
      await writeWhole(this.disk, path, sealedText({ ...spare, revision }), async () => {
        await stillHeld()
        if (await this.exists(path)) await this.keepAside(path, chassisId, 'unreadable', stillHeld)
      })
    })
  }

  /** Moves a chassis with all its files to the `removed` folder. */
  removeChassis(chassisId: string): Promise<void> {
    return this.write(chassisId, async (stillHeld) => {
      const from = this.at.chassisFolder(chassisId)
      if (!await this.exists(from)) throw noChassis(chassisId)
      await this.moveAway(from, join(this.at.removed, 'chassis'), this.at.removedWord(chassisId), '', stillHeld)
    })
  }

  /** Moves a session's file to the `removed` folder. */
  removeSession(chassisId: string, sessionId: string): Promise<void> {
    return this.write(chassisId, async (stillHeld) => {
      const from = this.at.sessionFile(chassisId, sessionId)
      if (!await this.exists(from)) throw noSession(sessionId)
      const to = join(this.at.removed, 'sessions', this.at.removedWord(chassisId))
      await this.moveAway(from, to, this.at.removedWord(sessionId), '.json', stillHeld)
    })
  }

  /**
   * Takes a checked exchange file in as a whole or not at all. Where its chassis id is taken, the
   * chassis gets a new one.
   */
  import(file: Exchange): Promise<ServiceOutput<'exchange.import'>> {
    return this.lock.run(async (stillHeld) => {
      await this.disk.rm(this.at.incoming, { recursive: true, force: true })
      const taken = await this.exists(this.at.chassisFolder(file.chassis.id))
      const chassisId = taken ? this.newId() : file.chassis.id
      const incoming = layout(this.at.incoming)
      await makeFolder(this.disk, incoming.sessionsFolder(chassisId))
      const chassis = imported({ ...file.chassis, id: chassisId })
      await writeSynced(this.disk, incoming.chassisFile(chassisId), sealedText(chassis))
      for (const session of file.sessions) {
        const path = incoming.sessionFile(chassisId, session.id)
        await writeSynced(this.disk, path, sealedText(imported({ ...session, chassisId })))
      }
      await syncFolder(this.disk, incoming.sessionsFolder(chassisId))
      await syncFolder(this.disk, incoming.chassisFolder(chassisId))
      await makeFolder(this.disk, this.at.chassisRoot)
      await stillHeld()
      await this.disk.rename(incoming.chassisFolder(chassisId), this.at.chassisFolder(chassisId))
      await syncFolder(this.disk, this.at.chassisRoot)
      return { chassisId, renamedFrom: taken ? file.chassis.id : null }
    })
  }

  /**
   * A chassis with all its sessions as one exchange file.
   * @throws ServiceFailure where a file of it can't be read: an export never leaves something out in silence
   */
  async export(chassisId: string): Promise<ServiceOutput<'exchange.export'>> {
    const { chassis, sessions, unreadable } = await this.open(chassisId)
    if (unreadable.length > 0) {
      throw new ServiceFailure(
        'failed',
        'Some sessions of this chassis can’t be read, so an export would leave them out. '
        + 'Move the named files elsewhere (or mend them) and export again.',
        unreadable.map(({ file, why }) => ({ where: file, what: why })),
      )
    }
    const file: Exchange = { format: EXCHANGE_FORMAT, schemaVersion: SCHEMA_VERSION, chassis, sessions }
    return { fileName: exchangeFileName(chassis.name), text: fileText(file) }
  }

  /** The text of the stored preferences, or null. */
  readPreferences(): Promise<string | null> {
    return readText(this.disk, this.at.preferences)
  }

  /** Stores the preferences. */
  savePreferences(content: unknown): Promise<void> {
    return this.lock.run((stillHeld) => writeWhole(this.disk, this.at.preferences, fileText(content), stillHeld))
  }

  /** Tries whether the library can be written to. */
  async isWritable(): Promise<boolean> {
    try {
      await this.lock.run(() => Promise.resolve())
      return true
    } catch {
      return false
    }
  }

  private async save<T extends Chassis | Session>(
    document: T, baseRevision: number, found: Found<T>, path: string, chassisId: string, stillHeld: StillHeld,
  ): Promise<Saved<T>> {
    if (found.kind === 'newer') throw new ServiceFailure('newerVersion', `The file on the disk was ${found.why}.`)
    if (found.kind === 'missing' && baseRevision !== 0) await this.ensureLeftBehind(document, chassisId)
    const next = { ...document, revision: baseRevision + 1 }
    if (found.kind === 'opened' && found.document.revision !== baseRevision) {
      // An answer that never arrived: the same content is there already, saved from the same revision.
      if (fileText(found.document) === fileText(next)) return { kind: 'saved', revision: next.revision }
      return { kind: 'conflict', current: found.document }
    }
    await makeFolder(this.disk, this.at.sessionsFolder(chassisId))
    if (found.kind === 'opened' && isOld(found)) await this.keepOriginal(path, chassisId, found)
    await writeWhole(this.disk, path, sealedText(next), async () => {
      await stillHeld()
      // Only once the new content is on the disk, so that a full one leaves everything where it was.
      if (found.kind === 'unreadable') await this.keepAside(path, chassisId, 'unreadable', stillHeld)
      if (found.kind === 'opened' && found.altered) await this.keepAside(path, chassisId, 'altered', stillHeld)
    })
    if (found.kind === 'opened' && !found.altered) {
      await writeSpare(this.disk, this.at.spareFile(chassisId, 'kind' in document ? document.id : null), found.text)
    }
    return { kind: 'saved', revision: next.revision }
  }

  /**
   * Lets a save go on whose file is missing because an earlier one put the damaged file away and was cut off.
   * @throws ServiceFailure that says truly where the document went, in every other case
   */
  private async ensureLeftBehind(document: Chassis | Session, chassisId: string): Promise<void> {
    if (!await this.exists(this.at.chassisRoot)) throw libraryGone(this.folder)
    const isChassis = document.id === chassisId && !('kind' in document)
    const removed = isChassis
      ? join(this.at.removed, 'chassis') : join(this.at.removed, 'sessions', this.at.removedWord(chassisId))
    if (await this.holds(removed, `${this.at.removedWord(document.id)}.`)) throw removedMeanwhile(document.name)
    const word = isChassis ? 'chassis' : basename(this.at.sessionFile(chassisId, document.id), '.json')
    if (await this.keptAside(chassisId, word)) return
    throw takenAway(document.name)
  }

  /**
   * Lets a session be saved where only the chassis' own file is away, damaged and put aside.
   * @throws ServiceFailure where the chassis or the whole library is gone
   */
  private async ensureOnlyFileMissing({ chassisId }: Session, baseRevision: number): Promise<void> {
    if (baseRevision !== 0 && !await this.exists(this.at.chassisRoot)) throw libraryGone(this.folder)
    if (!await this.keptAside(chassisId, 'chassis')) throw noChassis(chassisId)
  }

  private isRemoved(chassisId: string, sessionId: string): Promise<boolean> {
    return this.holds(join(this.at.removed, 'sessions', this.at.removedWord(chassisId)), `${this.at.removedWord(sessionId)}.`)
  }

  /** True where a file of this name was put aside. */
  private async keptAside(chassisId: string, word: string): Promise<boolean> {
    const folder = this.at.keptFolder(chassisId)
    return await this.holds(folder, `${word}.unreadable.`) || this.holds(folder, `${word}.altered.`)
  }

  private async holds(folder: string, beginning: string): Promise<boolean> {
    return (await namesIn(this.disk, folder)).some((name) => name.startsWith(beginning))
  }

  /** Keeps the original of an older version beside the one that will be written. */
  private async keepOriginal(
    path: string, chassisId: string, found: { text: string; fromVersion: number },
  ): Promise<void> {
    const folder = this.at.keptFolder(chassisId)
    await makeFolder(this.disk, folder)
    const copy = join(folder, `${basename(path, '.json')}.version-${found.fromVersion}.json`)
    if (!await this.exists(copy)) await writeWhole(this.disk, copy, found.text)
  }

  /** Puts a file that can't be trusted out of the way of the one that will be written; nothing is deleted. */
  private async keepAside(
    path: string, chassisId: string, why: 'unreadable' | 'altered', stillHeld: StillHeld,
  ): Promise<void> {
    await this.moveAway(path, this.at.keptFolder(chassisId), `${basename(path, '.json')}.${why}`, '.json', stillHeld)
  }

  /** Moves a file or folder to the first free name of the form `word.1`, `word.2`, ... */
  private async moveAway(
    from: string, folder: string, word: string, ending: string, stillHeld: StillHeld,
  ): Promise<void> {
    await makeFolder(this.disk, folder)
    const names = new Set(await namesIn(this.disk, folder))
    let count = 1
    while (names.has(`${word}.${count}${ending}`)) count += 1
    await stillHeld()
    await this.disk.rename(from, join(folder, `${word}.${count}${ending}`))
    await syncFolder(this.disk, folder)
    await syncFolder(this.disk, join(from, '..'))
  }

  /** Runs a change under the lock, after sweeping what a crash may have left in this chassis' folders. */
  private write<T>(chassisId: string, change: (stillHeld: StillHeld) => Promise<T>): Promise<T> {
    return this.lock.run(async (stillHeld) => {
      if (!this.swept.has(chassisId)) {
        await this.sweep(this.at.chassisFolder(chassisId))
        await this.sweep(this.at.sessionsFolder(chassisId))
        for (const folder of this.at.spareFolders(chassisId)) await this.sweep(folder)
        this.swept.add(chassisId)
      }
      return change(stillHeld)
    })
  }

  private async sweep(folder: string): Promise<void> {
    const parts = (await namesIn(this.disk, folder)).filter((file) => file.endsWith(PART_ENDING))
    for (const file of parts) await this.disk.unlink(join(folder, file)).catch(() => undefined)
  }

  private async chassisOrThrow(chassisId: string): Promise<Extract<Found<Chassis>, { kind: 'opened' }>> {
    const found = await readChassis(this.disk, this.at.chassisFile(chassisId), chassisId)
    if (found.kind === 'opened') return found
    if (found.kind === 'missing') throw noChassis(chassisId)
    const problems = [{ where: `${this.place(chassisId)}/chassis.json`, what: found.why }]
    if (found.kind === 'newer') throw new ServiceFailure('newerVersion', `This chassis was ${found.why}.`, problems)
    throw new ServiceFailure(
      'failed', 'The file of this chassis can’t be read. It was left as it is; mend it or import an export of it.', problems,
    )
  }

  private async sessionOfFile(chassisId: string, file: string): Promise<Found<Session>> {
    if (file.endsWith(PART_ENDING)) return { kind: 'missing' }
    const sessionId = idOfSessionFile(file)
    if (sessionId === null) return { kind: 'unreadable', why: 'its name is not an identifier and .json' }
    return readSession(this.disk, this.at.sessionFile(chassisId, sessionId), chassisId, sessionId)
  }

  /** The revision a file tells, or null where it tells none. */
  private async revisionOf(path: string): Promise<number | null> {
    const stamp = await stampOf(this.disk, path)
    const known = this.revisionsRead.get(path)
    if (known !== undefined && stamp.settled && known.stamp === stamp.text) return known.revision
    const json = readJson(await this.textOrNothing(path))
    const parsed = withRevision.safeParse(json.ok ? json.value : null)
    const revision = parsed.success ? parsed.data.revision : null
    this.revisionsRead.set(path, { stamp: stamp.text, revision })
    return revision
  }

  /** The text of a file, empty where there is none or it is not one to be read. */
  private async textOrNothing(path: string): Promise<string> {
    try {
      return await readText(this.disk, path) ?? ''
    } catch (error) {
      if (error instanceof NotReadable) return ''
      throw error
    }
  }

  private place(chassisId: string): string {
    return `chassis/${basename(this.at.chassisFolder(chassisId))}`
  }

  private async exists(path: string): Promise<boolean> {
    try {
      await this.disk.stat(path)
      return true
    } catch (error) {
      if (isMissing(error)) return false
      throw error
    }
  }
}

/** Told of a file that opens, but is not as it was written. */
const ALTERED = 'it changed since Squatbench wrote it'

const withRevision = z.object({ revision: z.number().int().min(0) })

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

/** Revision 0 means "not there yet", so what is there starts at 1. */
const imported = <T extends { revision: number }>(document: T): T =>
  ({ ...document, revision: Math.max(1, document.revision) })

/** A file name every system takes: the chassis' name without what some file systems forbid. */
export function exchangeFileName(chassisName: string): string {
  const word = chassisName.normalize('NFC').replace(/[^\p{L}\p{M}\p{N}._-]+/gu, '-').replace(/^[-.]+|[-.]+$/g, '')
  return `squatbench-${[...word].slice(0, 60).join('') || 'chassis'}.json`
}

const noChassis = (chassisId: string) =>
  new ServiceFailure('notFound', `There is no chassis "${chassisId}" in the library (any more). Go back to the list.`)

const noSession = (sessionId: string) =>
  new ServiceFailure('notFound', `There is no session "${sessionId}" in this chassis (any more). Open the chassis again.`)

const libraryGone = (folder: string) =>
  new ServiceFailure(
    'libraryGone',
    'The library is not where it was: its folder was moved or deleted, or its disk is not attached. Nothing was saved. '
    + 'Put it back, or save a copy as a file; what you changed is still on the screen.',
    [{ where: folder, what: 'is empty or missing' }],
  )

const takenAway = (name: string) =>
  new ServiceFailure(
    'notFound',
    `"${name}" is not in the library any more, and not in its "removed" folder either: another program took it away. `
    + 'What you changed is still on the screen; save a copy as a file.',
  )

const removedMeanwhile = (name: string) =>
  new ServiceFailure(
    'notFound',
    `"${name}" was removed meanwhile, so nothing was saved. It lies in the library's "removed" folder; `
    + 'what you changed is still on the screen, and saving it as a new one keeps it.',
  )
