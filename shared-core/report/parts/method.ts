/** How the figures were got, in a few sentences with their standards. */
import { standardUncertainty } from '@core/uncertainty'
import { formatQuantity } from '@core/units'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { cellsInScope } from './inScope'
import { list } from './table'

export function method(paper: Paper): Markup {
  const { say, analysis } = paper
  const gravity = analysis.gravityMs2
  const pairs = analysis.matrix?.pairCount ?? cellsInScope(paper).length
  return html`<section><h2>${say('method')}</h2>${list([
    say('methodSquat', {
      gravity: formatQuantity(gravity.value, 'metrePerSecondSquared', {
        u: standardUncertainty(gravity), decimalMark: paper.units.decimalMark,
      }).text,
      from: say(analysis.gravityFrom === 'place' ? 'gravityPlace' : 'gravityStandard'),
    }),
    say('methodFit'), say('methodRead'), say('methodAir'), say('methodUncertainty'),
    ...(pairs > 0 ? [say('methodCompare', { pairs })] : []),
    ...(analysis.tracks.length > 0 ? [say('methodTrack')] : []),
  ])}</section>`
}
