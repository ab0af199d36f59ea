/** The squat tests of a file: curves, how they are drawn, and what the springs' dimensions say. */
import {
  calibrateAxles, calibrateCorners, curveBand, evenForces, type CalibrationResult,
} from '@core/calibration'
import { springWheelRate } from '@core/aero'
import { AXLES, type Axle, type Chassis, type SquatSession } from '@core/schema'
import { scaled } from '@core/uncertainty'
import type { AnalysisOptions, DrawnCurve, SquatResult, TheoryRate } from './types'

const forAxles = <T>(make: (axle: Axle) => T): Record<Axle, T> => ({ front: make('front'), rear: make('rear') })

function drawn(curve: CalibrationResult): DrawnCurve[] {
  if (curve.refused) return []
  const forces = evenForces(curve)
  const branches = curve.settled ? (['mid'] as const) : (['loading', 'unloading'] as const)
  return branches
    .filter((branch) => branch === 'mid' || curve.points.some((point) => point.branch === branch))
    .map((branch) => ({ shape: curve.chosen, branch, points: curveBand(curve, forces, branch) }))
}

/** The rate of both springs of an axle together, by their dimensions or by their seller. */
function theory(chassis: Chassis, axle: Axle): TheoryRate[] {
  return chassis.springs.filter((spring) => spring.fitted && spring.axle === axle).flatMap((spring) => {
    const rate = springWheelRate(spring)
    return rate ? [{ springId: spring.id, name: spring.name, axleRateNPerMm: scaled(rate, 2) }] : []
  })
}

/** One squat test. It never throws on a parsed session: what is missing stands in the curves' refusals. */
export function analyseSquat(session: SquatSession, chassis: Chassis, options: AnalysisOptions): SquatResult {
  const axles = calibrateAxles(session, chassis)
  return {
    sessionId: session.id, name: session.name, axles,
    corners: options.corners ? calibrateCorners(session, chassis) : null,
    drawn: forAxles((axle) => drawn(axles[axle])),
    theory: forAxles((axle) => theory(chassis, axle)),
    verdict: { front: null, rear: null },
    nextLoad: null,
    remarks: [],
  }
}

/** Where both axles refuse there is no curve to read by. */
export const hasCurve = ({ axles }: SquatResult): boolean => AXLES.some((axle) => !axles[axle].refused)
