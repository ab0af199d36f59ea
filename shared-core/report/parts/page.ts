/** The one page to hand round: answer, car, ladder, room against speed, conditions, fingerprint. */
import { AXLES } from '@core/schema'
import { atSpeed } from '@core/analysis'
import { answerOf, type Answer } from '@core/answer'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { heightChart } from '../svg/heights'
import { ladderChart } from '../svg/ladder'
import { loadDropChart } from '../svg/loadDrop'
import { answer } from './answer'
import { heading } from './heading'
import { inShort } from './inShort'
import { setUpsInScope } from './inScope'
import { troubles } from './troubles'

/** More set-ups than these stand in the annex only: the page stays one. */
const MOST_RUNGS = 6

export function page(paper: Paper): Markup {
  const { scope, analysis, exchange, units } = paper
  const found = answerOf(analysis, exchange.chassis, {
    units, ...(scope.kind === 'comparison' ? { of: [scope.a, scope.b] } : {}),
  })
  return html`<div class="page">${heading(paper)}${troubles(paper)}${
    found ? html`${answer(paper, found)}${ladder(paper, found)}${room(paper)}${conditions(paper, found)}`
      : html`${inShort(paper)}<div class="two">${curves(paper)}</div>`}${foot(paper)}</div>`
}

/** Loads at the answer's speed. */
function ladder(paper: Paper, { speed: { speedMs } }: Answer): Markup {
  const all = setUpsInScope(paper)
  const rungs = all.slice(0, MOST_RUNGS).map((each) => ({
    name: each.name, statement: atSpeed(paper.analysis, each, paper.exchange.chassis, speedMs).totalN,
  }))
  const title = paper.say('loadAt', { speed: paper.short(speedMs, 'speed') })
  return html`${ladderChart(paper, title, paper.say('loadAxis', { unit: paper.symbol('force') }), 'force', rungs)}${
    all.length > MOST_RUNGS ? html`<p class="small">${paper.say('more', { count: all.length - MOST_RUNGS })}</p>` : null}`
}

function room(paper: Paper): Markup {
  const lines = setUpsInScope(paper).slice(0, MOST_RUNGS).map((each) => ({ name: each.name, points: each.heights }))
  const charts = AXLES.flatMap((axle) => heightChart(paper, axle, lines) ?? [])
  return charts.length > 0 ? html`<div class="two">${charts}</div>` : html``
}

/** Without air yet: the newest squat test that has curves. */
function curves(paper: Paper): Markup[] {
  const squat = paper.analysis.squats.findLast((each) => AXLES.some((axle) => !each.axles[axle].refused))
  return squat ? AXLES.flatMap((axle) => {
    const curve = squat.axles[axle]
    return curve.refused ? [] : [loadDropChart(paper, axle, curve, squat.drawn[axle])]
  }) : []
}

/** In what air, at which speeds and of what it was read. */
function conditions(paper: Paper, found: Answer): Markup {
  const { say } = paper
  const all = setUpsInScope(paper)
  const best = all.find(({ configurationId }) => configurationId === found.configurationId)
  const speeds = all.flatMap(({ aero: { total: { lowMs, highMs } } }) => [lowMs, highMs])
    .filter((each) => Number.isFinite(each))
  const runs = new Set(all.flatMap(({ aero }) => aero.whole.runIds)).size
  const texts = [
    ...(best ? [say('conditionAir', { density: paper.showUncertain(best.aero.densityKgM3, 'density') })] : []),
    ...(speeds.length > 0 ? [say('conditionRead', {
      runs, low: paper.short(Math.min(...speeds), 'speed'), high: paper.short(Math.max(...speeds), 'speed'),
    })] : []),
    say(`sureMeasure_${found.measure}`),
  ]
  return html`<p class="small"><b>${say('conditions')}.</b> ${texts.join(' ')} ${say('coverageNote')}</p>`
}

const foot = ({ say, about }: Paper): Markup =>
  html`<p class="small">${say('cautionDriving')}</p><p class="small"><b>${say('fingerprint')}</b> <span class="mono">${about.fingerprint}</span></p>`
