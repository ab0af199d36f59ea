/** Track sessions: levels in the order driven, gains, and whether bench and track agree. */
import { html, type Markup } from '../html'
import type { TrackComparison, TrackGroup } from '@core/track'
import type { Paper } from '../paper'
import { repeatsChart } from '../svg/repeats'
import { trackInScope } from './inScope'
import { remarks } from './remarks'
import { table } from './table'

export function track(paper: Paper): Markup[] {
  return trackInScope(paper).map(({ sessionId, groups }) => {
    const name = paper.exchange.sessions.find((each) => each.id === sessionId)?.name ?? sessionId
    const result = paper.analysis.tracks.find((each) => each.sessionId === sessionId)!
    const { sensitivity, from } = result.sensitivity
    return html`<section><h2>${paper.say('track', { name })}</h2>${groups.map((group) => groupPart(paper, group))}<p class="small">${
      paper.say('sensitivity')} ${paper.plain(sensitivity.value.toFixed(2))} (${paper.say(`sensitivityFrom_${from}`)}).</p>${
      remarks(paper, [...result.remarks, ...result.sensitivity.remarks, ...groups.flatMap(remarksOf)])}</section>`
  })
}

const remarksOf = (group: TrackGroup) => [
  ...group.remarks, ...group.runs.flatMap((run) => run.remarks),
  ...group.comparisons.flatMap((each) => [...each.remarks, ...(each.agreement?.remarks ?? [])]),
]

function groupPart(paper: Paper, group: TrackGroup): Markup {
  const { say } = paper
  const rows = group.runs.map((run) => [
    String(run.order), html`${run.name}<br><span class="ends">${paper.nameOf(run.configurationId)}</span>`,
    paper.cell(run.statement, 'acceleration'),
    `${run.repeats.filter((each) => each.used).length}`,
    run.scatterMs2 === null ? '–' : paper.short(run.scatterMs2, 'acceleration'),
    run.speedMs ? paper.showUncertain(run.speedMs, 'speed') : '–',
  ])
  const pairs = group.comparisons.map((each) => pairRow(paper, each))
  return html`${repeatsChart(paper, group)}${table(
    [say('order'), say('run'), say('level'), say('repeats'), say('scatter'), say('speedHeld')], rows, { numbers: [3] })}${table(
    [say('setups'), say('gain'), say('expected'), say('normalised'), say('verdict')], pairs)}<p class="small">${
    say('driftPerRun')}: ${paper.said(group.drift.perRun, 'share', { signed: true })}</p>`
}

function pairRow(paper: Paper, each: TrackComparison) {
  const { agreement } = each
  return [
    html`${paper.nameOf(each.afterId)} / ${paper.nameOf(each.beforeId)}${each.driftRemoved ? html`<br><span class="ends">${paper.say('driftRemoved')}</span>` : null}`,
    paper.cell(each.gain.statement, 'share', { signed: true }),
    agreement ? paper.cell(agreement.expected.total.statement, 'share', { signed: true }) : '–',
    agreement?.normalisedError === null || !agreement ? '–' : paper.plain(agreement.normalisedError.toFixed(2)),
    agreement ? paper.say(`verdict_${agreement.verdict}`) : '–',
  ]
}
