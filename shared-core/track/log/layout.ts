/** Looks at the head of a log and proposes how to cut it: separator, decimal mark, where the data start. */
import Papa from 'papaparse'
import type { LogLayout } from './types'

const DELIMITERS = [';', '\t', ',', '|', ' '] as const
const NUMBER = { point: /^\s*[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?\s*$/i, comma: /^\s*[+-]?(\d+,?\d*|,\d+)(e[+-]?\d+)?\s*$/i }
const CLOCK = /\d{1,2}:\d{2}/

type Decimal = LogLayout['decimal']

const isNumber = (field: string, decimal: Decimal): boolean => NUMBER[decimal].test(field) || CLOCK.test(field)

/** Lines of a text whatever ends them. */
export const linesOf = (text: string): string[] => text.split(/\r\n|\n|\r/)

/** One line's fields; quotes are minded, runs of spaces count once where a space separates. */
export function fieldsOf(line: string, delimiter: LogLayout['delimiter']): string[] {
  if (delimiter === ' ') return line.trim().split(/ +/)
  if (!line.includes('"')) return line.split(delimiter)
  return Papa.parse<string[]>(line, { delimiter }).data[0] ?? []
}

interface Cut { readonly layout: LogLayout; readonly score: number }

/** Share of the columns of the common width that read as numbers, over the last two thirds of the lines. */
function judge(lines: readonly string[], delimiter: LogLayout['delimiter'], decimal: Decimal): Cut | null {
  if (delimiter === ',' && decimal === 'comma' && !lines.some((line) => line.includes('"'))) return null
  const rows = lines.map((line) => fieldsOf(line, delimiter))
  const tail = rows.slice(Math.floor(rows.length / 3)).filter((row) => row.length > 1 || (row[0] ?? '').trim() !== '')
  const width = commonest(tail.map((row) => row.length))
  const alike = tail.filter((row) => row.length === width)
  if (alike.length === 0) return null
  const numbers = alike.reduce((sum, row) => sum + row.filter((field) => isNumber(field, decimal)).length, 0)
  const share = numbers / (alike.length * width)
  const fractions = alike.some((row) => row.some((field) => field.includes(decimal === 'point' ? '.' : ',')))
  const score = (share * alike.length) / tail.length + (width > 1 ? 0.2 : 0) + (fractions ? 0.05 : 0)
  return { score, layout: { delimiter, decimal, ...head(rows, width, decimal) } }
}

function commonest(values: readonly number[]): number {
  const counts = new Map<number, number>()
  for (const each of values) counts.set(each, (counts.get(each) ?? 0) + 1)
  return [...counts].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0]?.[0] ?? 0
}

/** Where the data start, and the names above them: the first of the text rows that stand right above. */
function head(rows: readonly string[][], width: number, decimal: Decimal): Pick<LogLayout, 'firstLine' | 'names'> {
  const isData = (row: readonly string[]) =>
    row.length === width && row.filter((field) => isNumber(field, decimal)).length * 2 > width
  const first = Math.max(0, rows.findIndex(isData))
  let top = first
  while (top > 0 && rows[top - 1]!.length === width && !isData(rows[top - 1]!)) top--
  const named = top < first ? rows[top]! : []
  const units = top < first - 1 ? rows[first - 1]! : []
  return {
    firstLine: first + 1,
    names: Array.from({ length: width }, (_, column) => {
      const name = clean(named[column])
      const unit = clean(units[column])
      if (name === '') return `column ${column + 1}`
      return unit !== '' && unit !== name ? `${name} ${/^[[(]/.test(unit) ? unit : `[${unit}]`}` : name
    }),
  }
}

const clean = (text: string | undefined): string => (text ?? '').replace(/^\ufeff/, '').trim().slice(0, 80)

/**
 * Proposes a layout from the first part of a log (64 kB are plenty; a last cut-off line is dropped).
 * Null where no line holds a number.
 */
export function proposeLayout(sample: string): LogLayout | null {
  const lines = linesOf(sample.replace(/^\ufeff/, ''))
  if (lines.length > 3) lines.pop()
  const cuts = DELIMITERS.flatMap((delimiter) =>
    (['point', 'comma'] as const).flatMap((decimal) => judge(lines.slice(0, 400), delimiter, decimal) ?? []))
  const [best] = cuts.sort((a, b) => b.score - a.score)
  return best && best.score > 0.3 ? best.layout : null
}
