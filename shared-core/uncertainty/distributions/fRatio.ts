/** Fisher's F with `above` and `below` degrees of freedom, both > 0. */
import { incompleteBeta, stirlingError, deviance } from './special'

/** Probability of a ratio above f. */
export function fUpper(f: number, above: number, below: number): number {
  if (!(f > 0)) return 1
  const sum = below + above * f
  return incompleteBeta(below / 2, above / 2, below / sum, (above * f) / sum).lower
}

/** Probability of a ratio up to f. */
export function fCdf(f: number, above: number, below: number): number {
  if (!(f > 0)) return 0
  const sum = below + above * f
  return incompleteBeta(below / 2, above / 2, below / sum, (above * f) / sum).upper
}

/** Density at f. */
export function fDensity(f: number, above: number, below: number): number {
  if (!(f > 0)) return 0
  const a = above / 2
  const b = below / 2
  const n = a + b
  const sum = below + above * f
  const exponent = stirlingError(n) - stirlingError(a) - stirlingError(b)
    - deviance(a, (n * above * f) / sum) - deviance(b, (n * below) / sum)
  return Math.exp(exponent) * Math.sqrt((a * b) / (n * 2 * Math.PI)) / f
}
