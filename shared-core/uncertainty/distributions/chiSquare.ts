/** Chi-square with `dof` > 0 degrees of freedom. */
import { incompleteGamma } from './special'

/** Probability of a chi-square above x: the p-value of a fit. */
export const chiSquareUpper = (x: number, dof: number): number => incompleteGamma(dof / 2, x / 2).upper
