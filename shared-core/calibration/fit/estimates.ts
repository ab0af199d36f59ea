/** From a fit to uncertain values whose sources keep their names. */
import type { Part, Source, Uncertain } from '@core/uncertainty'
import type { Fitted } from './types'

/** The named sources behind the fit's unit-variance errors. */
export interface FitSources {
  /** One per factor, in the fit's order. */
  readonly factors: readonly Source[]
  /** One per prior, in the fit's order. */
  readonly priors: readonly Source[]
  /**
   * Source r of the independent errors of the readings, r from 0. Where their size was estimated
   * from few repeats, give all the same finite `dof` and `pool`.
   */
  readonly noise: (r: number) => Source
}

export interface Estimates {
  readonly theta: readonly Uncertain[]
  /** The factors as the readings correct them: estimate, with the error that is left. */
  readonly z: readonly Uncertain[]
}

/**
 * The parameters and factors as uncertain values. Every part is estimate minus true, per standard
 * uncertainty of its source, so that a later reading y = true + onY z shares the factor by name.
 *
 * @param noiseScale factor on the independent errors; by default the Birge ratio where it is above 1
 */
export function estimatesOf(fit: Fitted, sources: FitSources, noiseScale = Math.max(1, fit.birge)): Estimates {
  const p = fit.theta.length
  const at = (row: number): Part[] => {
    const parts: Part[] = []
    const add = (source: Source, contribution: number) => {
      if (contribution !== 0) parts.push({ source, contribution })
    }
    fit.factorSensitivity.forEach((each, j) => add(sources.factors[j]!, each[row]!))
    fit.priorSensitivity.forEach((each, j) => add(sources.priors[j]!, each[row]!))
    fit.noiseSensitivity.forEach((each, r) => add(sources.noise(r), noiseScale * each[row]!))
    return parts
  }
  return {
    theta: Array.from(fit.theta, (value, j) => ({ value, parts: at(j) })),
    z: Array.from(fit.z, (value, j) => ({ value, parts: at(p + j) })),
  }
}
