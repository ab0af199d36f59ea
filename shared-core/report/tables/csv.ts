/**
 * Tables as CSV by RFC 4180: CR LF, texts quoted and their quotes doubled, one head row with units. A number is a bare
 * number, with its minus; a text that a sheet would run is defused by an apostrophe, which our own reader of tables
 * takes out again (`textOfCell`).
 */
import Papa from 'papaparse'
import { defused } from '../../sheet'

export type CsvCell = string | number | null

export interface CsvTable {
  /** File name without a folder, ending in `.csv`. */
  readonly fileName: string
  readonly heads: readonly string[]
  readonly rows: readonly (readonly CsvCell[])[]
}

const written = (cell: CsvCell): CsvCell => {
  if (typeof cell === 'string') return defused(cell)
  return typeof cell === 'number' && !Number.isFinite(cell) ? null : cell
}

/** The text of a table. Numbers have a decimal point; what is not finite is left blank. */
export function csvText({ heads, rows }: CsvTable): string {
  const table = { fields: heads.map(defused), data: rows.map((row) => row.map(written)) }
  return `${Papa.unparse(table, { newline: '\r\n', quotes: (cell) => typeof cell === 'string' })}\r\n`
}
