/**
 * force = k d + c d^2, given by its rates at rest and at the end of the range, both positive: with
 * the rate linear in between, the curve is monotone by that alone. Beyond the range it goes on
 * straight.
 */
import type { ShapeCurve, ShapeSpan } from './types'
import { invertDerivatives } from './inverse'

export function progressive(span: ShapeSpan): ShapeCurve {
  const { rangeMm } = span
  const curve: ShapeCurve = {
    shape: 'progressive',
    span,
    names: ['rateNPerMm', 'fullRateNPerMm'],
    drop(elasticN, theta, out) {
      const k0 = theta[0]!
      const k1 = theta[1]!
      if (elasticN <= 0) {
        out[0] = elasticN / k0
        out[1] = 1 / k0
        out[2] = -elasticN / (k0 * k0)
        out[3] = 0
        return
      }
      const end = (rangeMm * (k0 + k1)) / 2
      if (elasticN >= end) {
        out[0] = rangeMm + (elasticN - end) / k1
        out[1] = 1 / k1
        out[2] = -rangeMm / (2 * k1)
        out[3] = -rangeMm / (2 * k1) - (elasticN - end) / (k1 * k1)
        return
      }
      const rate = Math.sqrt(k0 * k0 + (2 * (k1 - k0) * elasticN) / rangeMm)
      const drop = (2 * elasticN) / (k0 + rate)
      const bend = (drop * drop) / (2 * rangeMm)
      out[0] = drop
      out[1] = 1 / rate
      out[2] = -(drop - bend) / rate
      out[3] = -bend / rate
    },
    force(dropMm, theta, out) {
      const elasticN = forceAt(dropMm, theta[0]!, theta[1]!, rangeMm)
      curve.drop(elasticN, theta, out)
      invertDerivatives(elasticN, 2, out)
    },
    feasible: (theta) => theta[0]! > 0 && theta[1]! > 0,
  }
  return curve
}

function forceAt(dropMm: number, k0: number, k1: number, rangeMm: number): number {
  if (dropMm <= 0) return k0 * dropMm
  const inside = Math.min(dropMm, rangeMm)
  return inside * (k0 + ((k1 - k0) * inside) / (2 * rangeMm)) + k1 * (dropMm - inside)
}
