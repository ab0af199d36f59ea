/** Fisher's F with `above` and `below` degrees of freedom, both > 0. */
import { chiSquareUpper } from './chiSquare'
import { incompleteBeta } from './special'

/** Probability of a ratio above f. */
export function fUpper(f: number, above: number, below: number): number {
  if (!(f > 0)) return 1
  const sum = below + above * f
  return incompleteBeta(below / 2, above / 2, below / sum, (above * f) / sum).lower
}

/**
 * Probability that chance makes a scatter so many times what is expected: by chi-square where that is known, by F
 * where it was estimated itself.
 *
 * @param expectedDof degrees of freedom of what is expected; Infinity where it is known
 */
export function ratioUpper(ratio: number, dof: number, expectedDof: number): number {
  if (ratio <= 1) return 1
  return Number.isFinite(expectedDof) ? fUpper(ratio, dof, expectedDof) : chiSquareUpper(ratio * dof, dof)
}
