/** What holds the tray off the ground: the needed wheel rate, and what the springs at hand would do. */
import { axleModels, neededRate, springsThatHold, type NeededRate, type SpringOutcome } from '@core/aero'
import type { Analysis, ConfigurationResult } from '@core/analysis'
import type { Axle, Chassis } from '@core/schema'

export interface SpringAnswer { readonly needed: NeededRate; readonly springs: readonly SpringOutcome[] }

/** Null where the axle has no curve, or the drop at which it touches is not known. */
export function answerSpring(
  analysis: Analysis, { aero }: ConfigurationResult, chassis: Chassis, axle: Axle, clearanceMm: number, speedMs: number,
): SpringAnswer | null {
  const squat = analysis.squats.findLast(({ axles }) => !axles.front.refused || !axles.rear.refused)
  const curve = (of: Axle) => { const result = squat?.axles[of]; return result && !result.refused ? result : null }
  const model = axleModels(aero, { front: curve('front'), rear: curve('rear') })[axle]
  if (!model?.curve.touchMm) return null
  return {
    needed: neededRate(model, axle, clearanceMm, speedMs, aero.densityKgM3),
    springs: springsThatHold(model, axle, chassis.springs, clearanceMm, speedMs, aero.densityKgM3),
  }
}
