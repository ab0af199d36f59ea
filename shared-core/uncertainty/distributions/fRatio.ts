/** Fisher's F with `above` and `below` degrees of freedom, both > 0. */
import { incompleteBeta } from './special'

/** Probability of a ratio above f. */
export function fUpper(f: number, above: number, below: number): number {
  if (!(f > 0)) return 1
  const sum = below + above * f
  return incompleteBeta(below / 2, above / 2, below / sum, (above * f) / sum).lower
}
