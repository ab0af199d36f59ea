/** Droop preload: nothing moves up to a threshold, then drop = (force - threshold) / rate. */
import { invertDerivatives } from './inverse'
import { beyondKnee, kneeInverse } from './round'
import type { ShapeCurve, ShapeSpan } from './types'

/** A threshold below this share of the range is none. */
export const LEAST_THRESHOLD = 1e-3

export function threshold(span: ShapeSpan): ShapeCurve {
  const part = new Float64Array(3)
  const { rangeN, roundN } = span
  const curve: ShapeCurve = {
    shape: 'threshold',
    span,
    names: ['thresholdN', 'rateNPerMm'],
    drop(elasticN, theta, out) {
      const k = theta[1]!
      beyondKnee(elasticN, theta[0]!, roundN, part)
      out[0] = part[0]! / k
      out[1] = part[1]! / k
      out[2] = part[2]! / k
      out[3] = -part[0]! / (k * k)
    },
    force(dropMm, theta, out) {
      const elasticN = kneeInverse(Math.max(dropMm, 0) * theta[1]!, theta[0]!, roundN)
      curve.drop(elasticN, theta, out)
      invertDerivatives(elasticN, 2, out)
    },
    feasible: (theta) => theta[0]! > LEAST_THRESHOLD * rangeN && theta[0]! < rangeN && theta[1]! > 0,
  }
  return curve
}
