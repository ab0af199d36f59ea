/** The rows of the table of runs: by set-up, with control runs folded under the runs they were taken off from. */
import type { RunResult } from '@core/airflow'
import type { Axle } from '@core/schema'
import type { Statement } from '@core/uncertainty'

export interface RunRow {
  readonly run: RunResult
  /** Run under which a control run is shown; null for a row of its own. */
  readonly folded: string | null
  /** The first row of its set-up, which names it. */
  readonly first: boolean
  /** Control runs that were taken off from it. */
  readonly controls: number
}

/** What a run tells: a control run its own load, others what is left after it. */
export function statementOf(run: RunResult, of: Axle | 'total'): Statement {
  if (of === 'total') return (run.control ? run.grossTotalN : run.totalN).statement
  return (run.control ? run.axles[of].grossN : run.axles[of].netN).statement
}

/**
 * @param open runs whose control runs are shown
 * @param order puts runs in the order that was asked for
 * @param ordered true where one was asked for: every row names its set-up then
 */
export function runRows(
  runs: readonly RunResult[], open: ReadonlySet<string>, order: (runs: readonly RunResult[]) => readonly RunResult[],
  ordered: boolean,
): RunRow[] {
  const taken = new Set(runs.flatMap(({ controlRunIds }) => controlRunIds))
  const alone = runs.filter(({ runId }) => !taken.has(runId))
  const list = ordered ? order(alone) : bySetUp(alone)
  return list.flatMap((run, i): RunRow[] => {
    const controls = runs.filter(({ runId }) => run.controlRunIds.includes(runId))
    const first = ordered || list[i - 1]?.configurationId !== run.configurationId
    return [
      { run, folded: null, first, controls: controls.length },
      ...(open.has(run.runId)
        ? controls.map((control): RunRow => ({ run: control, folded: run.runId, first: false, controls: 0 })) : []),
    ]
  })
}

/** Set-ups in the order of their first runs, each with its runs together. */
function bySetUp(runs: readonly RunResult[]): RunResult[] {
  const ids = [...new Set(runs.map(({ configurationId }) => configurationId))]
  return ids.flatMap((id) => runs.filter(({ configurationId }) => configurationId === id))
}
