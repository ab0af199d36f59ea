/**
 * Paired analysis: each run of one configuration with its neighbour of the other. What both runs of a pair
 * share (surface, battery, tyres as they are just then) leaves their difference. A p-value stands only
 * beside the interval that it belongs to.
 */
import {
  combine, fromData, fromSource, intervalStatement, studentUpper, type Statement, type Uncertain,
} from '@core/uncertainty'
import { spreadOf } from '../repeats'
import type { RunLevel } from '../types'

export interface PairedResult {
  readonly pairs: readonly { readonly beforeRunId: string; readonly afterRunId: string; readonly gain: number }[]
  /** After over before, less 1. */
  readonly gain: Statement
  /** Two-sided, of no difference. */
  readonly pValue: number
  /** Pairs that began with the one, and with the other: where they are unlike, a drift stays in. */
  readonly beganBefore: number
  readonly beganAfter: number
  /** Relative standard deviation of one run, from the pairs: what the next plan goes by. */
  readonly runShare: number
}

/** Null with fewer than two pairs of neighbours. */
export function pairedResult(runs: readonly RunLevel[], beforeId: string, afterId: string): PairedResult | null {
  const own = runs.filter(({ configurationId }) => configurationId === beforeId || configurationId === afterId)
    .sort((a, b) => a.order - b.order)
  const pairs: { before: RunLevel; after: RunLevel; began: string }[] = []
  for (let i = 0; i + 1 < own.length; i++) {
    const [one, other] = [own[i]!, own[i + 1]!]
    if (one.configurationId === other.configurationId) continue
    const [before, after] = one.configurationId === beforeId ? [one, other] : [other, one]
    pairs.push({ before, after, began: one.configurationId })
    i++
  }
  if (pairs.length < 2) return null
  const logs = pairs.map(({ before, after }) => Math.log(after.levelMs2.value / before.levelMs2.value))
  const { mean, deviation, count } = spreadOf(logs)
  const u = deviation / Math.sqrt(count)
  const log: Uncertain = fromSource(mean, u, fromData('runScatter', `track:pairs:${beforeId}:${afterId}`, count - 1))
  const gain = combine(Math.expm1(mean), [[log, Math.exp(mean)]])
  const beganBefore = pairs.filter(({ began }) => began === beforeId).length
  return {
    pairs: pairs.map(({ before, after }, i) =>
      ({ beforeRunId: before.runId, afterRunId: after.runId, gain: Math.expm1(logs[i]!) })),
    gain: intervalStatement(gain), beganBefore, beganAfter: count - beganBefore,
    pValue: u === 0 ? (mean === 0 ? 1 : 0) : Math.min(1, 2 * studentUpper(Math.abs(mean) / u, count - 1)),
    runShare: deviation / Math.SQRT2,
  }
}
