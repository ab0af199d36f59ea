/**
 * Line drawings for paper: axes with round ticks, and marks that stay apart in black and white. All
 * lengths are in the drawing's own units, which the page scales to its column.
 */
import { html, type Markup } from '../html'

export interface Range { readonly low: number; readonly high: number }
export interface Frame {
  readonly width: number
  readonly height: number
  readonly x: Range
  readonly y: Range
  /** Larger values below, as a drop is drawn. */
  readonly yDown?: boolean
  /** Writes a tick's number. */
  readonly tick: (value: number) => string
}

const LEFT = 46
const RIGHT = 12
const TOP = 12
const BOTTOM = 36

/** Ends and steps of 1, 2 or 5 times a power of ten, about `count` of them. */
export function ticks({ low, high }: Range, count = 6): number[] {
  const span = high - low
  if (!(span > 0) || !Number.isFinite(span)) return [low]
  const rough = span / count
  const power = 10 ** Math.floor(Math.log10(rough))
  const step = ([1, 2, 5, 10].find((each) => each * power >= rough * 0.999) ?? 10) * power
  const first = Math.ceil(low / step - 1e-9)
  const last = Math.floor(high / step + 1e-9)
  return Array.from({ length: last - first + 1 }, (_, index) => Number(((first + index) * step).toPrecision(12)))
}

/** A range that holds all finite values, widened by a share on both sides; 0 to 1 where there are none. */
export function rangeOf(
  values: readonly number[], { margin = 0.05, from }: { margin?: number; from?: number } = {},
): Range {
  const finite = values.filter((value) => Number.isFinite(value))
  if (finite.length === 0) return { low: 0, high: 1 }
  const least = Math.min(...finite)
  const low = from === undefined ? least : Math.min(from, least)
  const high = Math.max(...finite, from ?? -Infinity)
  const span = high - low || Math.abs(high) || 1
  return { low: low === from ? low : low - margin * span, high: high + margin * span }
}

export interface Plot {
  readonly x: (value: number) => number
  readonly y: (value: number) => number
  readonly inner: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number }
  readonly axes: (xTitle: string, yTitle: string) => Markup
}

const round = (value: number): number => Math.round(value * 100) / 100

export function plotOf(frame: Frame): Plot {
  const inner = { left: LEFT, right: frame.width - RIGHT, top: TOP, bottom: frame.height - BOTTOM }
  const share = (value: number, { low, high }: Range) => (value - low) / (high - low || 1)
  const x = (value: number) => round(inner.left + share(value, frame.x) * (inner.right - inner.left))
  const y = (value: number) => {
    const up = share(value, frame.y) * (inner.bottom - inner.top)
    return round(frame.yDown ? inner.top + up : inner.bottom - up)
  }
  const axes = (xTitle: string, yTitle: string): Markup => html`
    ${ticks(frame.x, 7).map((tick) => html`<line class="grid" x1="${x(tick)}" x2="${x(tick)}" y1="${inner.top}" y2="${inner.bottom}"/><text x="${x(tick)}" y="${inner.bottom + 13}" text-anchor="middle">${frame.tick(tick)}</text>`)}
    ${ticks(frame.y, 5).map((tick) => html`<line class="grid" x1="${inner.left}" x2="${inner.right}" y1="${y(tick)}" y2="${y(tick)}"/><text x="${inner.left - 5}" y="${y(tick) + 3.5}" text-anchor="end">${frame.tick(tick)}</text>`)}
    <path class="axis" d="M${inner.left} ${inner.top}V${inner.bottom}H${inner.right}"/>
    <text x="${(inner.left + inner.right) / 2}" y="${frame.height - 5}" text-anchor="middle">${xTitle}</text>
    <text transform="translate(11 ${(inner.top + inner.bottom) / 2}) rotate(-90)" text-anchor="middle">${yTitle}</text>`
  return { x, y, inner, axes }
}

export interface At { readonly x: number; readonly y: number }

/** A line through points; a point that is not finite breaks it. */
export function lineOf(points: readonly At[], plot: Plot, look: string): Markup {
  let pen = 'M'
  let d = ''
  for (const point of points) {
    if (!Number.isFinite(point.x) || !Number.isFinite(point.y)) {
      pen = 'M'
      continue
    }
    d += `${pen}${plot.x(point.x)} ${plot.y(point.y)}`
    pen = 'L'
  }
  return d === '' ? html`` : html`<path class="line ${look}" d="${d}"/>`
}

/** The area between two lines over the same abscissae. */
export function areaOf(points: readonly { x: number; low: number; high: number }[], plot: Plot): Markup {
  const whole = points.filter((each) => Number.isFinite(each.low) && Number.isFinite(each.high))
  if (whole.length < 2) return html``
  const there = whole.map((each) => `${plot.x(each.x)} ${plot.y(each.high)}`)
  const back = [...whole].reverse().map((each) => `${plot.x(each.x)} ${plot.y(each.low)}`)
  return html`<path class="area" d="M${[...there, ...back].join('L')}Z"/>`
}

export type Shape = 'up' | 'down' | 'circle' | 'square' | 'cross' | 'diamond'

const PATHS: Readonly<Record<Shape, string>> = {
  up: 'M0 -4.4L4 3H-4Z', down: 'M0 4.4L4 -3H-4Z', circle: 'M-3.4 0A3.4 3.4 0 1 0 3.4 0A3.4 3.4 0 1 0 -3.4 0Z',
  square: 'M-3.2 -3.2H3.2V3.2H-3.2Z', cross: 'M-3.4 -3.4L3.4 3.4M-3.4 3.4L3.4 -3.4', diamond: 'M0 -4.6L4.6 0L0 4.6L-4.6 0Z',
}

/** One mark at a place of the drawing. */
export const markAt = (x: number, y: number, shape: Shape, hollow: boolean): Markup =>
  html`<path class="mark${hollow ? ' hollow' : ''}" transform="translate(${x} ${y})" d="${PATHS[shape]}"/>`

/** A drawing with its title for those who cannot see it. */
export const drawing = (width: number, height: number, title: string, body: Markup | readonly Markup[]): Markup =>
  html`<svg viewBox="0 0 ${width} ${height}" role="img" aria-label="${title}"><title>${title}</title>${body}</svg>`

/** Words for the marks in use, in one row above a drawing. */
export const legend = (entries: readonly { readonly sample: Markup; readonly text: string }[]): Markup =>
  html`<p class="legend">${entries.map(({ sample, text }) => html`<span><svg class="sample" viewBox="-12 -6 24 12" aria-hidden="true">${sample}</svg>${text}</span>`)}</p>`
