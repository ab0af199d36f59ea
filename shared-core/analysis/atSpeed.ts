/** A set-up at any road speed, from results that stand: for a question that is asked after the whole was worked out. */
import { predict, type Prediction } from '@core/aero'
import type { Chassis } from '@core/schema'
import { curvesOf, hasCurve } from './squats'
import type { Analysis, ConfigurationResult } from './types'

/**
 * Load, ride height and clearance of a set-up at a road speed, by the newest curves.
 *
 * @param speedMs road speed, m/s, above zero, in the air of the set-up's runs
 */
export const atSpeed = (
  { squats }: Pick<Analysis, 'squats'>, { aero }: Pick<ConfigurationResult, 'aero'>, chassis: Chassis, speedMs: number,
): Prediction => predict(aero, curvesOf(squats.findLast(hasCurve)), chassis, speedMs)

/** Set-ups with their predictions at these speeds, m/s, in place of those they had. */
export const toldAt = (
  analysis: Pick<Analysis, 'squats'>, all: readonly ConfigurationResult[], chassis: Chassis, speedsMs: readonly number[],
): ConfigurationResult[] => all.map((each) => ({
  ...each, predictions: speedsMs.map((speedMs) => atSpeed(analysis, each, chassis, speedMs)),
}))
