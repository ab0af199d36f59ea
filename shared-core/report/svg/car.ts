/** The car that carries its load on paper, from the side and from above. */
import { fromAbove, fromSide, largestLoad, stretchOf, type Drawing, type LoadedCar, type Shape } from '@core/drawing'
import { AXLES } from '@core/schema'
import { carSentence, carTexts } from '../carTexts'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { drawing } from './plot'

/** @param title what stands over it: the set-up and its speed */
export function carPicture(paper: Paper, car: LoadedCar, title: string): Markup {
  const longestN = largestLoad(AXLES.map((axle) => car.axles[axle].loadN))
  const sentence = `${title}. ${carSentence(car, paper)}`
  const side = fromSide(car, carTexts(car, paper), longestN)
  return html`<figure class="car">${painted(side, sentence)}${
    painted(fromAbove(car, longestN), sentence)}<p class="small">${
    paper.say('pictureStretch', { times: stretchOf(car) })} ${paper.say('pictureKey')}</p></figure>`
}

const painted = ({ width, height, shapes }: Drawing, title: string): Markup =>
  drawing(width, height, title, shapes.map(shape))

function shape(each: Shape): Markup {
  const look = `car-${each.look}${each.also ? ` of-${each.also}` : ''}`
  return each.kind === 'path' ? html`<path class="${look}" d="${each.d}"/>`
    : html`<text class="${look}" x="${each.x}" y="${each.y}" text-anchor="${each.anchor}" font-size="${each.size}">${each.text}</text>`
}
