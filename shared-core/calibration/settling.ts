/**
 * How the car comes to rest: what the points of both curves scatter beyond what the gauge was said to. The
 * runs that are read by those curves stand on the same car, so it belongs to their states as well; and as
 * both axles are read at the same steps, how far both move together shows too.
 */
import type { Axle } from '@core/schema'
import { chiSquareUpper, variance } from '@core/uncertainty'
import type { Calibration, CurvePoint } from './types'

export interface Settling {
  /** Standard deviation of an axle line from state to state, mm, beyond its readings' own. */
  readonly uMm: Readonly<Record<Axle, number>>
  /** Covariance of both axle lines, mm^2; below zero where the car rocks. */
  readonly sharedMm2: number
  readonly dof: number
  /** The one estimate that all states draw it from. */
  readonly pool: string
}

/** Scatter counts as more than stated where chance rarely makes so much. */
const CLEARLY = 0.05
const LEAST_PAIRS = 3

interface Scatter { readonly chiSquare: number; readonly dof: number; readonly surplusMm2: number }

/** Settling as both curves of a squat test show it; null where their scatter is what was stated. */
export function settlingOf(curves: Readonly<Record<Axle, Calibration | null>>): Settling | null {
  const { front, rear } = curves
  const [one, other] = [front && scatterOf(front), rear && scatterOf(rear)]
  const dof = (one?.dof ?? 0) + (other?.dof ?? 0)
  const chiSquare = (one?.chiSquare ?? 0) + (other?.chiSquare ?? 0)
  if (dof < 1 || !(chiSquareUpper(chiSquare, dof) < CLEARLY)) return null
  const squares = { front: (one ?? other)!.surplusMm2, rear: (other ?? one)!.surplusMm2 }
  const most = Math.sqrt(squares.front * squares.rear)
  const together = front && rear ? covarianceOf(front, rear) : 0
  return {
    uMm: { front: Math.sqrt(squares.front), rear: Math.sqrt(squares.rear) },
    sharedMm2: Math.max(-most, Math.min(most, together)),
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
  return { chiSquare: fit.chiSquare, dof: fit.dof, surplusMm2: Math.max(0, fit.birge ** 2 - 1) * own }
}

/** Mean product of both axles' residuals at the same steps, mm^2; their stated errors have nothing in common. */
function covarianceOf(front: Calibration, rear: Calibration): number {
  const others = new Map(told(rear).map((point) => [point.stepId, point]))
  const products = told(front).flatMap((point) => {
    const other = others.get(point.stepId)
    return other ? [point.residual! * other.residual! * Math.sqrt(ownSquare(point) * ownSquare(other))] : []
  })
  return products.length < LEAST_PAIRS ? 0 : products.reduce((sum, each) => sum + each, 0) / products.length
}
