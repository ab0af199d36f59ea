/** The first two pages: answers, the set-ups side by side, their drawings, limits and cautions. */
import { AXLES } from '@core/schema'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { budgetBars } from '../svg/budgetBars'
import { heightChart } from '../svg/heights'
import { ladderChart } from '../svg/ladder'
import { loadDropChart } from '../svg/loadDrop'
import { answer } from './answer'
import { inShort } from './inShort'
import { atToldSpeeds, comparedPair, pairName, setUpsInScope } from './inScope'
import { list, table } from './table'
import { troubles } from './troubles'

/** More set-ups than these stand in the annex only. */
const MOST_ROWS = 8

export function summary(paper: Paper): Markup {
  return html`${heading(paper)}${troubles(paper)}${answer(paper)}${inShort(paper)}${setUps(paper)}${drawings(paper)}${limits(paper)}`
}

function heading(paper: Paper): Markup {
  const { say, about, exchange, scope } = paper
  const title = scope.kind === 'chassis' ? exchange.chassis.name : `${paper.nameOf(scope.a)} / ${paper.nameOf(scope.b)}`
  const kind = say(scope.kind === 'chassis' ? 'title' : 'titleComparison')
  return html`<header><p class="kind">${kind}${scope.kind === 'chassis' ? '' : ` · ${exchange.chassis.name}`}</p><h1>${title}</h1>
    <dl class="meta"><div><dt>${say('made')}</dt><dd>${about.madeAt.slice(0, 16).replace('T', ' ')} UTC</dd></div><div><dt>${say('version')}</dt><dd>${about.version}</dd></div><div><dt>${say('fingerprint')}</dt><dd class="mono">${about.fingerprint.slice(0, 16)}</dd></div></dl></header>
    <p class="small">${say('coverageNote')}</p>`
}

function setUps(paper: Paper): Markup {
  const { say } = paper
  const all = atToldSpeeds(paper)
  if (all.length === 0) return html``
  const ranks = new Map(paper.analysis.matrix?.ranked.map((row) => [row.configurationId, row.rank]) ?? [])
  const speeds = all[0]!.predictions
  const rows = all.slice(0, MOST_ROWS).map((each) => [
    ...(paper.scope.kind === 'chassis' ? [String(ranks.get(each.configurationId) ?? '–')] : []), each.name,
    paper.cell(each.aero.total.claM2.statement, 'area'), paper.cell(each.aero.balance.frontShare, 'share'),
    ...each.predictions.map(({ totalN }) => paper.cell(totalN, 'force')),
    each.touchDowns ? paper.cell(each.touchDowns.firstMs, 'speed') : '–',
  ])
  const heads = [
    ...(paper.scope.kind === 'chassis' ? [say('place')] : []), say('setup'), say('cla'), say('frontShare'),
    ...speeds.map(({ speedMs }) => say('loadAt', { speed: paper.short(speedMs, 'speed') })), say('touchesAt'),
  ]
  return html`<section><h2>${say('setups')}</h2>${table(heads, rows)}${
    all.length > MOST_ROWS ? html`<p class="small">${say('more', { count: all.length - MOST_ROWS })}</p>` : null}</section>`
}

function drawings(paper: Paper): Markup {
  const all = setUpsInScope(paper).slice(0, MOST_ROWS)
  const pair = comparedPair(paper)
  const rungs = pair
    ? [...AXLES.map((axle) => ({
      name: paper.say(axle), statement: pair.comparison.axles[axle].differenceM2.statement,
    })), { name: paper.say('total'), statement: pair.comparison.total.differenceM2.statement }]
    : all.map((each) => ({ name: each.name, statement: each.aero.total.claM2.statement }))
  const title = pair ? pairName(paper, pair.comparison) : paper.say('ladder')
  const heights = AXLES.flatMap((axle) =>
    heightChart(paper, axle, all.map((each) => ({ name: each.name, points: each.heights }))) ?? [])
  return html`${ladderChart(paper, title, paper.say('claAxis', { unit: paper.symbol('area') }), 'area', rungs)}<div class="two">${heights}</div><div class="two">${curves(paper)}</div><div class="two">${budgets(paper)}${cautions(paper)}</div>`
}

/** The newest squat test that has curves. */
function curves(paper: Paper): Markup[] {
  const squat = [...paper.analysis.squats].reverse().find((each) => AXLES.some((axle) => !each.axles[axle].refused))
  if (!squat) return []
  return AXLES.flatMap((axle) => {
    const curve = squat.axles[axle]
    return curve.refused ? [] : [loadDropChart(paper, axle, curve, squat.drawn[axle])]
  })
}

/** Where the uncertainty of the headline figure comes from. */
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
