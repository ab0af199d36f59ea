/** A whole track session against the bench. */
import { AXLES, type Axle, type TrackSession } from '@core/schema'
import { combine, scaled } from '@core/uncertainty'
import { agreement } from './agreement'
import { trackGroups } from './compare'
import { expectedGain } from './expected'
import { meanSpeed, type SensorPlaces } from './levels'
import { sensitivityOf } from './sensitivity'
import type { Agreement, BenchLoads, CarWeight, Sensitivity, TrackComparison, TrackGroup, TrackResult } from './types'

/** What the bench and the profile know; null where there is nothing yet. */
export interface TrackContext {
  readonly bench: BenchLoads | null
  readonly weight: CarWeight | null
  /** Where each acceleration sensor sits, by its id; none where left out. */
  readonly places?: SensorPlaces
}

/**
 * Levels, comparisons, expected gains and agreement of a track session.
 *
 * @param session parsed session; runs and laps set aside take no part
 * @param context bench loads and weight; without them there are levels and comparisons only
 */
export function trackCheck(session: TrackSession, { bench, weight, places = new Map() }: TrackContext): TrackResult {
  const { groups, remarks } = trackGroups(session, places)
  const sensitivity = sensitivityOf(session, groups, weight, bench)
  const checked = groups.map((group) => ({
    ...group,
    comparisons: group.comparisons.map((comparison) => ({
      ...comparison, agreement: agreementOf(group, comparison, sensitivity, { bench, weight }),
    })),
  }))
  return { sessionId: session.id, groups: checked, sensitivity, remarks }
}

function agreementOf(
  group: TrackGroup, comparison: TrackComparison, sensitivity: Sensitivity, { bench, weight }: TrackContext,
): Agreement | null {
  if (!bench || !weight) return null
  const runsOf = (id: string) => group.runs.filter((run) => run.configurationId === id)
  const before = meanSpeed(runsOf(comparison.beforeId))
  const after = meanSpeed(runsOf(comparison.afterId))
  if (!before || !after) return null
  const { beforeId, afterId } = comparison
  const expected = expectedGain(bench, withBallast(weight, group), sensitivity, beforeId, afterId, { before, after })
  if (!expected) return null
  return agreement(comparison.gain.claim, expected, {
    manoeuvre: group.manoeuvre, drift: group.drift.verdict, driftRemoved: comparison.driftRemoved,
    lapInDoubt: group.runs.some((run) => run.lapInDoubt), warmerK: comparison.warmerK,
  })
}

/** Ballast stands on the axles as the car does; its own uncertainty is nothing beside the rest. */
function withBallast(weight: CarWeight, group: TrackGroup): CarWeight {
  const ballastN = (group.runs[0]?.ballastKg ?? 0) * weight.gravityMs2
  if (ballastN === 0) return weight
  const { totalN, axlesN } = weight
  const factor = (totalN.value + ballastN) / totalN.value
  return {
    ...weight, totalN: combine(totalN.value + ballastN, [[totalN, 1]]),
    axlesN: axlesN && Object.fromEntries(AXLES.map((axle) => [axle, scaled(axlesN[axle], factor)])) as Record<
      Axle, typeof totalN
    >,
  }
}
