/** Which columns a builder said that a file's heads stand for: asked once for each kind of file. */
import { SHEET_FIELDS, SHEET_KINDS, type SheetKind, type SheetMap, type SheetRows } from '@core/sheet'
import { UNIT_NAMES } from '@core/units'
import { z } from 'zod'

const PLACE = 'squatbench.columns'
/** Kinds of files that are remembered; the oldest goes. */
const MOST_KEPT = 50

const kept = z.array(z.strictObject({
  kind: z.enum(SHEET_KINDS),
  heads: z.array(z.string()),
  columns: z.array(z.strictObject({ field: z.enum(SHEET_FIELDS), unit: z.enum(UNIT_NAMES).nullable() }).nullable()),
}))

function read(): z.infer<typeof kept> {
  try {
    return kept.parse(JSON.parse(localStorage.getItem(PLACE) ?? '[]'))
  } catch {
    return []
  }
}

const isSame = (heads: readonly string[], row: readonly string[] | undefined): boolean =>
  row !== undefined && heads.length === row.length && heads.every((head, index) => head === row[index])

/** The columns that were settled for these heads before; null where they are new. */
export function rememberedMap(kinds: readonly SheetKind[], rows: SheetRows): { kind: SheetKind; map: SheetMap } | null {
  const found = read().find(({ kind, heads }) => kinds.includes(kind) && isSame(heads, rows[0]))
  return found ? { kind: found.kind, map: { head: true, columns: found.columns } } : null
}

/** Keeps what the columns of these heads were said to hold. A browser that keeps nothing asks again. */
export function rememberMap(kind: SheetKind, rows: SheetRows, map: SheetMap): void {
  const [heads] = rows
  if (!map.head || !heads) return
  const others = read().filter((each) => !isSame(each.heads, heads))
  try {
    const now = { kind, heads: [...heads], columns: [...map.columns] }
    localStorage.setItem(PLACE, JSON.stringify([...others, now].slice(-MOST_KEPT)))
  } catch {
    // Nothing is lost but the remembering.
  }
}
