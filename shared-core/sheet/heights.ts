/** Heights of the four corners, as rows of four or as one a row. */
import { CORNERS, type Corner } from '../schema'
import type { SheetReader } from './reader'

/** One height out of a table. */
export interface SheetHeight {
  readonly corner: Corner
  readonly shownMm: number
  /** When it was read; null where the table does not say. */
  readonly at: string | null
  /** Why it was put aside; null where it counts. */
  readonly aside: string | null
}

/** Largest height or drop that a gauge may show, mm: as a reading's own limit. */
const MOST_MM = 1000

/** The heights of one row. */
export function heightsIn(reader: SheetReader, row: number): SheetHeight[] {
  const at = reader.moment(row)
  if (!reader.has('corner')) {
    return CORNERS.flatMap((corner) => {
      const shownMm = reader.number(row, corner, -MOST_MM, MOST_MM)
      return shownMm === null ? [] : [{ corner, shownMm, at, aside: null }]
    })
  }
  const corner = reader.corner(row)
  const shownMm = reader.number(row, 'shown', -MOST_MM, MOST_MM)
  const aside = reader.text(row, 'readingAside')
  return corner === null || shownMm === null ? [] : [{ corner, shownMm, at, aside: aside === '' ? null : aside }]
}

/** Rows that stand for one step or state each: those of one key where each corner has a row of its own. */
export function rowGroups(reader: SheetReader, keyOf: (row: number) => string): number[][] {
  if (!reader.has('corner')) return reader.filled.map((row) => [row])
  const groups = new Map<string, number[]>()
  for (const row of reader.filled) groups.set(keyOf(row), [...(groups.get(keyOf(row)) ?? []), row])
  return [...groups.values()]
}
