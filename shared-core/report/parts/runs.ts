/** Runs in moving air: the air, the drops, the loads as read and after the control run. */
import type { RunResult, SessionRuns } from '@core/airflow'
import { AXLES, type Axle } from '@core/schema'
import { RUN } from '../columns'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { runsInScope } from './inScope'
import { remarks } from './remarks'
import { cellOf, list } from './table'

export function runs(paper: Paper, session: SessionRuns): Markup {
  const { say } = paper
  const inScope = runsInScope(paper, session.runs)
  if (inScope.length === 0 && session.unread.length === 0) return html``
  const name = paper.exchange.sessions.find((each) => each.id === session.sessionId)?.name ?? session.sessionId
  const unread = session.unread.map((run) => `${run.name}: ${run.remarks.map(paper.remark).join(' ')}`)
  return html`<section><h2>${say('runs', { name })}</h2>${inScope.length > 0 ? runTable(paper, inScope) : null}${
    unread.length > 0 ? html`<h3>${say('unread')}</h3>${list(unread)}` : null}${
    remarks(paper, inScope.flatMap((run) => [...run.remarks, ...run.air.remarks]))}</section>`
}

/** A row that names the run and its air, then one row for each axle. */
function runTable(paper: Paper, all: readonly RunResult[]): Markup {
  const columns = [RUN.drop, RUN.gross, RUN.controlled, RUN.net]
  const axleRow = (run: RunResult, axle: Axle): Markup => html`<tr><th scope="row">${paper.say(axle)}</th>${
    columns.map((each) => html`<td>${cellOf(paper, each, { run, axle })}</td>`)}</tr>`
  return html`<table class="runs"><thead><tr><td></td>${columns.map(({ head }) => html`<th scope="col">${head && paper.say(head)}</th>`)}</tr></thead>${
    all.map((run) => html`<tbody><tr><th scope="rowgroup" colspan="${columns.length + 1}">${run.name}<span class="ends"> · ${
      aboutRun(paper, run).join(' · ')}</span></th></tr>${AXLES.map((axle) => axleRow(run, axle))}</tbody>`)}</table>`
}

/** Set-up, kind, and speed, pressure, density and unevenness of the air a run met. */
function aboutRun(paper: Paper, { air, flow, ...run }: RunResult): string[] {
  const { say } = paper
  const parts = [paper.nameOf(run.configurationId), say(`kind_${run.kind}`)]
  if (run.control) parts.push(say('control'))
  if (run.setting) parts.push(run.setting)
  if (!flow) return parts
  parts.push(
    paper.showUncertain(flow.speedMs, 'speed'), paper.showUncertain(flow.dynamicPressurePa, 'pressure'),
    paper.showUncertain(air.densityKgM3, 'density'))
  if (flow.unevenness !== null) parts.push(`${say('uneven')} ${paper.show(flow.unevenness, 'share', { u: 0.01 })}`)
  return parts
}
