/** From a fit to its parameters, each with what every error of the fit contributes to it. */
import type { Fitted } from './types'

/**
 * One parameter. Contributions are of its estimation error (estimate minus true), per standard uncertainty, by
 * the index of the factor, of the prior, and of the sources that stand for all independent errors together.
 */
export interface Estimate {
  readonly value: number
  readonly factors: readonly number[]
  readonly priors: readonly number[]
  readonly noise: readonly number[]
}

/**
 * The parameters of a fit.
 *
 * @param noiseScale factor on the independent errors; by default the Birge ratio where it is above 1
 */
export function estimatesOf(fit: Fitted, noiseScale = Math.max(1, fit.birge)): Estimate[] {
  return Array.from(fit.theta, (value, j) => ({
    value,
    factors: fit.factorSensitivity.map((each) => each[j]!),
    priors: fit.priorSensitivity.map((each) => each[j]!),
    noise: fit.noiseSensitivity.map((each) => noiseScale * each[j]!),
  }))
}
