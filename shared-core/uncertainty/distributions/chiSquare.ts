/** Chi-square with `dof` > 0 degrees of freedom. */
import { deviance, incompleteGamma, stirlingError } from './special'

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
