/** Load and drop of one axle: readings by branch with their uncertainty, the curve with its band, the ground. */
import type { Calibration, CurvePoint } from '@core/calibration'
import type { DrawnCurve } from '@core/analysis'
import type { Axle } from '@core/schema'
import { standardUncertainty } from '@core/uncertainty'
import { html, type Markup } from '../html'
import { BRANCH_MARKS, TOUCHED_MARK, UNUSED_MARK, type Mark } from '../marks'
import type { Paper } from '../paper'
import { areaOf, drawing, legend, lineOf, markAt, plotOf, rangeOf } from './plot'

const LOOKS = { loading: 'plain', unloading: 'dashed', mid: 'plain' } as const
const WIDTH = 320
const HEIGHT = 190
const REST_HEIGHT = 100

const lookOf = (point: CurvePoint): Mark => {
  if (!point.used) return UNUSED_MARK
  return point.touched ? TOUCHED_MARK : BRANCH_MARKS[point.branch]
}

/** The chart with its legend. */
export function loadDropChart(paper: Paper, axle: Axle, curve: Calibration, drawn: readonly DrawnCurve[]): Markup {
  const force = (kept: number) => paper.number(kept, 'force')
  const length = (kept: number) => paper.number(kept, 'length')
  const touch = curve.touchMm && length(curve.touchMm.value)
  const xs = [
    ...curve.points.map((point) => force(point.forceN.value)),
    ...drawn.flatMap((each) => each.points.map((p) => force(p.forceN))),
  ]
  const ys = [...curve.points.map((point) => length(point.dropMm.value)), ...(touch === null ? [] : [touch])]
  const plot = plotOf({
    tick: paper.plain,
    width: WIDTH, height: HEIGHT, x: rangeOf(xs, { from: 0 }), y: rangeOf(ys, { from: 0 }), yDown: true,
  })
  const say = paper.say
  const title = say('loadDrop', { axle: say(axle === 'front' ? 'frontTitle' : 'rearTitle') })
  const body = [
    plot.axes(say('load', { unit: paper.symbol('force') }), say('drop', { unit: paper.symbol('length') })),
    ...drawn.map((each) => areaOf(each.points.map((p) =>
      ({ x: force(p.forceN), low: length(p.dropMm - 2 * p.uMm), high: length(p.dropMm + 2 * p.uMm) })), plot)),
    ...drawn.map(({ points, branch }) =>
      lineOf(points.map((p) => ({ x: force(p.forceN), y: length(p.dropMm) })), plot, LOOKS[branch])),
    touch === null ? html`` : html`<path class="line dotted" d="M${plot.inner.left} ${plot.y(touch)}H${plot.inner.right}"/><text x="${plot.inner.left + 4}" y="${plot.y(touch) - 4}">${say('touchLine')}</text>`,
    ...curve.points.map((point) => pointAt(point, plot, force, length)),
  ]
  return html`<figure><figcaption>${title}</figcaption>${drawing(WIDTH, HEIGHT, title, body)}${legendOf(paper, curve.points)}</figure>`
}

function pointAt(
  point: CurvePoint, plot: ReturnType<typeof plotOf>, force: (kept: number) => number, length: (kept: number) => number,
): Markup {
  const [x, y] = [plot.x(force(point.forceN.value)), plot.y(length(point.dropMm.value))]
  const uX = 2 * standardUncertainty(point.forceN)
  const uY = 2 * standardUncertainty(point.dropMm)
  const { shape, hollow } = lookOf(point)
  return html`<path class="whisker" d="M${plot.x(force(point.forceN.value - uX))} ${y}H${plot.x(force(point.forceN.value + uX))}M${x} ${plot.y(length(point.dropMm.value - uY))}V${plot.y(length(point.dropMm.value + uY))}"/>${markAt(x, y, shape, hollow)}`
}

const sampleOf = ({ shape, hollow }: Mark): Markup => markAt(0, 0, shape, hollow)

function legendOf(paper: Paper, points: readonly CurvePoint[]): Markup {
  const used = points.filter((point) => point.used && !point.touched)
  const entries = (['loading', 'unloading', 'mid'] as const)
    .filter((branch) => used.some((point) => point.branch === branch))
    .map((branch) => ({ sample: sampleOf(BRANCH_MARKS[branch]), text: paper.say(branch) }))
  const add = (mark: Mark, text: string) => entries.push({ sample: sampleOf(mark), text })
  if (points.some((point) => point.used && point.touched)) add(TOUCHED_MARK, paper.say('touched'))
  if (points.some((point) => !point.used)) add(UNUSED_MARK, paper.say('notUsed'))
  return legend([...entries, { sample: html`<path class="area" d="M-11 -4H11V4H-11Z"/>`, text: paper.say('band') }])
}

/** What is left of the readings off the curve, in units of their own uncertainty. */
export function residualChart(paper: Paper, axle: Axle, curve: Calibration): Markup {
  const points = curve.points.filter((point) => point.residual !== null)
  if (points.length === 0) return html``
  const force = (point: CurvePoint) => paper.number(point.forceN.value, 'force')
  const plot = plotOf({
    tick: paper.plain, width: WIDTH, height: REST_HEIGHT, x: rangeOf(curve.points.map(force), { from: 0 }),
    y: rangeOf([...points.map((point) => point.residual as number), -2.5, 2.5], { margin: 0.02 }),
  })
  const title = `${paper.say('residuals')}, ${paper.say(axle)}`
  return html`<figure><figcaption>${title}</figcaption>${drawing(WIDTH, REST_HEIGHT, title, [
    plot.axes(paper.say('load', { unit: paper.symbol('force') }), ''),
    html`<path class="axis" d="M${plot.inner.left} ${plot.y(0)}H${plot.inner.right}"/><path class="line dotted" d="M${plot.inner.left} ${plot.y(2)}H${plot.inner.right}M${plot.inner.left} ${plot.y(-2)}H${plot.inner.right}"/>`,
    ...points.map((point) => {
      const { shape, hollow } = lookOf(point)
      return markAt(plot.x(force(point)), plot.y(point.residual as number), shape, hollow)
    }),
  ])}</figure>`
}
