/** Readings as the fit takes them, and what the shapes must know of them beforehand. */
import { solveSquare } from '@core/linear'
import type { Observations } from '../fit/types'
import { elasticForce, type BranchOf, type ShapeSpan, type StartData } from '../shapes'
import type { FitData } from './types'

export interface Prepared {
  readonly observations: Observations
  /** The same readings without shared errors, the independent ones all on the drop. */
  readonly rough: Observations
  readonly branch: BranchOf
  readonly span: ShapeSpan
  /** Readings that take part with weight. */
  readonly used: readonly number[]
  /** Different forces among them, above zero. */
  readonly loads: number
  readonly bothBranches: boolean
}

/** The largest share of the range that a knee's rounding may take. */
const WIDEST_ROUNDING = 0.02

/** Typed copies of the readings, their range, and the rounding of knees: one reading's own uncertainty as a force. */
export function prepare(data: FitData): Prepared {
  const n = data.forceN.length
  const whole = (values: ArrayLike<number> | null) => (values ? Float64Array.from(values) : null)
  const x = Float64Array.from(data.forceN)
  const y = Float64Array.from(data.dropMm)
  const ux = Float64Array.from(data.uForceN)
  const uy = Float64Array.from(data.uDropMm)
  const atLeast = Uint8Array.from(data.touched, Number)
  const sign = Int8Array.from(data.branchSign)
  const turnN = data.turnForceN ? Float64Array.from(data.turnForceN) : new Float64Array(n).fill(NaN)
  const used = Array.from({ length: n }, (_, i) => i).filter((i) => uy[i]! < Infinity && !atLeast[i])
  const rangeN = used.reduce((top, i) => Math.max(top, x[i]!), 0)
  const rangeMm = used.reduce((top, i) => Math.max(top, y[i]!), 0)
  const widths = used.map((i) => Math.hypot(ux[i]!, (uy[i]! * rangeN) / rangeMm)).sort((a, b) => a - b)
  const roundN = Math.min(widths[widths.length >> 1] ?? 0, WIDEST_ROUNDING * rangeN)
  return {
    observations: {
      x, y, ux, uy, atLeast,
      factors: data.factors.map(({ id, onForceN, onDropMm }) => ({ id, onX: whole(onForceN), onY: whole(onDropMm) })),
    },
    rough: {
      x, y, ux: new Float64Array(n), uy: uy.map((u, i) => Math.hypot(u, (ux[i]! * rangeMm) / rangeN)),
      factors: [], atLeast,
    },
    branch: { sign, turnN },
    span: { rangeN, rangeMm, roundN },
    used,
    loads: new Set(used.filter((i) => x[i]! > 0).map((i) => x[i]!.toPrecision(3))).size,
    bothBranches: used.some((i) => sign[i]! < 0) && used.some((i) => sign[i]! > 0),
  }
}

/**
 * A first value of the friction, N: the drop as a cubic of the force plus a step between the
 * branches; the step over the mean slope is the friction.
 */
export function frictionStart({ observations: { x, y, uy }, branch, span, used }: Prepared): number {
  const { rangeN, rangeMm } = span
  const normal = Array.from({ length: 4 }, () => new Array<number>(4).fill(0))
  const right = new Array<number>(4).fill(0)
  for (const i of used) {
    if (x[i] === 0) continue
    const u = x[i]! / rangeN
    const basis = [u, u * u, u * u * u, branch.sign[i]!]
    const weight = uy[i]! > 0 ? 1 / uy[i]! ** 2 : 1
    for (let a = 0; a < 4; a++) {
      for (let b = 0; b < 4; b++) normal[a]![b]! += weight * basis[a]! * basis[b]!
      right[a]! += weight * basis[a]! * y[i]!
    }
  }
  const step = solveSquare(normal, right)?.[3] ?? NaN
  const friction = (-step * rangeN) / rangeMm
  return Number.isFinite(friction) ? Math.min(Math.max(friction, 0.001 * rangeN), 0.3 * rangeN) : 0.01 * rangeN
}

/** The readings with the friction taken off, for start values. */
export function startData(prepared: Prepared, frictionN: number): StartData {
  const { observations: { x, y, ux, uy }, branch, span, used } = prepared
  const slope = span.rangeMm / span.rangeN
  const elastic = new Float64Array(3)
  return {
    elasticN: Float64Array.from(used, (i) => {
      elasticForce(x[i]!, branch.sign[i]!, branch.turnN[i]!, frictionN, span.roundN, elastic)
      return elastic[0]!
    }),
    dropMm: Float64Array.from(used, (i) => y[i]!),
    weight: Float64Array.from(used, (i) => 1 / (uy[i]! ** 2 + (slope * ux[i]!) ** 2)),
  }
}
