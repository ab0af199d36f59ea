/**
 * Friction around a curve. Friction holds against the motion, so while loading the spring carries
 * the force less the friction, while unloading the force plus it, and after a settle routine the
 * force itself: the branches lie 2 x friction apart. Right after a turn, and at the start from rest,
 * the suspension is held still until the force has changed by what friction can hold (twice the
 * friction after a turn, once from rest): this is the play model of dry friction in series with a
 * spring. All forces N.
 *
 * A negative friction is not physical, but an estimate near zero must be free to fall on either
 * side; there the elastic force is mirrored, which keeps the fit smooth through zero.
 */
import type { Curve } from '../fit/types'
import { beyondKnee } from './round'
import type { ShapeCurve } from './types'

/** Which branch a reading lies on and where its ramp turned, as in `FitData`. */
export interface BranchOf {
  readonly sign: Int8Array
  /** NaN where the ramp started from rest. */
  readonly turnN: Float64Array
}

const part = new Float64Array(3)

/** Writes the elastic force into out[0], its derivative by the force into out[1], by the friction into out[2]. */
export function elasticForce(
  forceN: number, sign: number, turnN: number, frictionN: number, roundN: number, out: Float64Array,
): void {
  const fromRest = turnN !== turnN
  if (sign === 0 || frictionN === 0 || (sign < 0 && fromRest)) {
    out[0] = forceN - sign * frictionN
    out[1] = 1
    out[2] = frictionN === 0 && sign !== 0 ? slopeAtNone(forceN, sign, turnN) : -sign
    return
  }
  const friction = Math.abs(frictionN)
  const reach = fromRest ? friction : 2 * friction
  const from = fromRest ? 0 : turnN
  beyondKnee(sign * (forceN - from), reach, roundN, part)
  const held = from + (fromRest ? 0 : sign * friction)
  const elastic = held + sign * part[0]!
  const mirrored = frictionN < 0
  out[0] = mirrored ? 2 * forceN - elastic : elastic
  out[1] = mirrored ? 2 - part[1]! : part[1]!
  out[2] = fromRest ? sign * part[2]! : sign * (1 + 2 * part[2]!)
}

/** Derivative by the friction at no friction: a reading at the very turn is still held there. */
function slopeAtNone(forceN: number, sign: number, turnN: number): number {
  const fromRest = turnN !== turnN
  if (fromRest) return sign < 0 || forceN > 0 ? -sign : 0
  return sign * (forceN - turnN) > 0 ? -sign : sign
}

/** The curve as the fit sees it: drop of reading i for a force; the friction is the last parameter where `friction`. */
export function branchedCurve(shape: ShapeCurve, branch: BranchOf, friction: boolean): Curve {
  const p = shape.names.length
  if (!friction) {
    return {
      parameterCount: p,
      evaluate: shape.drop,
      feasible: (theta) => shape.feasible(theta),
    }
  }
  const { rangeN, roundN } = shape.span
  const elastic = new Float64Array(3)
  return {
    parameterCount: p + 1,
    evaluate(x, theta, out, point) {
      elasticForce(x, branch.sign[point]!, branch.turnN[point]!, theta[p]!, roundN, elastic)
      shape.drop(elastic[0]!, theta, out)
      out[2 + p] = out[1]! * elastic[2]!
      out[1] = out[1]! * elastic[1]!
    },
    feasible: (theta) => Math.abs(theta[p]!) < rangeN && shape.feasible(theta),
  }
}
