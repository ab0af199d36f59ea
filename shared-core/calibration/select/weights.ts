/**
 * Choice among the fitted shapes by the second-order information criterion, and the spread that the
 * choice leaves. Burnham and Anderson, Model Selection and Multimodel Inference, 2nd ed. 2002:
 * AICc in 2.4, overdispersion in 2.5, weights in 2.9, unconditional variance in 4.3.
 */
import type { CandidateFit, FittedCandidate } from './types'

/**
 * AICc of a fit with known variances: chi-square/c + 2 K + 2 K (K + 1)/(n - K - 1), K parameters and n
 * points; Infinity where n is too small for it.
 *
 * @param dispersion variance of the readings over what their uncertainties say, 1 or more; where it
 *   is above 1 it counts as one more parameter
 */
export function aiccOf(chiSquare: number, parameters: number, points: number, dispersion = 1): number {
  const k = parameters + (dispersion > 1 ? 1 : 0)
  const spare = points - k - 1
  return spare > 0 ? chiSquare / dispersion + 2 * k + (2 * k * (k + 1)) / spare : Infinity
}

/** Akaike weights of criteria; they add to 1. Infinite criteria get none. */
export function akaikeWeights(criteria: readonly number[]): number[] {
  const least = Math.min(...criteria)
  if (!Number.isFinite(least)) return criteria.map(() => 0)
  const likelihoods = criteria.map((each) => Math.exp(-(each - least) / 2))
  const total = likelihoods.reduce((sum, each) => sum + each, 0)
  return likelihoods.map((each) => each / total)
}

/** AICc of all; where there are too few points for any, the criterion of known variances (AIC) for all. */
function criteriaOf(fitted: readonly FittedCandidate[], dispersion: number): number[] {
  // Points less degrees of freedom are the parameters that the readings had to tell.
  const told = fitted.map(({ fit }) => fit.pointCount - fit.dof)
  const corrected = fitted.map(({ fit }, i) => aiccOf(fit.chiSquare, told[i]!, fit.pointCount, dispersion))
  if (corrected.some(Number.isFinite)) return corrected
  return fitted.map(({ fit }, i) => fit.chiSquare / dispersion + 2 * told[i]!)
}

/**
 * Fills criterion and weight of the fitted candidates. Where even the best-fitting candidate
 * scatters more than its uncertainties say, all are judged by that larger scatter: else the
 * surplus would be taken for structure.
 */
export function weigh(candidates: readonly CandidateFit[]): CandidateFit[] {
  const fitted = candidates.filter((each): each is FittedCandidate => each.fitted)
  const ratios = fitted.filter(({ fit }) => fit.dof > 0).map(({ fit }) => fit.chiSquare / fit.dof)
  const dispersion = Math.max(1, Math.min(...ratios))
  const judged = Number.isFinite(dispersion) ? dispersion : 1
  const criteria = criteriaOf(fitted, judged)
  const weights = akaikeWeights(criteria)
  let at = 0
  return candidates.map((each) => (each.fitted ? { ...each, aicc: criteria[at]!, weight: weights[at++]! } : each))
}
