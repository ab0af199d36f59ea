/** The set-ups in order by what the builder chose: load per drag, level in a corner, lap of a course. */
import { holm, inOrder } from '@core/aero'
import { studentUpper, TELLS_APART, type Statement } from '@core/uncertainty'
import type { CostResult } from './types'

export type RankQuestion =
  | { readonly by: 'loadPerDrag' }
  | { readonly by: 'corner' }
  | { readonly by: 'lap'; readonly courseId: string }

/** One set-up of the list, the best first. */
export interface RankedSetup {
  readonly configurationId: string
  readonly said: Statement
  /** Set-ups from which it can't be told apart after Holm's correction, or of which only a bound is told. */
  readonly tiedWith: readonly string[]
}

interface Entry { readonly configurationId: string; readonly said: Statement }
interface Pair {
  readonly configurationA: string
  readonly configurationB: string
  readonly difference: Statement | null
}

/** The list; empty where nothing of it can be told yet. */
export function rankBy(costs: CostResult, question: RankQuestion): RankedSetup[] {
  const { entries, pairs } = listOf(costs, question)
  const better = question.by === 'lap' ? -1 : 1
  const tested = pairs.flatMap((pair) => {
    const p = pair.difference && chanceOf(pair.difference)
    return p === null ? [] : [{ pair, p }]
  })
  const corrected = holm(tested.map(({ p }) => p))
  const apart = tested.flatMap(({ pair }, i) => (corrected[i]! < TELLS_APART ? [pair] : []))
  const isApart = (one: string, other: string): boolean => apart.some(({ configurationA: a, configurationB: b }) =>
    (a === one && b === other) || (a === other && b === one))
  return inOrder(entries, ({ said }) => placeOf(said, better))
    .map(({ configurationId, said }) => ({
      configurationId, said,
      tiedWith: entries.flatMap(({ configurationId: other }) =>
        (other !== configurationId && !isApart(configurationId, other) ? [other] : [])),
    }))
}

function listOf(costs: CostResult, question: RankQuestion): { entries: readonly Entry[]; pairs: readonly Pair[] } {
  switch (question.by) {
    case 'loadPerDrag': return {
      entries: costs.setups.flatMap(({ configurationId, loadPerDrag }) =>
        (loadPerDrag ? [{ configurationId, said: loadPerDrag }] : [])),
      pairs: costs.pairs.map((pair) => ({ ...pair, difference: pair.loadPerDragDifference })),
    }
    case 'corner': return {
      entries: (costs.corner?.outcomes ?? []).map(({ configurationId, levelMs2: said }) => ({ configurationId, said })),
      pairs: (costs.corner?.differences ?? []).map((pair) => ({ ...pair, difference: pair.levelMs2 })),
    }
    case 'lap': {
      const result = costs.courses.find(({ courseId }) => courseId === question.courseId)?.result
      return {
        entries: (result?.outcomes ?? []).map(({ configurationId, lapS }) => ({ configurationId, said: lapS })),
        pairs: (result?.differences ?? []).map((pair) => ({ ...pair, difference: pair.lapS })),
      }
    }
  }
}

/** Two-sided chance of a difference as large where there is none; null where it is not a value. */
function chanceOf(said: Statement): number | null {
  if (said.kind !== 'interval') return null
  return said.u > 0 ? 2 * studentUpper(Math.abs(said.value) / said.u, said.dof) : said.value === 0 ? 1 : 0
}

/** The better, the greater: the value, or the end that is surely reached; null where that is not told. */
function placeOf(said: Statement, better: 1 | -1): number | null {
  switch (said.kind) {
    case 'interval': return better * said.value
    case 'atLeast': return better === 1 ? said.bound : null
    case 'atMost': return better === 1 ? null : -said.bound
    case 'between': return better === 1 ? said.low : -said.high
    case 'untold': return null
  }
}
