/** Parts of one uncertainty, largest first: a bar's length is the part's share of the variance. */
import type { BudgetRow } from '@core/uncertainty'
import type { Quantity } from '@core/units'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { drawing } from './plot'

const WIDTH = 320
const NAMES = 112
const VALUES = 96
const ROW = 16

export function budgetBars(paper: Paper, what: string, rows: readonly BudgetRow[], quantity: Quantity): Markup {
  const shown = rows.filter((row) => row.share >= 0.001)
  if (shown.length === 0) return html``
  const title = paper.say('budget', { what })
  const height = shown.length * ROW + 4
  const length = WIDTH - NAMES - VALUES
  return html`<figure><figcaption>${title}</figcaption>${drawing(WIDTH, height, title, shown.map((row, index) => {
    const y = index * ROW + ROW / 2 + 2
    return html`<text x="0" y="${y + 4}">${paper.say(`group_${row.group}`)}</text><rect class="bar" x="${NAMES}" y="${y - 5}" width="${Math.round(Math.max(1, row.share * length) * 10) / 10}" height="10"/><text x="${NAMES + Math.max(1, row.share * length) + 5}" y="${y + 4}">${paper.plain(Math.round(row.share * 1000) / 10)} %</text><text x="${WIDTH}" y="${y + 4}" text-anchor="end">${paper.show(row.u, quantity, { u: row.u, step: true })}</text>`
  }))}</figure>`
}
