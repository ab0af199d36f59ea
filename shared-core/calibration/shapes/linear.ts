/** drop = force / rate. */
import type { ShapeCurve, ShapeSpan } from './types'

export function linear(span: ShapeSpan): ShapeCurve {
  return {
    shape: 'linear',
    span,
    names: ['rateNPerMm'],
    drop(elasticN, theta, out) {
      const k = theta[0]!
      out[0] = elasticN / k
      out[1] = 1 / k
      out[2] = -elasticN / (k * k)
    },
    force(dropMm, theta, out) {
      out[0] = theta[0]! * dropMm
      out[1] = theta[0]!
      out[2] = dropMm
    },
    feasible: (theta) => theta[0]! > 0,
  }
}
