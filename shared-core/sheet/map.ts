/** Which column of a table holds what: told by its head, by the place where it was pasted, or guessed. */
import type { DecimalMark } from '../units'
import type { SheetRows } from './cut'
import { columnOf, mayRepeat, SHEET_KINDS, type SheetColumn, type SheetField, type SheetKind } from './fields'

/** How a table is to be read. */
export interface SheetMap {
  /** The first row names the columns. */
  readonly head: boolean
  /** One for each column; null where nobody knows what it holds. */
  readonly columns: readonly (SheetColumn | null)[]
}

/** True of a cell that begins like a number. */
export const looksLikeNumber = (cell: string): boolean => /^[-+\u2212]?[.,]?\d/.test(cell)

/** True where the first row holds words above the others. */
export const hasHead = ([first]: SheetRows): boolean =>
  first !== undefined && first.some((cell) => cell !== '') && !first.some(looksLikeNumber)

/**
 * The columns that the heads name, each field once but for those that may repeat. Null where there is no head of
 * which at least one word is known.
 */
export function mapByHead(kind: SheetKind, rows: SheetRows): SheetMap | null {
  if (!hasHead(rows)) return null
  const taken = new Set<SheetField>()
  const columns = rows[0]!.map((head) => {
    const found = columnOf(kind, head)
    if (!found || (taken.has(found.field) && !mayRepeat(found.field))) return null
    taken.add(found.field)
    return found
  })
  return columns.some((each) => each !== null && each.field !== 'ignored') ? { head: true, columns } : null
}

/** The columns in the order of some fields, where a table has no head. */
export const mapInOrder = (fields: readonly SheetField[], width: number): SheetMap => ({
  head: false,
  columns: Array.from({ length: width }, (_, column) => {
    const field = fields[column]
    return field ? { field, unit: null } : null
  }),
})

/**
 * The kind of table that knows most of the heads; null where none knows two of them, or the only one there is.
 * Of two that know as many the earlier in the list counts.
 */
export function kindByHead(rows: SheetRows, among: readonly SheetKind[] = SHEET_KINDS): SheetKind | null {
  const known = among.map((kind) => ({
    kind,
    count: mapByHead(kind, rows)?.columns.filter((each) => each && each.field !== 'ignored').length ?? 0,
  }))
  const best = known.reduce((most, each) => (each.count > most.count ? each : most), { kind: among[0]!, count: 0 })
  return best.count >= Math.min(2, rows[0]?.length ?? 0) && best.count > 0 ? best.kind : null
}

/** True where every column that holds anything is known. */
export const isWhole = (map: SheetMap, rows: SheetRows): boolean =>
  map.columns.every((column, index) => column !== null || rows.slice(map.head ? 1 : 0).every((row) => !row[index]))

/**
 * The decimal mark of a whole table: the only one that its numbers show for certain, such as "5,5" or "0.125"; the
 * builder's own where both are there or none.
 */
export function markOf(rows: SheetRows, habit: DecimalMark): DecimalMark {
  const shown = new Set<DecimalMark>()
  for (const cell of rows.flat()) {
    const found = /^[-+\u2212]?(\d*)([.,])(\d*)(?:\s*\D*)$/.exec(cell)
    if (!found) continue
    const [, whole = '', mark, rest = ''] = found
    const grouped = rest.length === 3 && /^[1-9]\d{0,2}$/.test(whole)
    if (!grouped) shown.add(mark === ',' ? 'comma' : 'point')
  }
  return shown.size === 1 ? [...shown][0]! : habit
}
