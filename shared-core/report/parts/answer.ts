/** The answer, before everything else on the page. */
import { answerOf } from '@core/answer'
import { carAtSpeed } from '@core/drawing'
import { answerLines } from '../answerLines'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { carPicture } from '../svg/car'
import { list } from './table'

/** Nothing where no set-up was read in moving air. */
export function answer(paper: Paper): Markup {
  const { scope, analysis, exchange, units } = paper
  const found = answerOf(analysis, exchange.chassis, {
    units, ...(scope.kind === 'comparison' ? { of: [scope.a, scope.b] } : {}),
  })
  if (!found) return html``
  const { title, name, speed, load, isBound, beside, lines, sure } = answerLines(found, paper)
  const best = analysis.configurations.find(({ configurationId }) => configurationId === found.configurationId)
  const picture = carPicture(paper, carAtSpeed(exchange.chassis, found.at, best?.aero.balance ?? null),
    paper.say('pictureOf', { name, speed: paper.short(found.speed.speedMs, 'speed') }))
  return html`<section class="answer"><h2>${title} <span class="ends">(${speed})</span></h2><p class="answer-name">${name}</p><p><span class="answer-load${isBound ? ' bound' : ''}">${load}</span> <span class="answer-beside">${beside.join(' · ')}</span></p><dl>${
    lines.map(({ label, text }) => html`<div><dt>${label}</dt><dd>${text}</dd></div>`)}</dl>${picture}<div class="small">${list(sure)}</div></section>`
}
