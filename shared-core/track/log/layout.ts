/** Looks at the head of a log and proposes how to cut it: separator, decimal mark, where the data start. */
import Papa from 'papaparse'
import { isClock } from './fields'
import type { LogLayout } from './types'

const DELIMITERS = [';', '\t', ',', '|', ' '] as const
const NUMBER = { point: /^\s*[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?\s*$/i, comma: /^\s*[+-]?(\d+,?\d*|,\d+)(e[+-]?\d+)?\s*$/i }

type Decimal = LogLayout['decimal']

const isNumber = (field: string, decimal: Decimal): boolean => NUMBER[decimal].test(field) || isClock(field)

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
  return { score, layout: { delimiter, decimal, ...head(rows, width, decimal), saidRateHz: null } }
}

function commonest(values: readonly number[]): number {
  const counts = new Map<number, number>()
  for (const each of values) counts.set(each, (counts.get(each) ?? 0) + 1)
  return [...counts].sort((a, b) => b[1] - a[1] || b[0] - a[0])[0]?.[0] ?? 0
}

/** What a unit looks like when it stands alone below a name. */
const UNIT = new RegExp(String.raw`^[[(]?\s*(s|sec|seconds?|ms|µs|μs|us|ns|[mc]?m\/s(\^?2|²)?|mm\/s(\^?2|²)|m?g|km\/?h|kph|mph|kn|hz|°|deg|(°|deg|rad)\/s|k?m|ft|%|v|°?c|k|bar|rpm|unix time|h:m:s|lsb|counts?)\s*[\])]?$`, 'i')

const isBlank = (row: readonly string[]): boolean => row.every((field) => field.trim() === '')

/**
 * Where the data start, and the names above them. Header rows are the text rows that stand right above,
 * blank lines between them or not: the first holds the names, the one that looks like units the units;
 * further rows (where a value came from) are left alone.
 */
function head(rows: readonly string[][], width: number, decimal: Decimal): Pick<LogLayout, 'firstLine' | 'names'> {
  const isData = (row: readonly string[]) =>
    row.length === width && row.filter((field) => isNumber(field, decimal)).length * 2 > width
  const first = Math.max(0, rows.findIndex(isData))
  const above: string[][] = []
  for (let at = first - 1; at >= 0; at--) {
    const row = rows[at]!
    if (isBlank(row)) continue
    if (row.length !== width || isData(row)) break
    above.unshift(row)
  }
  const [named = [], ...others] = above
  const looksLikeUnits = (row: readonly string[]): number => row.filter((field) => UNIT.test(field.trim())).length
  const [units = []] = others.filter((row) => looksLikeUnits(row) > 0)
    .sort((a, b) => looksLikeUnits(b) - looksLikeUnits(a))
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
  if (!best || best.score <= 0.3) return null
  return { ...best.layout, saidRateHz: rateIn(lines.slice(0, best.layout.firstLine - 1)) }
}

const RATE = /(?:rate|frequency|frequenz)[^\d\n]{0,16}([\d.]+)\s*(k?hz)?/i

/** A sampling rate that a comment above the data tells, Hz; null where none does. */
function rateIn(above: readonly string[]): number | null {
  for (const line of above) {
    const [, number, unit] = RATE.exec(line) ?? []
    const rateHz = Number(number) * (/khz/i.test(unit ?? '') ? 1000 : 1)
    if (rateHz > 0 && rateHz <= 100_000) return rateHz
  }
  return null
}
