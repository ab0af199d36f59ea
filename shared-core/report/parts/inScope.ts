/** Which set-ups, runs and comparisons the report is about. */
import { toldAt, type ConfigurationResult } from '@core/analysis'
import { toldSpeeds } from '@core/answer'
import type { Comparison, MatrixCell } from '@core/aero'
import type { RunResult } from '@core/airflow'
import type { TrackComparison, TrackGroup } from '@core/track'
import type { Paper } from '../paper'

/** Set-ups in the order of the ladder: most downforce first, those without a rank last. */
export function setUpsInScope(paper: Paper): ConfigurationResult[] {
  const ranks = new Map(paper.analysis.matrix?.ranked.map((row) => [row.configurationId, row.rank]) ?? [])
  const wanted = paper.analysis.configurations.filter((each) => isInScope(paper, each.configurationId))
  const rank = (each: ConfigurationResult) => ranks.get(each.configurationId) ?? Infinity
  return [...wanted].sort((a, b) => rank(a) - rank(b))
}

/** The same with their loads at the answer's speed and at the ends of what was read. */
export function atToldSpeeds(paper: Paper): ConfigurationResult[] {
  const all = setUpsInScope(paper)
  const { analysis, exchange: { chassis }, units } = paper
  return toldAt(analysis, all, chassis, toldSpeeds(chassis, all, units))
}

export const isInScope = ({ scope }: Paper, configurationId: string): boolean =>
  scope.kind === 'chassis' || configurationId === scope.a || configurationId === scope.b

/** Runs of the set-ups in scope, with the control runs they lean on. */
export function runsInScope(paper: Paper, runs: readonly RunResult[]): RunResult[] {
  const own = runs.filter((run) => isInScope(paper, run.configurationId))
  const leaned = new Set(own.flatMap((run) => run.controlRunIds))
  return runs.filter((run) => isInScope(paper, run.configurationId) || leaned.has(run.runId))
}

export const cellsInScope = (paper: Paper): MatrixCell[] =>
  (paper.analysis.matrix?.cells ?? []).filter(({ comparison }) =>
    isInScope(paper, comparison.configurationA) && isInScope(paper, comparison.configurationB))

/** The one pair a comparison is about; null in a report of the whole chassis, or where there is none. */
export function comparedPair(paper: Paper): MatrixCell | null {
  return paper.scope.kind === 'comparison' ? (cellsInScope(paper)[0] ?? null) : null
}

/** Track groups that have a run in scope, with the comparisons in scope. */
export function trackInScope(paper: Paper): { readonly sessionId: string; readonly groups: TrackGroup[] }[] {
  return paper.analysis.tracks.map(({ sessionId, groups }) => ({
    sessionId,
    groups: groups.filter((group) => group.runs.some((run) => isInScope(paper, run.configurationId))).map((group) => ({
      ...group, comparisons: group.comparisons.filter((each) => inPair(paper, each)),
    })),
  })).filter(({ groups }) => groups.length > 0)
}

const inPair = (paper: Paper, each: TrackComparison): boolean =>
  isInScope(paper, each.beforeId) && isInScope(paper, each.afterId)

/** A name for a pair, "A less B". */
export const pairName = (paper: Paper, { configurationA, configurationB }: Comparison): string =>
  paper.say('less', { a: paper.nameOf(configurationA), b: paper.nameOf(configurationB) })
