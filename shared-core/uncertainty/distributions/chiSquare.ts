/** Chi-square with `dof` > 0 degrees of freedom. */
import { deviance, incompleteGamma, invert, stirlingError } from './special'
import { normalQuantile } from './normal'

/** Probability of a chi-square up to x. */
export const chiSquareCdf = (x: number, dof: number): number => incompleteGamma(dof / 2, x / 2).lower

/** Probability of a chi-square above x: the p-value of a fit. */
export const chiSquareUpper = (x: number, dof: number): number => incompleteGamma(dof / 2, x / 2).upper

/** Density at x. */
export function chiSquareDensity(x: number, dof: number): number {
  if (x < 0) return 0
  if (x === 0) return dof < 2 ? Infinity : dof === 2 ? 0.5 : 0
  const a = dof / 2
  return Math.exp(-stirlingError(a) - deviance(a, x / 2)) * Math.sqrt(a / (2 * Math.PI)) / x
}

/** Value below which a share p, 0 to 1, lies. */
export function chiSquareQuantile(p: number, dof: number): number {
  if (!(p >= 0 && p <= 1)) return NaN
  if (p === 0) return 0
  if (p === 1) return Infinity
  // Wilson and Hilferty 1931.
  const h = 2 / (9 * dof)
  const start = Math.max(dof * (1 - h + normalQuantile(p) * Math.sqrt(h)) ** 3, 1e-8 * dof)
  if (p <= 0.5) return invert((x) => chiSquareCdf(x, dof), (x) => chiSquareDensity(x, dof), p, 0, Infinity, start)
  return invert((x) => -chiSquareUpper(x, dof), (x) => chiSquareDensity(x, dof), -(1 - p), 0, Infinity, start)
}
