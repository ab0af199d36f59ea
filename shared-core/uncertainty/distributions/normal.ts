/** The standard normal distribution. */
import { incompleteGamma } from './special'

const ROOT_2PI = Math.sqrt(2 * Math.PI)

/** Density at x. */
export const normalDensity = (x: number): number => Math.exp(-0.5 * x * x) / ROOT_2PI

/** Probability of a value above x; keeps its digits far out in the tail. */
export function normalUpper(x: number): number {
  const { lower, upper } = incompleteGamma(0.5, 0.5 * x * x)
  return x >= 0 ? upper / 2 : 0.5 + lower / 2
}

/** Probability of a value up to x. */
export const normalCdf = (x: number): number => normalUpper(-x)

/** Value below which a share p, 0 to 1, lies. */
export function normalQuantile(p: number): number {
  if (!(p >= 0 && p <= 1)) return NaN
  if (p === 0) return -Infinity
  if (p === 1) return Infinity
  if (p > 0.5) return -tailQuantile(1 - p)
  return tailQuantile(p)
}

/** The quantile for 0 < p <= 1/2: a rational start (Hastings 1955), then Halley steps to the last digit. */
function tailQuantile(p: number): number {
  if (p === 0.5) return 0
  const t = Math.sqrt(-2 * Math.log(p))
  let x = (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308))) - t
  for (let k = 0; k < 6; k++) {
    const error = (normalCdf(x) - p) / normalDensity(x)
    const step = error / (1 + 0.5 * x * error)
    x -= step
    if (Math.abs(step) <= 1e-15 * Math.abs(x)) break
  }
  return x
}
