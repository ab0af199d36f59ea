/** Reads the library's files: what each holds, or in words why it can't be read. Reading changes nothing. */
import { SCHEMA_VERSION, newerWords, openChassis, openSession, readJson } from '@core/schema'
import type { Chassis, Opening, Session } from '@core/schema'
import type { DocumentPlace, Unreadable } from '@core/services'
import { NotReadable, readText } from './disk'
import type { Disk } from './disk'
import { systemCode } from './failure'
import type { Layout } from './layout'
import { unseal } from './seal'

/** What a file turned out to be: `text` is what lies on the disk, `altered` where that is not as it was written. */
export type Found<T> =
  | { kind: 'opened'; document: T; text: string; fromVersion: number; altered: boolean }
  | { kind: 'missing' }
  | { kind: 'newer'; why: string }
  | { kind: 'unreadable'; why: string }

/** Reads a `chassis.json` that must be of this id. */
export const readChassis = (disk: Disk, path: string, chassisId: string): Promise<Found<Chassis>> =>
  readDocument(disk, path, openChassis, (found) =>
    (found.id === chassisId ? null : `it says it is the chassis "${found.id}", its folder says "${chassisId}"`))

/** Reads a session file that must be of this id and chassis. */
export const readSession = (
  disk: Disk, path: string, chassisId: string, sessionId: string,
): Promise<Found<Session>> =>
  readDocument(disk, path, openSession, (found) => {
    if (found.id !== sessionId) return `it says it is the session "${found.id}", its file name says "${sessionId}"`
    if (found.chassisId !== chassisId) return `it belongs to the chassis "${found.chassisId}"`
    return null
  })

async function readDocument<T>(
  disk: Disk, path: string, open: (raw: unknown) => Opening<T>, misplaced: (document: T) => string | null,
): Promise<Found<T>> {
  let text: string | null
  try {
    text = await readText(disk, path)
  } catch (error) {
    if (error instanceof NotReadable) return { kind: 'unreadable', why: error.message }
    return { kind: 'unreadable', why: `the system could not read it (${systemCode(error) ?? String(error)})` }
  }
  if (text === null) return { kind: 'missing' }
  const json = readJson(text)
  if (!json.ok) return { kind: 'unreadable', why: json.why }
  const { content, seal } = unseal(json.value, text)
  const opening = open(content)
  if (opening.kind === 'newer') return { kind: 'newer', why: newerWords(opening.version) }
  if (opening.kind === 'refused') {
    const first = opening.problems[0]
    const more = opening.total > 1 ? ` (and ${opening.total - 1} more)` : ''
    return { kind: 'unreadable', why: `${first?.where ?? '(whole)'}: ${first?.what ?? 'does not fit'}${more}` }
  }
  const why = misplaced(opening.document)
  if (why !== null) return { kind: 'unreadable', why }
  const { document, fromVersion } = opening
  return { kind: 'opened', document, text, fromVersion, altered: seal === 'broken' }
}

/** True where the file was of an older version: its original is kept before it is written anew. */
export const isOld = (found: { fromVersion: number }): boolean => found.fromVersion < SCHEMA_VERSION

/** The copy of before a document's last change, where there is one that is as it was written. */
export async function readSpare(
  disk: Disk, at: Layout, { chassisId, sessionId }: DocumentPlace,
): Promise<Chassis | Session | null> {
  const path = at.spareFile(chassisId, sessionId)
  const found = sessionId === null
    ? await readChassis(disk, path, chassisId) : await readSession(disk, path, chassisId, sessionId)
  return found.kind === 'opened' && !found.altered ? found.document : null
}

/** What is told of a file, with the place of its spare copy where there is a good one. */
export async function withSpare(disk: Disk, at: Layout, told: Unreadable, place: DocumentPlace): Promise<Unreadable> {
  return await readSpare(disk, at, place) === null ? told : { ...told, spare: place }
}
