/** Runs of a track group in the order driven: every repeat as a mark, the mean with its interval. */
import { ownError, type TrackGroup } from '@core/track'
import { coverageInterval, effectiveDof, standardUncertainty } from '@core/uncertainty'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { drawing, legend, markAt, plotOf, rangeOf, type Shape } from './plot'

const WIDTH = 660
const HEIGHT = 240
const SHAPES: readonly Shape[] = ['circle', 'square', 'up', 'down', 'diamond']

export function repeatsChart(paper: Paper, group: TrackGroup): Markup {
  const level = (kept: number) => paper.number(kept, 'acceleration')
  const names = [...new Set(group.runs.map((run) => run.configurationId))]
  const all = group.runs.flatMap((run) => run.repeats.map((repeat) => level(repeat.levelMs2)))
  const plot = plotOf({
    tick: paper.plain,
    width: WIDTH, height: HEIGHT, x: { low: 0.4, high: group.runs.length + 0.6 }, y: rangeOf(all, { margin: 0.15 }),
  })
  const title = paper.say('repeatsOf', { what: paper.say(group.manoeuvre) })
  const look = (id: string) => {
    const at = names.indexOf(id)
    return { shape: SHAPES[at % SHAPES.length] as Shape, hollow: at % 2 === 1 }
  }
  const marks = group.runs.map((run, index) => {
    const x = plot.x(index + 1)
    const { low, high } = ownInterval(run)
    const { shape, hollow } = look(run.configurationId)
    return html`<path class="whisker heavy" d="M${x - 9} ${plot.y(level(run.levelMs2.value))}H${x + 9}M${x} ${plot.y(level(low))}V${plot.y(level(high))}"/>${run.repeats.map((repeat, lap) => markAt(x + 14 + (lap % 8) * 4, plot.y(level(repeat.levelMs2)), repeat.used ? shape : 'cross', hollow))}`
  })
  return html`<figure class="wide"><figcaption>${title}</figcaption>${drawing(WIDTH, HEIGHT, title, [
    plot.axes(paper.say('orderAxis'), paper.say('levelAxis', { unit: paper.symbol('acceleration') })), ...marks,
  ])}${legend(names.map((id) => ({ sample: markAt(0, 0, look(id).shape, look(id).hollow), text: paper.nameOf(id) })))}</figure>`
}

/** Interval from the run's own scatter alone: what runs share would only lift all of them together. */
function ownInterval(run: TrackGroup['runs'][number]) {
  const own = ownError(run)
  return coverageInterval(run.levelMs2.value, standardUncertainty(own), effectiveDof(own))
}
