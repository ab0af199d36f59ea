/**
 * force a cubic of the drop, given by its rates at rest, at half and at the end of the range. The
 * rate is the parabola through the three; it stays positive exactly where its Bernstein
 * coefficients k0, m, k1 fulfil k0 > 0, k1 > 0 and m > -sqrt(k0 k1). Straight beyond the range.
 */
import { invertDerivatives } from './inverse'
import type { ShapeCurve, ShapeSpan } from './types'

export function cubic(span: ShapeSpan): ShapeCurve {
  const { rangeMm } = span
  const curve: ShapeCurve = {
    shape: 'cubic',
    span,
    names: ['rateNPerMm', 'halfRateNPerMm', 'fullRateNPerMm'],
    drop(elasticN, theta, out) {
      const k0 = theta[0]!
      const kh = theta[1]!
      const k1 = theta[2]!
      if (elasticN <= 0) {
        out[0] = elasticN / k0
        out[1] = 1 / k0
        out[2] = -elasticN / (k0 * k0)
        out[3] = out[4] = 0
        return
      }
      const end = (rangeMm * (k0 + 4 * kh + k1)) / 6
      const past = elasticN - end
      const u = past >= 0 ? 1 : solve(elasticN / rangeMm, k0, kh, k1)
      const rate = past >= 0 ? k1 : k0 + u * (4 * kh - 3 * k0 - k1 + u * 2 * (k0 - 2 * kh + k1))
      const beyond = past > 0 ? past / k1 : 0
      out[0] = rangeMm * u + beyond
      out[1] = 1 / rate
      out[2] = (-rangeMm * u * (1 - u * (1.5 - (2 / 3) * u))) / rate
      out[3] = (-rangeMm * u * u * (2 - (4 / 3) * u)) / rate
      out[4] = (-rangeMm * u * u * ((2 / 3) * u - 0.5) - beyond) / rate
    },
    force(dropMm, theta, out) {
      const elasticN = forceAt(dropMm, theta[0]!, theta[1]!, theta[2]!, rangeMm)
      curve.drop(elasticN, theta, out)
      invertDerivatives(elasticN, 3, out)
    },
    feasible(theta) {
      const k0 = theta[0]!
      const k1 = theta[2]!
      return k0 > 0 && k1 > 0 && 2 * theta[1]! - (k0 + k1) / 2 > -Math.sqrt(k0 * k1)
    },
  }
  return curve
}

/** force / range at the share u of the range. */
const cubicAt = (u: number, k0: number, kh: number, k1: number): number =>
  u * (k0 + u * ((4 * kh - 3 * k0 - k1) / 2 + (u * 2 * (k0 - 2 * kh + k1)) / 3))

/** The share u, 0 to 1, at which the monotone cubic has this value: Newton inside a bracket. */
function solve(target: number, k0: number, kh: number, k1: number): number {
  let low = 0
  let high = 1
  let u = target / cubicAt(1, k0, kh, k1)
  for (let count = 0; count < 60; count++) {
    const error = cubicAt(u, k0, kh, k1) - target
    if (error === 0) return u
    if (error > 0) high = u
    else low = u
    const rate = k0 + u * (4 * kh - 3 * k0 - k1 + u * 2 * (k0 - 2 * kh + k1))
    let next = u - error / rate
    if (!(next >= low && next <= high)) next = (low + high) / 2
    if (Math.abs(next - u) <= 2e-16) return next
    u = next
  }
  return u
}

function forceAt(dropMm: number, k0: number, kh: number, k1: number, rangeMm: number): number {
  if (dropMm <= 0) return k0 * dropMm
  const inside = Math.min(dropMm, rangeMm)
  return rangeMm * cubicAt(inside / rangeMm, k0, kh, k1) + k1 * (dropMm - inside)
}
