/** What may be said of a measurand in columns: a bound never stands in the column of values. */
import type { Statement, Told } from '@core/uncertainty'
import type { CsvCell } from './csv'

/** Heads for one measurand; `unit` as written, such as `N` or `m2`. */
export const statementHeads = (name: string, unit: string): string[] =>
  [`${name} says`, `${name} value/${unit}`, `${name} u/${unit}`, `${name} low/${unit}`, `${name} high/${unit}`, `${name} why`]

const blank: CsvCell = null

/**
 * The cells of `statementHeads`. `value` for an interval, with u and both ends; `at least`,
 * `at most` and `between` leave value and u blank and give the ends they have; `untold` none.
 */
export function statementCells(said: Statement): CsvCell[] {
  switch (said.kind) {
    case 'interval':
      return ['value', said.value, said.u, said.interval.low, said.interval.high, said.extrapolated ? 'outside the range read' : '']
    case 'atLeast': return ['at least', blank, blank, said.bound, blank, said.reason]
    case 'atMost': return ['at most', blank, blank, blank, said.bound, said.reason]
    case 'between': return ['between', blank, blank, said.low, said.high, said.reason]
    case 'untold': return ['untold', blank, blank, blank, blank, said.reason]
  }
}

export const toldCells = ({ statement }: Told): CsvCell[] => statementCells(statement)
