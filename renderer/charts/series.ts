/** What a chart is given: series in the units shown, and the table that says the same. */
import type { CsvCell } from '@core/report'
import type { Formatted } from '@core/units'

export interface ChartPoint {
  readonly x: number
  readonly y: number
  /** Half-lengths of the error bars. */
  readonly ux?: number
  readonly uy?: number
  /** What hover and the keyboard say of the point. */
  readonly said?: string
}

export interface Series {
  readonly label: string
  /** A colour role of the look, such as `front`, `rear`, `whole`, `bound`, `lead`, `stop`. */
  readonly role: string
  /** `band` fills to the next series, an `edge`, which is its other side. */
  readonly look: 'points' | 'line' | 'band' | 'edge'
  readonly points: readonly ChartPoint[]
  readonly dashed?: boolean
  readonly hidden?: boolean
  /** Filled with the ground's colour, so that colour is not the only carrier. */
  readonly hollow?: boolean
  readonly mark?: 'circle' | 'rect' | 'triangle' | 'crossRot' | 'rectRot' | 'star'
}

/** A text, a count, or a figure in the unit shown that ends where its uncertainty says. */
export type ChartCell = string | number | Formatted

export interface ChartTable {
  readonly heads: readonly string[]
  readonly rows: readonly (readonly ChartCell[])[]
}

/** What stands in the table, with the decimal mark and the minus of the language. */
export const cellText = (cell: ChartCell): string => (typeof cell === 'object' ? cell.value : String(cell))

/** The same for a sheet: a number where it is one. */
export const cellForSheet = (cell: ChartCell): CsvCell => (typeof cell === 'object' ? cell.figure : cell)

/** Digits after the decimal mark that tell the ticks of an axis apart, which stand at even steps. */
export function tickDecimals(ticks: readonly { readonly value: number }[]): number {
  const [, second, third] = ticks.length > 3 ? ticks : [null, ...ticks]
  const step = second && third ? Math.abs(third.value - second.value) : 1
  const decimals = step > 0 ? Math.max(0, -Math.floor(Math.log10(step) + 1e-9)) : 0
  const steps = step * 10 ** decimals
  return Math.abs(steps - Math.round(steps)) > 1e-6 * steps ? decimals + 1 : decimals
}
