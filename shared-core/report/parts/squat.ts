/** One squat test: curves, candidates, readings. */
import type { SquatResult } from '@core/analysis'
import { PARAMETERS, type Candidate } from '@core/calibration'
import { AXLES, cellOf, CORNERS, type Axle, type SquatSession } from '@core/schema'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { loadDropChart, residualChart } from '../svg/loadDrop'
import { remarks } from './remarks'
import { table } from './table'

/** Rows of readings printed; the tables have all. */
export const MOST_READINGS = 120

export function squat(paper: Paper, result: SquatResult): Markup {
  const session = paper.exchange.sessions.find((each): each is SquatSession => each.id === result.sessionId && each.kind === 'squat')
  return html`<section><h2>${paper.say('squat', { name: result.name })}</h2><div class="two">${
    AXLES.map((axle) => html`<div>${axleDrawings(paper, result, axle)}</div>`)}</div>${AXLES.map((axle) => candidates(paper, result, axle))}${
    remarks(paper, [...result.remarks, ...AXLES.flatMap((axle) => result.axles[axle].remarks)])}${
    session ? readings(paper, session) : null}</section>`
}

function axleDrawings(paper: Paper, result: SquatResult, axle: Axle): Markup {
  const curve = result.axles[axle]
  if (curve.refused) {
    const title = paper.say(axle === 'front' ? 'frontTitle' : 'rearTitle')
    return html`<h3>${title}</h3><p>${paper.say(`refused_${curve.code}`)}</p>`
  }
  return html`${loadDropChart(paper, axle, curve, result.drawn[axle])}${residualChart(paper, axle, curve)}`
}

function candidates(paper: Paper, result: SquatResult, axle: Axle): Markup {
  const curve = result.axles[axle]
  if (curve.refused) return html``
  const { say } = paper
  const fitted = curve.candidates.filter((each): each is Extract<Candidate, { fitted: true }> => each.fitted)
  const rows = fitted.map((each) => [
    `${say(`shapeName_${each.shape}`)}${each.shape === curve.chosen ? ` (${say('chosen')})` : ''}`,
    paper.show(each.weight, 'share', { u: 0.01 }),
    each.parameters.map(({ name, estimate }) =>
      `${say(`parameter_${name}`)} ${paper.showUncertain(estimate, PARAMETERS[name])}`).join('; '),
    `${paper.plain(each.chiSquare.toPrecision(3))} / ${each.dof}`,
    each.frictionFrom === 'none' ? say('frictionFrom_none')
      : `${paper.showUncertain(each.frictionN, 'force')}, ${say(`frictionFrom_${each.frictionFrom}`)}`,
  ])
  return table([say('shapes'), say('support'), say('parameters'), say('fitQuality'), say('friction')], rows, {
    caption: `${say(axle === 'front' ? 'frontTitle' : 'rearTitle')}, ${say('range')}: ${paper.short(curve.rangeN, 'force')}, ${paper.short(curve.rangeMm, 'length')}`,
  })
}

function readings(paper: Paper, session: SquatSession): Markup {
  const { say } = paper
  const shown = new Map(session.readings.filter((each) => each.setAside === null)
    .map((each) => [cellOf(each.stepId, each.corner), each]))
  const stepMm = paper.exchange.chassis.gauges.find(({ id }) => id === session.setup.gaugeId)?.resolutionMm
  const names = new Map(paper.exchange.chassis.loads.map((load) => [load.id, load.name]))
  const rows = session.steps.slice(0, MOST_READINGS).map((step, index) => {
    const marks = CORNERS.map((corner) => {
      const found = shown.get(cellOf(step.id, corner))
      return found ? `${paper.reading(found.shownMm, stepMm)}${found.corrections.length > 0 ? '*' : ''}` : '–'
    })
    const notes = [
      step.setAside ? say('setAside', { why: step.setAside.why }) : '',
      step.touched.front || step.touched.rear ? say('touched') : '', step.note,
    ].filter((each) => each !== '')
    return [String(index + 1), say(step.branch), step.placed.map(({ loadId }) => names.get(loadId) ?? loadId).join(', ') || '–',
      ...marks, notes.join('; ')]
  })
  const more = session.steps.length - rows.length
  return html`${table([say('step'), say('branch'), say('loads'), ...CORNERS.map((corner) => say(corner)), say('note')], rows, {
    caption: say('readings'), numbers: [3, 4, 5, 6],
  })}${rows.some((row) => row.some((cell) => cell.endsWith('*'))) ? html`<p class="small">* ${say('corrected')}</p>` : null}${
    more > 0 ? html`<p class="small">${say('moreRows', { count: more })}</p>` : null}`
}
