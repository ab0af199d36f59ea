/** Joins a kept change with the document as it stands now. */
import { chassis, session, type Chassis, type Session } from '@core/schema'
import { mergeDocuments, same, type MergeNote, type Plain } from '../merge'
import type { Entry } from './outbox'
import { withPieces } from './pieces'

type Document = Chassis | Session

export type TakenIn =
  | { readonly kind: 'joined'; readonly document: Document; readonly count: number }
  /** It is on the disk already: only the acknowledgement was lost. */
  | { readonly kind: 'there' }
  /** Its document was taken out meanwhile, or what was kept does not fit any more. */
  | { readonly kind: 'unfit' }

/**
 * Takes one entry into a document.
 *
 * @param standing the document on the disk, undefined where there is none
 * @param note of the values that the kept ones replace
 */
export function takeIn({ whole, pieces }: Entry, standing: Document | undefined, note: MergeNote): TakenIn {
  if (!standing) {
    const made = session.safeParse(whole)
    return made.success ? { kind: 'joined', document: { ...made.data, revision: 0 }, count: 1 } : { kind: 'unfit' }
  }
  const nothing = { id: standing.id, revision: 0 } as Document
  const base = whole === null ? withPieces(standing, pieces, 'was') : nothing
  const mine = whole === null ? withPieces(standing, pieces, 'is') : (whole as unknown as Document)
  const joined = mergeDocuments(base, mine, standing, note)
  const read = ('kind' in standing ? session : chassis).safeParse(joined)
  if (!read.success) return { kind: 'unfit' }
  if (same(read.data as unknown as Plain, standing as unknown as Plain)) return { kind: 'there' }
  return { kind: 'joined', document: read.data, count: Math.max(1, pieces.length) }
}
