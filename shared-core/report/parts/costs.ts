/** What downforce costs: drag and load per drag of the set-ups in scope, drag on the bench, laps of the courses. */
import { COASTS, COST, COST_PAIR, LAP, LAP_PAIR, lapPairsOf, lapsOf, LINE, LINE_SETUP } from '../costColumns'
import { html, type Markup } from '../html'
import type { Paper } from '../paper'
import { isInScope } from './inScope'
import { resultTable } from './table'

export function costs(paper: Paper): Markup {
  const { say, analysis } = paper
  const own = ({ configurationId }: { readonly configurationId: string }) => isInScope(paper, configurationId)
  const both = (pair: { readonly configurationA: string; readonly configurationB: string }) =>
    isInScope(paper, pair.configurationA) && isInScope(paper, pair.configurationB)
  const [setUps, pairs] = [analysis.costs.setups.filter(own), analysis.costs.pairs.filter(both)]
  const [laps, lapPairs] = [lapsOf(analysis.costs).filter(own), lapPairsOf(analysis.costs).filter(both)]
  const [lines, lineSetUps] = [analysis.costs.lines.filter(own), analysis.costs.lineSetups.filter(own)]
  const { coasts, dragFrom } = analysis.costs
  const wouldPart = coasts.flatMap(({ wouldPart: speeds }) => speeds ?? [])
  if (setUps.length + lines.length + laps.length + wouldPart.length === 0) return html``
  const headed = (is: boolean, head: string, body: Markup): Markup => (is ? html`<h3>${head}</h3>${body}` : html``)
  return html`<section><h2>${say('costs')}</h2>${
    resultTable(paper, [COASTS.name, COASTS.count, COASTS.rolling, COASTS.wind, COASTS.gusts], coasts)}${
    wouldPart.map(({ startMs, endMs }) => html`<p>${
      say('wouldPart', { start: paper.short(startMs, 'speed'), end: paper.short(endMs, 'speed') })}</p>`)}${
    dragFrom === 'line' ? html`<p>${say('dragByLine')}</p>` : ''}${
    resultTable(paper, [COST.setUp, COST.cda, COST.loadPerDrag], setUps)}${
    resultTable(paper, [COST_PAIR.first, COST_PAIR.second, COST_PAIR.cda, COST_PAIR.loadPerDrag], pairs)}${
    headed(lines.length > 0, say('lines'), html`${
      resultTable(paper, [LINE_SETUP.setUp, LINE_SETUP.pulls, LINE_SETUP.cda, LINE_SETUP.device], lineSetUps)}${
      resultTable(paper, [
        LINE.run, LINE.setUp, LINE.control, LINE.drag, LINE.cda, LINE.pitchFront, LINE.pitchRear,
      ], lines)}`)}${
    headed(laps.length > 0, say('laps'), html`${
      resultTable(paper, [LAP.course, LAP.setUp, LAP.lap, LAP.topSpeed, LAP.launch], laps)}${
      resultTable(paper, [
        LAP_PAIR.course, LAP_PAIR.first, LAP_PAIR.second, LAP_PAIR.lap, LAP_PAIR.topSpeed, LAP_PAIR.breakEven,
      ], lapPairs)}<p class="small">${say('lapsAssume')}</p>`)}</section>`
}
