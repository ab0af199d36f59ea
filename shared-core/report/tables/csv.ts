/**
 * Tables as CSV by RFC 4180: CR LF, quotes doubled, one head row with units; texts that a sheet would
 * run are defused.
 */
import Papa from 'papaparse'

export type CsvCell = string | number | null

export interface CsvTable {
  /** File name without a folder, ending in `.csv`. */
  readonly fileName: string
  readonly heads: readonly string[]
  readonly rows: readonly (readonly CsvCell[])[]
}

/** The text of a table. Numbers have a decimal point; what is not finite is left blank. */
export function csvText({ heads, rows }: CsvTable): string {
  const data = rows.map((row) => row.map((cell) => (typeof cell === 'number' && !Number.isFinite(cell) ? null : cell)))
  return `${Papa.unparse({ fields: [...heads], data }, { newline: '\r\n', escapeFormulae: true })}\r\n`
}
