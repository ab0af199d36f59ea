/** What holds the tray off the ground: the needed wheel rate, and what the springs at hand would do. */
import { axleModels, neededRate, springsThatHold, type NeededRate, type SpringOutcome } from '@core/aero'
import type { Axle, Chassis } from '@core/schema'
import { curvesOf, hasCurve } from './squats'
import type { Analysis, ConfigurationResult } from './types'

/** Both ways: wished clearance to rate, and each spring of the list to the clearance it leaves. */
export interface SpringAnswer {
  readonly needed: NeededRate
  readonly springs: readonly SpringOutcome[]
}

/**
 * "What wheel rate holds `clearanceMm` at `speedMs`" for one axle of a configuration, by the newest
 * curves. Null where the axle has no curve, or the drop at which it touches is not known.
 *
 * @param clearanceMm room to be left under the tray at the axle line, mm, zero or more
 * @param speedMs road speed, m/s, above zero, in the air of the configuration's runs
 */
export function answerSpring(
  analysis: Pick<Analysis, 'squats'>, { aero }: Pick<ConfigurationResult, 'aero'>, chassis: Chassis, axle: Axle,
  clearanceMm: number, speedMs: number,
): SpringAnswer | null {
  const model = axleModels(aero, curvesOf(analysis.squats.findLast(hasCurve)), chassis)[axle]
  if (!model?.curve.touchMm) return null
  return {
    needed: neededRate(model, axle, clearanceMm, speedMs, aero.densityKgM3),
    springs: springsThatHold(model, axle, chassis.springs, clearanceMm, speedMs, aero.densityKgM3),
  }
}
