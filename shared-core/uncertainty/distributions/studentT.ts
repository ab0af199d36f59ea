/** Student's t with `dof` > 0 degrees of freedom, not necessarily whole; Infinity is the normal. */
import { normalCdf, normalDensity, normalQuantile, normalUpper } from './normal'
import { incompleteBeta, invert, stirlingError } from './special'

/** Probability of a value above t. */
export function studentUpper(t: number, dof: number): number {
  if (dof === Infinity) return normalUpper(t)
  const square = t * t
  const { lower, upper } = square === Infinity ? { lower: 0, upper: 1 }
    : incompleteBeta(dof / 2, 0.5, dof / (dof + square), square / (dof + square))
  return t >= 0 ? lower / 2 : 0.5 + upper / 2
}

/** Probability of a value up to t. */
export const studentCdf = (t: number, dof: number): number =>
  dof === Infinity ? normalCdf(t) : studentUpper(-t, dof)

/** Density at t. */
export function studentDensity(t: number, dof: number): number {
  if (dof === Infinity) return normalDensity(t)
  const half = dof / 2
  const ratio = stirlingError(half + 0.5) - stirlingError(half) + half * Math.log1p(1 / dof) - 0.5
  return Math.exp(ratio - (half + 0.5) * Math.log1p((t * t) / dof)) / Math.sqrt(2 * Math.PI)
}

/** Value below which a share p, 0 to 1, lies. */
export function studentQuantile(p: number, dof: number): number {
  if (!(p >= 0 && p <= 1 && dof > 0)) return NaN
  if (dof === Infinity || p === 0.5) return normalQuantile(p)
  if (p > 0.5) return studentUpperQuantile(1 - p, dof)
  return -studentUpperQuantile(p, dof)
}

/** Value above which a share q, 0 < q <= 1/2, lies. */
function studentUpperQuantile(q: number, dof: number): number {
  if (q === 0) return Infinity
  if (dof === 1) return 1 / Math.tan(Math.PI * q)
  if (dof === 2) return (1 - 2 * q) / Math.sqrt(2 * q * (1 - q))
  // Cornish-Fisher start (Abramowitz and Stegun 26.7.5), in the logarithm of the tail where that is steep.
  const z = -normalQuantile(q)
  const start = z + (z ** 3 + z) / (4 * dof) + (5 * z ** 5 + 16 * z ** 3 + 3 * z) / (96 * dof * dof)
  return invert(
    (t) => -Math.log(studentUpper(t, dof)), (t) => studentDensity(t, dof) / studentUpper(t, dof), -Math.log(q),
    0, Infinity, start,
  )
}
