/** Columns of results painted as CSV: SI units, and a bound never in the column of values. */
import { standardUncertainty, type Statement } from '@core/uncertainty'
import type { Quantity } from '@core/units'
import type { Column, Names } from '../columns'
import type { CsvCell, CsvTable } from './csv'

/** The unit in which a quantity is kept, as it stands after a name; none for a count or a word. */
const UNIT: Readonly<Record<Quantity, string>> = {
  force: '/N', length: '/mm', distance: '/m', speed: '/(m/s)', mass: '/kg', temperature: '/K', pressure: '/Pa', rate: '/(N/mm)',
  acceleration: '/(m/s2)', area: '/m2', density: '/(kg/m3)', time: '/s', frequency: '/Hz', angle: '/deg', share: '/1', shareMove: '/1',
  number: '',
  power: '/W',
}

/** Heads for one measurand; `unit` as written after a name, such as `/N`. */
export const statementHeads = (name: string, unit: string): string[] =>
  [`${name} says`, `${name} value${unit}`, `${name} u${unit}`, `${name} low${unit}`, `${name} high${unit}`, `${name} why`]

/**
 * The cells of `statementHeads`. `value` for an interval, with u and both ends; `at least`, `at most` and `between`
 * leave value and u blank and give the ends they have; `untold` none.
 */
export function statementCells(said: Statement): CsvCell[] {
  switch (said.kind) {
    case 'interval':
      return ['value', said.value, said.u, said.interval.low, said.interval.high, said.extrapolated ? 'outside the range read' : '']
    case 'atLeast': return ['at least', null, null, said.bound, null, said.reason]
    case 'atMost': return ['at most', null, null, null, said.bound, said.reason]
    case 'between': return ['between', null, null, said.low, said.high, said.reason]
    case 'untold': return ['untold', null, null, null, null, said.reason]
  }
}

function headsOf<Row>({ form, name, quantity }: Column<Row>): string[] {
  const unit = UNIT[quantity]
  switch (form) {
    case 'said': return statementHeads(name, unit)
    case 'measured': return [name + unit, `${name} u${unit}`]
    case 'chance': return [name, 'probability says']
    default: return [name + unit]
  }
}

function cellsOf<Row>(column: Column<Row>, row: Row, names: Names): CsvCell[] {
  switch (column.form) {
    case 'said': {
      const said = column.of(row, names)
      return said ? statementCells(said) : [null, null, null, null, null, null]
    }
    case 'measured': {
      const value = column.of(row, names)
      return value ? [value.value, standardUncertainty(value)] : [null, null]
    }
    case 'chance': {
      const chance = column.of(row, names)
      return chance ? [chance.kind === 'untold' ? null : chance.value, chance.kind] : [null, null]
    }
    case 'word': return [column.of(row, names)?.code ?? '']
    default: return [column.of(row, names)]
  }
}

/** A table of some rows in some columns. */
export const tableOf = <Row>(
  fileName: string, columns: readonly Column<Row>[], rows: readonly Row[], names: Names,
): CsvTable => ({
  fileName, heads: columns.flatMap(headsOf),
  rows: rows.map((row) => columns.flatMap((each) => cellsOf(each, row, names))),
})
