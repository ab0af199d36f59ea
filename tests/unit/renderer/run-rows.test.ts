/** The table of runs: grouped by set-up, control runs folded under what they correct, sorted by a head. */
import { describe, expect, it } from 'vitest'
import { useSorting } from '../../../renderer/parts/sorting'
import { runRows } from '../../../renderer/screens/load/runRows'
import type { RunResult } from '@core/airflow'

const run = (runId: string, configurationId: string, controlRunIds: readonly string[] = []) =>
  ({ runId, configurationId, controlRunIds, control: runId.startsWith('bare') }) as unknown as RunResult
const RUNS = [
  run('bare', 'plain'), run('a1', 'plain', ['bare']), run('b1', 'wing', ['bare']), run('a2', 'plain'), run('bare-2', 'wing'),
]
const told = (rows: ReturnType<typeof runRows>) =>
  rows.map(({ run: { runId }, folded, first }) => `${folded ? `${folded}>` : ''}${runId}${first ? '*' : ''}`)

describe('the table of runs', () => {
  it('keeps set-ups together and control runs folded; one that corrects nothing stands by itself', () => {
    expect(told(runRows(RUNS, new Set(), (list) => list, false))).toEqual(['a1*', 'a2', 'b1*', 'bare-2'])
    expect(told(runRows(RUNS, new Set(['b1']), (list) => list, false))).toEqual(['a1*', 'a2', 'b1*', 'b1>bare', 'bare-2'])
  })

  it('is put in order by a head: rising, falling, as it came; what has no value is last', () => {
    const sorting = useSorting<'size'>()
    const value = ({ runId }: RunResult): number | null => ({ a1: 3, a2: 1, b1: 2 })[runId] ?? null
    const order = (): string[] =>
      runRows(RUNS, new Set(), (list) => sorting.sorted(list, value), sorting.by.value !== null)
      .map(({ run: { runId } }) => runId)
    sorting.press('size')
    expect([sorting.state('size'), order()]).toEqual(['ascending', ['a2', 'b1', 'a1', 'bare-2']])
    sorting.press('size')
    expect([sorting.state('size'), order()]).toEqual(['descending', ['a1', 'b1', 'a2', 'bare-2']])
    sorting.press('size')
    expect([sorting.state('size'), order()]).toEqual(['none', ['a1', 'a2', 'b1', 'bare-2']])
  })
})
