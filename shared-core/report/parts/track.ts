/** Track sessions: levels in the order driven, gains, and whether bench and track agree. */
import { driven, GAIN, TRACK_RUN, type Column } from '../columns'
import { html, type Markup } from '../html'
import type { CornerBalance, GradientChange, TrackComparison, TrackGroup, TrackResult, UndersteerGradient } from '@core/track'
import type { Paper } from '../paper'
import { CORNER, GRADIENT, GRADIENT_CHANGE, NEEDED, PAIRED } from '../trackColumns'
import { repeatsChart } from '../svg/repeats'
import { trackInScope } from './inScope'
import { remarks } from './remarks'
import { resultTable } from './table'

export function track(paper: Paper): Markup[] {
  return trackInScope(paper).map(({ sessionId, groups }) => {
    const name = paper.exchange.sessions.find((each) => each.id === sessionId)?.name ?? sessionId
    const result = paper.analysis.tracks.find((each) => each.sessionId === sessionId)!
    const { sensitivity, from } = result.sensitivity
    return html`<section><h2>${paper.say('track', { name })}</h2>${groups.map((group) => groupPart(paper, group))}${balancePart(paper, result)}<p class="small">${
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
    resultTable(paper, [before, after, gain, expected, normalised, verdict, driftRemoved], group.comparisons)}${
    resultTable(paper, Object.values<Column<TrackComparison>>(NEEDED), group.comparisons.filter(({ agreement }) => agreement))}${
    resultTable(paper, Object.values<Column<TrackComparison>>(PAIRED), group.comparisons.filter(isPaired))}<p class="small">${
    paper.say('driftPerRun')}: ${paper.said(group.drift.perRun, 'share', { signed: true })}</p>`
}

const isPaired = ({ paired, covariates }: TrackComparison): boolean => paired !== null || covariates !== null

/** Gradients of the steady circles, and the chosen corner; nothing where there is neither. */
function balancePart(paper: Paper, { gradients, gradientChanges, corners }: TrackResult): Markup {
  return html`${resultTable(paper, Object.values<Column<UndersteerGradient>>(GRADIENT), gradients)}${
    resultTable(paper, Object.values<Column<GradientChange>>(GRADIENT_CHANGE), gradientChanges)}${
    corners.length > 0 ? html`<p class="small">${paper.say('corner')}</p>` : null}${
    resultTable(paper, Object.values<Column<CornerBalance>>(CORNER), corners)}`
}
