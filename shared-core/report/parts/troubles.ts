/** What stands in the way of the results: said before them, and again behind them. */
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { list } from './table'

export function troubles({ say, remark, analysis }: Paper): Markup {
  if (analysis.troubles.length === 0) return html``
  const sentences = analysis.troubles.map((each) => {
    if (each.part === 'curve') return `${each.name}: ${remark(each.remark)}`
    return say(each.part === 'setUps' ? 'troubleSetUps' : 'troubleSession', { name: each.name })
  })
  return html`<section class="box"><h2>${say('troubles')}</h2>${list(sentences)}</section>`
}
