/** A whole track session against the bench. */
import { AXLES, type Axle, type Measured, type TrackSession } from '@core/schema'
import { combine, scaled } from '@core/uncertainty'
import { agreement } from './agreement'
import { cornerBalance, gradientChanges, understeerGradient, type CornerBalance, type UndersteerGradient } from './balance'
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
  /** For the understeer gradient; none is told where it is left out. */
  readonly wheelbaseMm?: Measured
}

/**
 * Levels, comparisons, expected gains and agreement of a track session.
 *
 * @param session parsed session; runs and laps set aside take no part
 * @param context bench loads and weight; without them there are levels and comparisons only
 */
export function trackCheck(
  session: TrackSession, { bench, weight, places = new Map(), wheelbaseMm }: TrackContext,
): TrackResult {
  const { groups, remarks } = trackGroups(session, places)
  const sensitivity = sensitivityOf(session, groups, weight, bench)
  const checked = groups.map((group) => ({
    ...group,
    comparisons: group.comparisons.map((comparison) => ({
      ...comparison, agreement: agreementOf(group, comparison, sensitivity, { bench, weight }),
    })),
  }))
  const gradients = wheelbaseMm ? gradientsOf(session, { wheelbaseMm }) : []
  return {
    sessionId: session.id, groups: checked, sensitivity, remarks, gradients,
    gradientChanges: gradientChanges(gradients),
    corners: bench && weight && session.corner ? cornersOf(groups, session.corner, sensitivity, { bench, weight }) : [],
  }
}

const gradientsOf = (session: TrackSession, car: { wheelbaseMm: Measured }): UndersteerGradient[] =>
  session.runs.flatMap((run) =>
    (run.kind === 'steady' && !run.setAside ? understeerGradient(run, car) ?? [] : []))

/** Each set-up that was driven and has a bench load; its grip from the circle on which it was driven most. */
function cornersOf(
  groups: readonly TrackGroup[], corner: NonNullable<TrackSession['corner']>, sensitivity: Sensitivity,
  { bench, weight }: { readonly bench: BenchLoads; readonly weight: CarWeight },
): CornerBalance[] {
  const runs = groups.filter(({ manoeuvre }) => manoeuvre === 'circle').flatMap((group) => group.runs)
  return [...new Set(runs.map(({ configurationId }) => configurationId))].flatMap((id) => {
    const [best] = runs.filter((run) => run.configurationId === id && run.ballastKg === 0 && run.speedMs)
      .sort((a, b) => b.repeats.length - a.repeats.length)
    const load = best?.speedMs ? bench.loadAt(id, best.speedMs) : null
    const grip = best && load ? { levelMs2: best.levelMs2, loadN: load.total } : null
    return cornerBalance(bench, weight, sensitivity, id, corner, grip) ?? []
  })
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
  const loaded = withBallast(weight, group)
  const expected = expectedGain(bench, loaded, sensitivity, beforeId, afterId, { before, after })
  if (!expected) return null
  return agreement(comparison.gain.claim, expected, loaded.totalN, after.value, {
    manoeuvre: group.manoeuvre, drift: group.drift.verdict, driftRemoved: comparison.driftRemoved,
    warmerK: comparison.warmerK,
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
