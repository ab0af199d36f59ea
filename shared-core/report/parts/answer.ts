/** The answer, before everything else on the page, and the car that carries its load. */
import type { Answer } from '@core/answer'
import { carAtSpeed } from '@core/drawing'
import { answerLines } from '../answerLines'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { carPicture } from '../svg/car'
import { list } from './table'

export function answer(paper: Paper, found: Answer): Markup {
  const { title, name, speed, load, isBound, beside, lines } = answerLines(found, paper)
  const best = paper.analysis.configurations.find(({ configurationId }) => configurationId === found.configurationId)
  const car = carAtSpeed(paper.exchange.chassis, found.at, best?.aero.balance ?? null)
  const picture = carPicture(paper, car,
    paper.say('pictureOf', { name, speed: paper.short(found.speed.speedMs, 'speed') }))
  return html`<section class="answer"><h2>${title} <span class="ends">(${speed})</span></h2><p class="said"><span class="answer-name">${name}</span> <span class="answer-load${isBound ? ' bound' : ''}">${load}</span> <span class="answer-beside">${beside.join(' · ')}</span></p><dl>${
    lines.map(({ label, text }) => html`<div><dt>${label}</dt><dd>${text}</dd></div>`)}</dl>${picture}</section>`
}

/** How sure the answer is, for the annex. */
export const howSure = (paper: Paper, found: Answer): Markup =>
  html`<section><h2>${paper.say('howSure')}</h2>${list(answerLines(found, paper).sure)}</section>`
