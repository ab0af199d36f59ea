/**
 * Both curves of a squat test on a car that comes to rest anew at each step. What their points scatter for it
 * was at first taken as each curve's own; but both axles were read at the same steps, and each zero moved all
 * points together. So it is told over: each step's settling goes through both fits to their parameters, and what
 * it does to those of both curves is drawn together into as few sources as there are parameters.
 */
import { AXLES, type Axle } from '@core/schema'
import { fromData, merged, type Part, type Source } from '@core/uncertainty'
import { semidefiniteCholesky } from './fit/orthogonal'
import type { PreparedFit } from './fitData'
import { curvePoints, squatData, type SquatData } from './points'
import type { FittedCandidate } from './select/types'
import { settlingOf, type Settling } from './settling'
import type { Calibration } from './types'

/** A curve with the fit behind it. */
export interface WorkedCurve {
  readonly data: SquatData
  readonly prepared: PreparedFit
  readonly best: FittedCandidate
  readonly calibration: Calibration
}

type Worked = Readonly<Record<Axle, WorkedCurve | null>>

/** With more points the curves are known so well that their scatter may stay each one’s: time is saved at each key. */
const MOST_POINTS = 200

interface SettlingParts {
  /** By axle, what settling contributes to each parameter of the chosen fit. */
  readonly parts: Readonly<Record<Axle, readonly (readonly Part[])[]>>
  /** What both axles' points scatter alike, 0 to 1. */
  readonly alike: number
}

/** How settling goes into both curves; null where nothing shows of it. */
export function settlingParts(worked: Worked): SettlingParts | null {
  const { front, rear } = worked
  const settling = settlingOf({ front: front && front.calibration, rear: rear && rear.calibration })
  if (!settling || AXLES.some((axle) => (worked[axle]?.prepared.points.length ?? 0) > MOST_POINTS)) return null
  const effects = AXLES.map((axle) => {
    const each = worked[axle]
    return each ? effectsOf(each, settling) : []
  })
  const rows = effects.flat()
  const size = rows.length
  const covariance = Float64Array.from({ length: size * size }, (_, at) =>
    productOf(rows[Math.floor(at / size)]!, rows[at % size]!))
  const lower = semidefiniteCholesky(covariance, size)
  const sources = rows.map((_, k) => sourceOf(settling, k))
  const partsOf = (row: number): Part[] => sources.flatMap((source, k) => {
    const contribution = lower[row * size + k]!
    return contribution === 0 ? [] : [{ source, contribution }]
  })
  const parts = rows.map((_, row) => partsOf(row))
  const count = effects[0]!.length
  return { parts: { front: parts.slice(0, count), rear: parts.slice(count) }, alike: Math.max(0, settling.alike) }
}

/** For each parameter, what each source of settling does to it. */
function effectsOf({ data, prepared, best: { fit }, calibration: { of } }: WorkedCurve, settling: Settling): Effects[] {
  const told = squatData(data.session, data.chassis, data.repeatability, settling)!
  const points = new Map(curvePoints(told, of).map((point) => [point.stepId, point]))
  const effects = Array.from(fit.theta, (): Effects => new Map())
  prepared.points.forEach(({ stepId }, i) => {
    const parts = points.get(stepId)!.dropMm.parts.filter(({ source }) => source.role === 'settling')
    const { byY } = fit.pointSensitivity(i)
    for (const { source, contribution } of parts) {
      effects.forEach((by, j) => by.set(source.id, (by.get(source.id) ?? 0) + byY[j]! * contribution))
    }
  })
  return effects
}

/** Effect by the source's id. */
type Effects = Map<string, number>

const productOf = (one: Effects, other: Effects): number => {
  let sum = 0
  for (const [id, effect] of one) sum += effect * (other.get(id) ?? 0)
  return sum
}

const sourceOf = ({ dof, pool }: Settling, k: number): Source =>
  merged(fromData('settling', pool, dof, pool), 'curveNoise', `curves:${pool}:${k}`)
