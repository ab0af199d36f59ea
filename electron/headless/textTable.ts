/** Plain text tables. */
import type { Probability } from '@core/aero'
import type { Column, Names } from '@core/report'
import { ENGLISH, sayIn } from '@core/report/words'
import { intervalStatement } from '@core/uncertainty'
import { DEFAULT_UNITS, fromKept, symbolOf, unitFor, withSymbol, type Quantity, type Unit } from '@core/units'
import { statementText } from './words'

export type Texts = readonly string[]

/** Columns as wide as their widest cell; nothing where there are no rows. */
export function table(title: string, head: Texts, rows: readonly Texts[]): string[] {
  if (rows.length === 0) return []
  const widths = head.map((_, column) => Math.max(...[head, ...rows].map((row) => [...(row[column] ?? '')].length)))
  const line = (row: Texts): string => row.map((cell, column) => cell.padEnd(widths[column]!)).join('  ').trimEnd()
  return [title, line(head), widths.map((width) => '-'.repeat(width)).join('  '), ...rows.map(line), '']
}

/** A share of certainty; never 0 or 100 %, which no reading can tell. */
export const share = (value: number): string =>
  (value > 0.995 ? '> 99 %' : value < 0.005 ? '< 1 %' : `${Math.round(value * 100)} %`)
const BOUND = { is: '', atLeast: 'at least ', atMost: 'at most ' } as const
const chanceText = ({ kind, value }: Probability): string => (kind === 'untold' ? "can't be told" : BOUND[kind] + share(value))

const say = sayIn(ENGLISH)

const FIGURE_DIGITS = 3

/** SI throughout, so accelerations too. */
const unitOf = (quantity: Quantity): Unit =>
  (quantity === 'acceleration' ? 'metrePerSecondSquared' : unitFor(quantity, DEFAULT_UNITS))

function textOf<Row>(column: Column<Row>, row: Row, names: Names): string | null {
  const unit = unitOf(column.quantity)
  switch (column.form) {
    case 'said': {
      const said = column.of(row, names)
      return said && statementText(said, unit)
    }
    case 'measured': {
      const value = column.of(row, names)
      return value && statementText(intervalStatement(value), unit)
    }
    case 'figure': {
      const value = column.of(row, names)
      if (value === null) return null
      return withSymbol(String(Number(fromKept(value, unit).toPrecision(FIGURE_DIGITS))), symbolOf(unit))
    }
    case 'chance': {
      const chance = column.of(row, names)
      return chance && chanceText(chance)
    }
    case 'pValue': return column.of(row, names)?.toPrecision(2) ?? null
    case 'word': {
      const told = column.of(row, names)
      return told && say(told.word)
    }
    case 'text': return column.of(row, names)
  }
}

/** A table of some rows in some columns. */
export const resultTable = <Row>(
  title: string, columns: readonly Column<Row>[], rows: readonly Row[], names: Names,
): string[] =>
  table(title, columns.map(({ name }) => name), rows.map((row) => columns.map((each) => textOf(each, row, names) ?? '-')))
