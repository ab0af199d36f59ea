/**
 * Changes that nobody has acknowledged yet, kept by the browser (`localStorage`) beside the window, so that
 * they are there again when Squatbench is opened anew at the same address. Small: what was changed, not the
 * document. Each window keeps its own; an entry goes when its change is on the disk.
 */
import { id, moment, type Chassis, type Session } from '@core/schema'
import { z } from 'zod'
import { newId, now } from '../ids'
import { piece, piecesBetween } from './pieces'

const PREFIX = 'squatbench:unwritten:'

const entry = z.strictObject({
  version: z.literal(1),
  chassisId: id,
  /** Null for the chassis itself: a session may have its id. */
  sessionId: id.nullable(),
  at: moment,
  /** A document that is not on the disk at all; null where `pieces` say what changed. */
  whole: z.json().nullable(),
  pieces: z.array(piece).max(100_000),
})
export type Entry = z.infer<typeof entry>
/** An entry with the key it is kept under, and its text to see whether it was changed since. */
export interface Kept { readonly key: string; readonly text: string; readonly entry: Entry }

type Document = Chassis | Session

/** What a browser offers for keeping texts; null where it does not, or is told not to. */
function storeOf(): Storage | null {
  try {
    return globalThis.localStorage ?? null
  } catch {
    return null
  }
}

export class Outbox {
  private readonly window = newId('window')
  private readonly store = storeOf()
  /** The library the entries belong to; nothing is kept before it is known. */
  libraryId: string | null = null

  /** True where the browser keeps anything unwritten, of any library. */
  holdsAny(): boolean {
    return this.keys(PREFIX).length > 0
  }

  /** Keeps how a document differs from what is on the disk. False where the browser does not take it. */
  put(document: Document, written: Document | undefined): boolean {
    const key = this.keyOf(document)
    if (key === null || !this.store) return false
    const pieces = written ? piecesBetween(written, document) : []
    if (written && pieces.length === 0) { this.drop(document); return true }
    const whole = written ? null : document
    const [chassisId, sessionId] = [chassisOf(document), sessionOf(document)]
    const kept = { version: 1, chassisId, sessionId, at: now(), whole, pieces }
    try {
      this.store.setItem(key, JSON.stringify(kept))
      return true
    } catch {
      return false
    }
  }

  /** Forgets this window's entry of a document. */
  drop(document: Document): void {
    const key = this.keyOf(document)
    if (key !== null) this.store?.removeItem(key)
  }

  /** True for an entry of this very window. */
  isOwn({ key }: Kept): boolean {
    return key.endsWith(`:${this.window}`)
  }

  /** Forgets an entry that was taken over, unless its window changed it since. */
  forget({ key, text }: Kept): void {
    if (this.store?.getItem(key) === text) this.store.removeItem(key)
  }

  /** Entries of a chassis, oldest first; what can't be read as one is left where it is. */
  entriesOf(chassisId: string): Kept[] {
    return this.read(`${chassisId}:`).sort((a, b) => (a.entry.at < b.entry.at ? -1 : 1))
  }

  /** Chassis of this library with something unwritten. */
  chassisIds(): string[] {
    return [...new Set(this.read('').map((each) => each.entry.chassisId))]
  }

  private read(within: string): Kept[] {
    if (this.libraryId === null) return []
    return this.keys(`${PREFIX}${this.libraryId}:${within}`).flatMap((key) => {
      const text = this.store?.getItem(key) ?? ''
      const parsed = entry.safeParse(jsonOf(text))
      return parsed.success ? [{ key, text, entry: parsed.data }] : []
    })
  }

  private keys(prefix: string): string[] {
    if (!this.store) return []
    const { store } = this
    return Array.from({ length: store.length }, (_, index) => store.key(index) ?? '').filter((key) => key.startsWith(prefix))
  }

  private keyOf(document: Document): string | null {
    if (this.libraryId === null) return null
    return `${PREFIX}${this.libraryId}:${chassisOf(document)}:${sessionOf(document) ?? ''}:${this.window}`
  }
}

const sessionOf = (document: Document): string | null => ('kind' in document ? document.id : null)
const chassisOf = (document: Document): string => ('kind' in document ? document.chassisId : document.id)

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}
