/** Intervals one under another: a bar for an interval, an open arrow for a bound, words for nothing. */
import type { Statement } from '@core/uncertainty'
import type { Quantity } from '@core/units'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { drawing, markAt, rangeOf, ticks } from './plot'

export interface Rung { readonly name: string; readonly statement: Statement }

const WIDTH = 660
const NAMES = 170
const VALUES = 170
const ROW = 26
const TOP = 8
const BOTTOM = 34

/** Ends a statement has, kept unit; none for what can't be told. */
function endsOf(statement: Statement): number[] {
  switch (statement.kind) {
    case 'interval': return [statement.interval.low, statement.interval.high, statement.value]
    case 'atLeast':
    case 'atMost': return [statement.bound]
    case 'between': return [statement.low, statement.high]
    case 'untold': return []
  }
}

/**
 * The ladder.
 *
 * @param axisTitle says the quantity and its unit
 * @param zero draw from zero, and zero itself
 */
export function ladderChart(
  paper: Paper, title: string, axisTitle: string, quantity: Quantity, rungs: readonly Rung[],
): Markup {
  if (rungs.length === 0) return html``
  const number = (kept: number) => paper.number(kept, quantity)
  const range = rangeOf(rungs.flatMap((rung) => endsOf(rung.statement).map(number)), { from: 0, margin: 0.08 })
  const height = TOP + rungs.length * ROW + BOTTOM
  const right = WIDTH - VALUES
  const x = (value: number) =>
    Math.round((NAMES + ((value - range.low) / (range.high - range.low)) * (right - NAMES)) * 100) / 100
  const bottom = height - BOTTOM
  const body = [
    ...ticks(range, 6).map((tick) => html`<line class="${tick === 0 ? 'axis' : 'grid'}" x1="${x(tick)}" x2="${x(tick)}" y1="${TOP}" y2="${bottom}"/><text x="${x(tick)}" y="${bottom + 13}" text-anchor="middle">${paper.plain(tick)}</text>`),
    html`<text x="${(NAMES + right) / 2}" y="${height - 5}" text-anchor="middle">${axisTitle}</text>`,
    ...rungs.map(({ name, statement }, index) => {
      const y = TOP + (index + 0.5) * ROW
      return html`<text x="0" y="${y + 4}">${short(name)}</text>${barOf(statement, y, (kept) => x(number(kept)), right)}<text x="${right + 10}" y="${y + 4}" class="strong">${paper.main(statement, quantity)}</text>`
    }),
  ]
  return html`<figure class="wide"><figcaption>${title}</figcaption>${drawing(WIDTH, height, title, body)}</figure>`
}

const short = (name: string): string => ([...name].length > 28 ? `${[...name].slice(0, 27).join('')}…` : name)

function barOf(statement: Statement, y: number, x: (kept: number) => number, right: number): Markup {
  switch (statement.kind) {
    case 'interval': {
      const { low, high } = statement.interval
      return html`<path class="whisker heavy" d="M${x(low)} ${y}H${x(high)}M${x(low)} ${y - 5}V${y + 5}M${x(high)} ${y - 5}V${y + 5}"/>${markAt(x(statement.value), y, 'diamond', false)}`
    }
    case 'atLeast': {
      const from = x(statement.bound)
      return html`<path class="whisker heavy dotted" d="M${from} ${y}H${right - 4}"/><path class="whisker heavy" d="M${from} ${y - 6}V${y + 6}M${right - 10} ${y - 4}L${right - 3} ${y}L${right - 10} ${y + 4}"/>`
    }
    case 'atMost': {
      const to = x(statement.bound)
      return html`<path class="whisker heavy dotted" d="M${NAMES + 4} ${y}H${to}"/><path class="whisker heavy" d="M${to} ${y - 6}V${y + 6}M${NAMES + 10} ${y - 4}L${NAMES + 3} ${y}L${NAMES + 10} ${y + 4}"/>`
    }
    case 'between':
      return html`<path class="whisker heavy dotted" d="M${x(statement.low)} ${y}H${x(statement.high)}"/><path class="whisker heavy" d="M${x(statement.low)} ${y - 6}V${y + 6}M${x(statement.high)} ${y - 6}V${y + 6}"/>`
    case 'untold': return html`<text x="${(NAMES + right) / 2}" y="${y + 4}" text-anchor="middle" class="soft">?</text>`
  }
}
