/** A table with a head; without rows it is nothing. */
import type { Column } from '../columns'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { probabilityText } from './probability'

export type Cell = Markup | string

export interface TableOptions {
  readonly caption?: string
  /** Columns set to the right, counted from 0. */
  readonly numbers?: readonly number[]
}

export function table(
  heads: readonly string[], rows: readonly (readonly Cell[])[], options: TableOptions = {},
): Markup {
  if (rows.length === 0) return html``
  const right = new Set(options.numbers ?? [])
  const look = (column: number) => (right.has(column) ? 'number' : '')
  return html`<table>${options.caption ? html`<caption>${options.caption}</caption>` : null}<thead><tr>${
    heads.map((head, column) => (head === ''
      ? html`<td></td>` : html`<th scope="col" class="${look(column)}">${head}</th>`))}</tr></thead><tbody>${
    rows.map((row) => html`<tr>${row.map((cell, column) => (column === 0 && cell !== ''
      ? html`<th scope="row" class="${look(column)}">${cell}</th>` : html`<td class="${look(column)}">${cell}</td>`))}</tr>`)}</tbody></table>`
}

/** A list of sentences; without any it is nothing. */
export const list = (items: readonly Cell[]): Markup =>
  (items.length === 0 ? html`` : html`<ul>${items.map((item) => html`<li>${item}</li>`)}</ul>`)

/** What a column shows of a row; a dash where there is nothing. */
export function cellOf<Row>(paper: Paper, column: Column<Row>, row: Row): Cell {
  const { signed } = column
  switch (column.form) {
    case 'said': {
      const said = column.of(row, paper)
      return said ? paper.cell(said, column.quantity, { signed }) : NOTHING
    }
    case 'measured': {
      const value = column.of(row, paper)
      return value ? paper.showUncertain(value, column.quantity) : NOTHING
    }
    case 'figure': {
      const value = column.of(row, paper)
      return value === null ? NOTHING : paper.short(value, column.quantity)
    }
    case 'chance': {
      const chance = column.of(row, paper)
      return chance ? probabilityText(paper, chance) : NOTHING
    }
    case 'pValue': {
      const p = column.of(row, paper)
      return p === null ? NOTHING : paper.plain(p < LEAST_P ? `< ${LEAST_P}` : p.toPrecision(2))
    }
    case 'word': {
      const told = column.of(row, paper)
      return told ? paper.say(told.word) : NOTHING
    }
    case 'text': return column.of(row, paper) ?? NOTHING
  }
}

const NOTHING = '–'
const LEAST_P = 0.001

/** A table of some rows in some columns; what repeats in the first column is said once. */
export function resultTable<Row>(paper: Paper, columns: readonly Column<Row>[], rows: readonly Row[]): Markup {
  const cells = rows.map((row) => columns.map((each) => cellOf(paper, each, row)))
  return table(
    columns.map(({ head }) => (head === null ? '' : paper.say(head))),
    cells.map(([first, ...rest], index) => [first === cells[index - 1]?.[0] ? '' : first!, ...rest]))
}
