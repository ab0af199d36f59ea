/** Clearance under one axle's tray against road speed, one line per set-up, with the ground drawn. */
import type { HeightPoint } from '@core/aero'
import type { Axle } from '@core/schema'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { areaOf, drawing, legend, lineOf, plotOf, rangeOf } from './plot'

export interface HeightLine { readonly name: string; readonly points: readonly HeightPoint[] }

const WIDTH = 320
const HEIGHT = 176
/** Dashes in the order of the set-ups: they stay apart without colour. */
export const LOOKS = ['plain', 'dashed', 'dotted', 'dashDot', 'plain thin', 'dashed thin'] as const

/** Null where no set-up has a clearance to draw. */
export function heightChart(paper: Paper, axle: Axle, lines: readonly HeightLine[]): Markup | null {
  const speed = (kept: number) => paper.number(kept, 'speed')
  const length = (kept: number) => paper.number(kept, 'length')
  const drawn = lines.slice(0, LOOKS.length).map(({ name, points }) => ({
    name,
    points: points.map((point) => {
      const said = point.clearanceMm[axle]
      const ends = said.kind === 'interval' ? said.interval : { low: NaN, high: NaN }
      return {
        x: speed(point.speedMs), y: said.kind === 'interval' ? length(Math.max(0, said.value)) : NaN,
        low: length(Math.max(0, ends.low)), high: length(Math.max(0, ends.high)),
      }
    }),
  })).filter(({ points }) => points.some((point) => Number.isFinite(point.y)))
  if (drawn.length === 0) return null
  const { high: top } = rangeOf(drawn.flatMap((line) => line.points.map((point) => point.high)), { from: 0 })
  const plot = plotOf({
    tick: paper.plain, width: WIDTH, height: HEIGHT,
    x: { low: 0, high: Math.max(...lines.flatMap((line) => line.points.map((point) => speed(point.speedMs)))) },
    // A strip below zero for the ground.
    y: { low: -0.12 * top, high: top },
  })
  const title = paper.say('heights', { axle: paper.say(axle) })
  const { left, right, bottom } = plot.inner
  const ground = plot.y(0)
  const hatch = Array.from({ length: Math.ceil((right - left) / 7) }, (_, i) =>
    `M${left + i * 7} ${bottom}L${Math.min(right, left + i * 7 + 7)} ${ground}`).join('')
  return html`<figure><figcaption>${title}</figcaption>${drawing(WIDTH, HEIGHT, title, [
    plot.axes(paper.say('speed', { unit: paper.symbol('speed') }), paper.say('clearance', { unit: paper.symbol('length') })),
    html`<path class="hatch" d="${hatch}"/><path class="ground" d="M${left} ${ground}H${right}"/>`,
    ...drawn.map((line) => areaOf(line.points, plot)),
    ...drawn.map((line, index) => lineOf(line.points, plot, LOOKS[index] as string)),
  ])}${legend(drawn.map((line, index) => ({ sample: html`<path class="line ${LOOKS[index] as string}" d="M-12 0H12"/>`, text: line.name })))}</figure>`
}
