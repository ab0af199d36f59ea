/** Everything the command prints, whether as tables or as JSON. */
import { repeatsNeeded, type Comparison, type RepeatsNeeded } from '@core/aero'
import {
  analyse, answerSpring, DEFAULT_OPTIONS, rankBy, type Analysis, type RankedSetup, type RankQuestion,
  toldAt, type SpringAnswer,
} from '@core/analysis'
import { inOrder, toldSpeeds } from '@core/answer'
import { AXLES, type Axle, type Exchange } from '@core/schema'
import { DEFAULT_UNITS } from '@core/units'
import type { Options } from './options'

export type Wishes = Pick<Options, 'speedsMs' | 'heightsToMs' | 'holdMm' | 'holdAtMs' | 'findM2' | 'rank' | 'radiusM' | 'course'>

export interface Results {
  readonly exchange: Exchange
  readonly analysis: Analysis
  readonly wishes: Wishes
  /** By configuration; null for an axle that has no curve or whose touching drop is not known. */
  readonly springs: Readonly<Record<string, Readonly<Record<Axle, SpringAnswer | null>>>>
  /** What was put in order beside downforce; null where nothing was asked. */
  readonly ranking: { readonly question: RankQuestion; readonly list: readonly RankedSetup[] } | null
  /** Null where no difference to find was wished. */
  readonly repeats: (comparison: Comparison) => RepeatsNeeded | null
}

/** Works a file out for what was wished. */
export function resultsOf(exchange: Exchange, wishes: Wishes): Results {
  const worked = analyse(exchange, {
    ...DEFAULT_OPTIONS, speedsMs: [], heightUpToMs: wishes.heightsToMs, heightsFor: 'all',
    cornerRadiusM: wishes.rank === 'corner' ? wishes.radiusM : null,
  })
  const speedsMs = wishes.speedsMs ?? toldSpeeds(exchange.chassis, inOrder(worked), DEFAULT_UNITS)
  const analysis: Analysis = {
    ...worked, configurations: toldAt(worked, worked.configurations, exchange.chassis, speedsMs),
  }
  const answers = (configuration: Analysis['configurations'][number]) => Object.fromEntries(AXLES.map((axle) =>
    [axle, answerSpring(analysis, configuration, exchange.chassis, axle, wishes.holdMm, wishes.holdAtMs)]))
  return {
    exchange, analysis, wishes, ranking: rankingOf(analysis, wishes),
    springs: Object.fromEntries(analysis.configurations.map((each) => [each.configurationId, answers(each)])) as Results['springs'],
    repeats: (comparison) => (wishes.findM2 === null ? null : repeatsNeeded(comparison, wishes.findM2)),
  }
}

function rankingOf({ costs }: Analysis, { rank, course }: Wishes): Results['ranking'] {
  if (rank === null) return null
  const courseId = costs.courses.find(({ name }) => course === null || name === course)?.courseId ?? ''
  const question: RankQuestion = rank === 'lap' ? { by: rank, courseId } : { by: rank }
  return { question, list: rankBy(costs, question) }
}

/** Exit code of the command: 1 where a part could not be worked out, so that no script takes the rest for all. */
export const exitCodeOf = ({ analysis }: Pick<Results, 'analysis'>): 0 | 1 =>
  (analysis.troubles.some(({ part }) => part !== 'curve') ? 1 : 0)
