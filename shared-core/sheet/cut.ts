/**
 * Text of a table, as a spreadsheet's clipboard or a CSV file has it, cut to cells. Nothing is read as a number here.
 */
import Papa from 'papaparse'
import { textOfCell } from './defuse'

export type SheetRows = readonly (readonly string[])[]

/**
 * Cells of a table, rows of equal length, without empty rows and columns at its end.
 *
 * Tabs cut before semicolons, these before commas. A comma cuts only where it can't be a decimal mark: under a head
 * of words, or where the numbers have points. Without any of them, numbers apart by spaces are cut there.
 * Quotes are read by RFC 4180; what keeps a sheet from running a text of our tables is taken out again (`defused`).
 */
export function cutSheet(text: string): string[][] {
  const plain = text.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n').replace(/\n+$/, '')
  const delimiter = delimiterOf(plain)
  if (delimiter === ' ') return even(plain.split('\n').map((line) => line.trim().split(/\s+/)))
  const { data } = Papa.parse<string[]>(plain, { delimiter: delimiter ?? '\u001f' })
  return even(data.map((row) => row.map(cleaned)))
}

const cleaned = (cell: string): string => textOfCell(cell).replaceAll('\u00a0', ' ').trim()

/** The sign between cells; null for one column. */
export function delimiterOf(text: string): '\t' | ';' | ',' | ' ' | null {
  const bare = text.replace(/"(?:[^"]|"")*"/g, '""')
  if (bare.includes('\t')) return '\t'
  const lines = bare.split('\n').filter((line) => line.trim() !== '')
  const [head = ''] = lines
  const words = head.split(',').filter((cell) => /\p{L}/u.test(cell) && !/^\s*[-+]?[\d.]/.test(cell)).length
  if (bare.includes(';') && words <= head.split(';').length) return ';'
  const points = lines.every((line) => /\d\.\d/.test(line))
  if (head.includes(',') && (words > 1 || points || bare.includes('""'))) return ','
  const spaced = lines.length > 0 && lines.every((line) => /^\s*[-+]?[\d.,]+(\s+[-+]?[\d.,]+)+\s*$/.test(line))
  return spaced ? ' ' : null
}

/** Rows of one length; those without any text at the end are let go. */
function even(rows: string[][]): string[][] {
  const last = rows.findLastIndex((row) => row.some((cell) => cell !== ''))
  const kept = rows.slice(0, last + 1)
  const width = Math.max(0, ...kept.map((row) => row.findLastIndex((cell) => cell !== '') + 1))
  return kept.map((row) => Array.from({ length: width }, (_, column) => row[column] ?? ''))
}
