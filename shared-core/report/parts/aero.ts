/** Coefficients, balance, predictions and comparisons of all set-ups in scope. */
import { AXLES } from '@core/schema'
import { PAIR, predicted, PREDICTION, SET_UP } from '../columns'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { budgetBars } from '../svg/budgetBars'
import { atToldSpeeds, cellsInScope, setUpsInScope } from './inScope'
import { remarks } from './remarks'
import { resultTable, table } from './table'

export function aero(paper: Paper): Markup {
  const all = setUpsInScope(paper)
  if (all.length === 0) return html``
  const { name, claFront, claRear, cla, exponent, points, birge, frontShare, staticShare, shift, centre } = SET_UP
  const { setUp, speed, front, rear, total, weightShare, clearanceFront, clearanceRear } = PREDICTION
  return html`<section><h2>${paper.say('coefficients')}</h2>${
    resultTable(paper, [name, claFront, claRear, cla, exponent, points, birge], all)}${
    resultTable(paper, [name, frontShare, staticShare, shift, centre], all)}<h3>${paper.say('predictions')}</h3>${
    resultTable(paper, [setUp, speed, front, rear, total, weightShare, clearanceFront, clearanceRear],
      predicted(atToldSpeeds(paper)))}${
    touchDowns(paper)}${comparisons(paper)}<div class="two">${budgets(paper)}</div>${
    remarks(paper, [...all.flatMap((each) => each.aero.remarks), ...(paper.analysis.matrix?.remarks ?? [])])}</section>`
}

function touchDowns(paper: Paper): Markup {
  const { say } = paper
  const rows = setUpsInScope(paper).flatMap(({ name, touchDowns: each }) => (each ? [[
    name, ...AXLES.map((axle) => {
      const { kind, speedMs, divergesMs } = each.axles[axle]
      if (kind === 'touches' || speedMs.kind !== 'untold') return paper.cell(speedMs, 'speed')
      return say(`touchKind_${kind}`, { speed: divergesMs === null ? '–' : paper.short(divergesMs, 'speed') })
    }), paper.cell(each.firstMs, 'speed'),
  ]] : []))
  return table([say('touchesAt'), say('front'), say('rear'), say('first')], rows)
}

function comparisons(paper: Paper): Markup {
  const { first, second, front, rear, total, chance, pHolm, apart, detectable } = PAIR
  const rows = cellsInScope(paper)
  return html`${rows.length > 0 ? html`<h3>${paper.say('comparisons')}</h3>` : null}${
    resultTable(paper, [first, second, front, rear, total, chance, pHolm, apart, detectable], rows)}`
}

function budgets(paper: Paper): Markup[] {
  return setUpsInScope(paper).flatMap(({ name, aero: { total } }) => (total.claM2.statement.kind === 'interval'
    ? [budgetBars(paper, `${paper.say('cla')}, ${name}`, total.claM2.statement.budget, 'area')] : []))
}
