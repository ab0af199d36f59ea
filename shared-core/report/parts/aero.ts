/** Coefficients, balance, predictions and comparisons of all set-ups in scope. */
import { AXLES } from '@core/schema'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { budgetBars } from '../svg/budgetBars'
import { cellsInScope, pairName, setUpsInScope } from './inScope'
import { probabilityText } from './inShort'
import { remarks } from './remarks'
import { table } from './table'

export function aero(paper: Paper): Markup {
  const all = setUpsInScope(paper)
  if (all.length === 0) return html``
  return html`<section><h2>${paper.say('coefficients')}</h2>${coefficients(paper)}${balance(paper)}<h3>${paper.say('predictions')}</h3>${
    predictions(paper)}${touchDowns(paper)}${comparisons(paper)}<div class="two">${budgets(paper)}</div>${
    remarks(paper, [...all.flatMap((each) => each.aero.remarks), ...(paper.analysis.matrix?.remarks ?? [])])}</section>`
}

function coefficients(paper: Paper): Markup {
  const { say } = paper
  return table(
    [say('setup'), say('claFront'), say('claRear'), say('cla'), say('exponent'), say('points'), say('birge')],
    setUpsInScope(paper).map(({ name, aero: { axles, total } }) => [
      name, ...AXLES.map((axle) => paper.cell(axles[axle].claM2.statement, 'area')), paper.cell(total.claM2.statement, 'area'),
      exponentText(paper, total.exponent.exponent), String(total.points.length),
      paper.plain(total.birge.toPrecision(3)),
    ]))
}

/** The exponent has no unit: two digits of its u, or its words. */
function exponentText(paper: Paper, said: Parameters<Paper['said']>[0]): string {
  if (said.kind !== 'interval') return paper.say('untold')
  const [value, low, high] = [said.value, said.interval.low, said.interval.high]
    .map((each) => paper.plain(each.toFixed(2)))
  return `${value} (${paper.say('ends', { low: low as string, high: high as string })})`
}

function balance(paper: Paper): Markup {
  const { say } = paper
  return table(
    [say('setup'), say('frontShare'), say('staticShare'), say('shift'), say('centre')],
    setUpsInScope(paper).map(({ name, aero: { balance: each } }) => [
      name, paper.cell(each.frontShare, 'share'), paper.cell(each.staticFrontShare, 'share'),
      paper.cell(each.shift, 'share', { signed: true }), paper.cell(each.centreMm, 'length'),
    ]))
}

function predictions(paper: Paper): Markup {
  const { say } = paper
  const rows = setUpsInScope(paper).flatMap(({ name, predictions: all }) => all.map((each, index) => [
    index === 0 ? name : '', paper.short(each.speedMs, 'speed'),
    ...AXLES.map((axle) => paper.cell(each.forceN[axle], 'force')), paper.cell(each.totalN, 'force'),
    paper.cell(each.weightShare, 'share'),
    ...AXLES.map((axle) => paper.cell(each.clearanceMm[axle], 'length')),
  ]))
  return table([
    say('setup'), '', say('front'), say('rear'), say('total'), say('share'),
    `${say('clearanceIs')}, ${say('front')}`, `${say('clearanceIs')}, ${say('rear')}`,
  ], rows)
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
  const { say } = paper
  const rows = cellsInScope(paper).map(({ comparison, holmP, distinct }) => [
    pairName(paper, comparison), ...AXLES.map((axle) => paper.cell(comparison.axles[axle].differenceM2.statement, 'area', { signed: true })),
    paper.cell(comparison.total.differenceM2.statement, 'area', { signed: true }),
    probabilityText(paper, comparison.total.probabilityLarger),
    holmP === null ? '–' : holmP < 0.001 ? paper.plain('< 0.001') : paper.plain(holmP.toPrecision(2)), say(distinct ? 'yes' : 'no'),
    comparison.smallestDetectableM2 === null ? '–' : paper.short(comparison.smallestDetectableM2, 'area'),
  ])
  return html`${rows.length > 0 ? html`<h3>${say('comparisons')}</h3>` : null}${table([
    say('setups'), say('front'), say('rear'), say('total'), say('chance'), say('pHolm'), say('apart'), say('detectable'),
  ], rows)}`
}

function budgets(paper: Paper): Markup[] {
  return setUpsInScope(paper).flatMap(({ name, aero: { total } }) => (total.claM2.statement.kind === 'interval'
    ? [budgetBars(paper, `${paper.say('cla')}, ${name}`, total.claM2.statement.budget, 'area')] : []))
}
