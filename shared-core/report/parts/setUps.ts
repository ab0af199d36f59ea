/** The annex's first part: the set-ups side by side, what the headline's doubt is made of, limits and cautions. */
import { AXLES } from '@core/schema'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { budgetBars } from '../svg/budgetBars'
import { ladderChart } from '../svg/ladder'
import { atToldSpeeds, comparedPair, pairName, setUpsInScope } from './inScope'
import { list, table } from './table'

/** All set-ups in a table; of a pair also its difference, axle by axle. */
export function setUps(paper: Paper): Markup {
  const { say } = paper
  const all = atToldSpeeds(paper)
  if (all.length === 0) return html``
  const ranks = new Map(paper.analysis.matrix?.ranked.map((row) => [row.configurationId, row.rank]) ?? [])
  const speeds = all[0]!.predictions
  const rows = all.map((each) => [
    ...(paper.scope.kind === 'chassis' ? [String(ranks.get(each.configurationId) ?? '–')] : []), each.name,
    paper.cell(each.aero.total.claM2.statement, 'area'), paper.cell(each.aero.balance.frontShare, 'share'),
    ...each.predictions.map(({ totalN }) => paper.cell(totalN, 'force')),
    each.touchDowns ? paper.cell(each.touchDowns.firstMs, 'speed') : '–',
  ])
  const heads = [
    ...(paper.scope.kind === 'chassis' ? [say('place')] : []), say('setup'), say('cla'), say('frontShare'),
    ...speeds.map(({ speedMs }) => say('loadAt', { speed: paper.short(speedMs, 'speed') })), say('touchesAt'),
  ]
  return html`<section><h2>${say('setups')}</h2>${table(heads, rows)}${difference(paper)}</section>`
}

function difference(paper: Paper): Markup {
  const pair = comparedPair(paper)
  if (!pair) return html``
  const { comparison } = pair
  const rungs = [
    ...AXLES.map((axle) => ({ name: paper.say(axle), statement: comparison.axles[axle].differenceM2.statement })),
    { name: paper.say('total'), statement: comparison.total.differenceM2.statement },
  ]
  return ladderChart(
    paper, pairName(paper, comparison), paper.say('claAxis', { unit: paper.symbol('area') }), 'area', rungs)
}

/** Where the uncertainty of the headline figure comes from, and what this method can't do. */
export const behind = (paper: Paper): Markup =>
  html`<div class="two">${budgets(paper)}${cautions(paper)}</div>${limits(paper)}`

function budgets(paper: Paper): Markup {
  const pair = comparedPair(paper)
  const [best] = setUpsInScope(paper)
  const headline = pair
    ? { name: pairName(paper, pair.comparison), said: pair.comparison.total.differenceM2.statement }
    : best && { name: `${paper.say('cla')}, ${best.name}`, said: best.aero.total.claM2.statement }
  if (!headline || headline.said.kind !== 'interval') return html``
  return budgetBars(paper, headline.name, headline.said.budget, 'area')
}

function limits(paper: Paper): Markup {
  const { say } = paper
  return html`<section class="box"><h3>${say('limits')}</h3>${list([
    say('limitTouch'), say('limitGround'), say('limitControl'), say('limitRange'), say('limitTyres'),
  ])}</section>`
}

/** Where a figure may tempt someone to the bench or the track. */
function cautions({ say }: Paper): Markup {
  return html`<section class="box"><h3>${say('cautions')}</h3>${list([
    say('cautionBlower'), say('cautionDriving'), say('cautionLipo'), say('cautionShot'),
  ])}</section>`
}
