/**
 * How the car comes to rest: what the points of both curves scatter beyond what the gauge was said to. The
 * runs that are read by those curves stand on the same car, so it belongs to their states as well; and as
 * both axles are read at the same steps, how far both move together shows too.
 */
import type { Axle } from '@core/schema'
import { chiSquareUpper, fromData, fromSource, sum, variance, type Uncertain } from '@core/uncertainty'
import type { Calibration, CurvePoint } from './types'

export interface Settling {
  /** Standard deviation of an axle line from state to state, mm, beyond its readings' own. */
  readonly uMm: Readonly<Record<Axle, number>>
  /** Covariance of both axle lines, mm^2; below zero where the car rocks. */
  readonly sharedMm2: number
  /** Correlation of all that the points of both curves scatter, -1 to 1. */
  readonly alike: number
  readonly dof: number
  /** The one estimate that all states draw it from. */
  readonly pool: string
}

/** Scatter counts as more than stated where chance rarely makes so much. */
const CLEARLY = 0.05
const LEAST_PAIRS = 3

interface Scatter {
  readonly chiSquare: number
  readonly dof: number
  /** Variance of the points about the curve, mm^2, and what of it was not stated. */
  readonly wholeMm2: number
  readonly surplusMm2: number
}

/** Settling as both curves of a squat test show it; null where their scatter is what was stated. */
export function settlingOf(curves: Readonly<Record<Axle, Calibration | null>>): Settling | null {
  const { front, rear } = curves
  const [one, other] = [front && scatterOf(front), rear && scatterOf(rear)]
  const dof = (one?.dof ?? 0) + (other?.dof ?? 0)
  const chiSquare = (one?.chiSquare ?? 0) + (other?.chiSquare ?? 0)
  if (dof < 1 || !(chiSquareUpper(chiSquare, dof) < CLEARLY)) return null
  const squares = { front: (one ?? other)!.surplusMm2, rear: (other ?? one)!.surplusMm2 }
  const most = Math.sqrt(squares.front * squares.rear)
  const alike = front && rear ? correlationOf(front, rear) : 0
  const together = one && other ? alike * Math.sqrt(one.wholeMm2 * other.wholeMm2) : 0
  return {
    uMm: { front: Math.sqrt(squares.front), rear: Math.sqrt(squares.rear) },
    sharedMm2: Math.max(-most, Math.min(most, together)),
    alike,
    // Both axles are read at the same steps: moving together they tell one scatter, not two.
    dof: Math.max(1, one && other ? Math.max(one.dof, other.dof) : dof),
    pool: `settling:${(front ?? rear)!.sessionId}`,
  }
}

const ownSquare = ({ dropMm }: CurvePoint): number =>
  variance({ value: 0, parts: dropMm.parts.filter(({ source }) => source.lifetime === 'reading') })

const told = ({ points }: Calibration): CurvePoint[] =>
  points.filter(({ used, touched, residual }) => used && !touched && residual !== null)

/** Surplus variance of a curve's points, none where they scatter as stated or less. */
function scatterOf(calibration: Calibration): Scatter | null {
  const { candidates, chosen } = calibration
  const fit = candidates.find(({ shape }) => shape === chosen)
  const points = told(calibration)
  if (!fit?.fitted || fit.dof < 1 || points.length === 0) return null
  const own = points.reduce((sum, point) => sum + ownSquare(point), 0) / points.length
  return {
    chiSquare: fit.chiSquare, dof: fit.dof, wholeMm2: fit.birge ** 2 * own,
    surplusMm2: Math.max(0, fit.birge ** 2 - 1) * own,
  }
}

/** Correlation of both axles' residuals at the same steps; what is stated of them has nothing in common. */
function correlationOf(front: Calibration, rear: Calibration): number {
  const others = new Map(told(rear).map((point) => [point.stepId, point.residual!]))
  const pairs = told(front).flatMap(({ stepId, residual }) => {
    const other = others.get(stepId)
    return other === undefined ? [] : [[residual!, other] as const]
  })
  if (pairs.length < LEAST_PAIRS) return 0
  const [one, other, both] = pairs.reduce(([a, b, c], [x, y]) => [a + x * x, b + y * y, c + x * y], [0, 0, 0])
  return one > 0 && other > 0 ? both / Math.sqrt(one * other) : 0
}

/**
 * A corner's indication with how the car comes to rest in a state: by what both axle lines share, and what each
 * does alone.
 *
 * @param state name of the state, one over the whole analysis
 */
export function atRest(
  shown: Uncertain, axle: Axle, { uMm, sharedMm2, dof, pool }: Settling, state: string,
): Uncertain {
  // Both share a part by their correlation; it is put on each in proportion to how far it moves.
  const most = Math.sqrt(uMm.front * uMm.rear)
  const together = most > 0 ? (Math.sqrt(Math.abs(sharedMm2)) * uMm[axle]) / most : 0
  const alone = Math.sqrt(Math.max(0, uMm[axle] ** 2 - together ** 2))
  const sign = axle === 'rear' ? Math.sign(sharedMm2) : 1
  return sum([
    shown, fromSource(0, sign * together, fromData('settling', `settling:${state}`, dof, pool)),
    fromSource(0, alone, fromData('settling', `settling:${state}:${axle}`, dof, pool)),
  ])
}
