/** Track sessions: levels in the order driven, gains, and whether bench and track agree. */
import { driven, GAIN, TRACK_RUN } from '../columns'
import { html, type Markup } from '../html'
import type { TrackGroup } from '@core/track'
import type { Paper } from '../paper'
import { repeatsChart } from '../svg/repeats'
import { trackInScope } from './inScope'
import { remarks } from './remarks'
import { resultTable } from './table'

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
  const { run, setUp, order, repeats, scatter, level, speed } = TRACK_RUN
  const { before, after, gain, expected, normalised, verdict, driftRemoved } = GAIN
  return html`${repeatsChart(paper, group)}${
    resultTable(paper, [order, run, setUp, level, repeats, scatter, speed], driven([group]))}${
    resultTable(paper, [before, after, gain, expected, normalised, verdict, driftRemoved], group.comparisons)}<p class="small">${
    paper.say('driftPerRun')}: ${paper.said(group.drift.perRun, 'share', { signed: true })}</p>`
}
