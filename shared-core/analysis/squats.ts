/** The squat tests of a file: curves, how they are drawn, and what the springs' dimensions say. */
import type { AxleCurves } from '@core/airflow'
import {
  axleTheory, calibrateAxles, calibrateCorners, curveBand, evenForces, nextLoad, sessionRemarks, squatData, verdict,
  type CalibrationResult,
} from '@core/calibration'
import { perAxleOf } from '@core/chassis'
import { AXLES, type Chassis, type SquatSession } from '@core/schema'
import type { AnalysisOptions, DrawnCurve, SquatResult } from './types'

function drawn(curve: CalibrationResult): DrawnCurve[] {
  if (curve.refused) return []
  const forces = evenForces(curve)
  const branches = curve.settled ? (['mid'] as const) : (['loading', 'unloading'] as const)
  return branches
    .filter((branch) => branch === 'mid' || curve.points.some((point) => point.branch === branch))
    .map((branch) => ({ shape: curve.chosen, branch, points: curveBand(curve, forces, branch) }))
}

/** One squat test. It never throws on a parsed session: what is missing stands in the curves' refusals. */
export function analyseSquat(session: SquatSession, chassis: Chassis, options: AnalysisOptions): SquatResult {
  const axles = calibrateAxles(session, chassis)
  const gauge = chassis.gauges.find(({ id }) => id === session.setup.gaugeId)
  const data = squatData(session, chassis)
  return {
    sessionId: session.id, name: session.name, axles,
    corners: options.corners ? calibrateCorners(session, chassis) : null,
    drawn: perAxleOf((axle) => drawn(axles[axle])),
    theory: perAxleOf((axle) => axleTheory(chassis, axle)),
    verdict: perAxleOf((axle) => {
      const curve = axles[axle]
      return curve.refused || !gauge ? null : verdict(curve, session, gauge)
    }),
    nextLoad: nextLoad(axles, session, chassis),
    remarks: data ? sessionRemarks(data) : [],
  }
}

/** Where both axles refuse there is no curve to read by. */
export const hasCurve = ({ axles }: SquatResult): boolean => AXLES.some((axle) => !axles[axle].refused)

/** The curves of a squat test; null where an axle has none, or there is no test. */
export function curvesOf(squat: SquatResult | undefined): AxleCurves {
  const curve = (result: CalibrationResult | undefined) => (result && !result.refused ? result : null)
  return { front: curve(squat?.axles.front), rear: curve(squat?.axles.rear) }
}
