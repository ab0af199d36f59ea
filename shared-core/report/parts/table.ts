/** A table with a head; without rows it is nothing. */
import { html, type Markup } from '../html'

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
