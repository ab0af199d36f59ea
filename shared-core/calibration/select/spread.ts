/** What the choice of shape leaves open in a result, by propagation and by Monte Carlo. */
import { combine, fromSource, plus, type Source, type Uncertain } from '@core/uncertainty'

/** Mean and standard deviation of a result over the candidates, weighted; weights add to 1. */
export function modelSpread(values: readonly number[], weights: readonly number[]): { mean: number; u: number } {
  const mean = values.reduce((sum, value, i) => sum + weights[i]! * value, 0)
  const square = values.reduce((sum, value, i) => sum + weights[i]! * (value - mean) ** 2, 0)
  return { mean, u: Math.sqrt(square) }
}

/**
 * The result over the candidates: their weighted mean, with the errors of the candidate of highest
 * weight and the spread between candidates as one more source (Burnham and Anderson 2002, 4.3.2,
 * with the within-model variance of the best model). The candidates see the same readings, so their
 * errors are nearly one and must not be averaged down.
 *
 * @param results the result by each candidate, one or more, in one unit
 * @param weights Akaike weights, adding to 1
 * @param source what to call the spread; its group is `modelChoice`
 */
export function overCandidates(results: readonly Uncertain[], weights: readonly number[], source: Source): Uncertain {
  const { mean, u } = modelSpread(results.map(({ value }) => value), weights)
  const top = results[weights.indexOf(Math.max(...weights))]!
  return plus(combine(mean, [[top, 1]]), fromSource(0, u, source))
}

/** The candidate that a uniform draw in [0, 1) picks: Monte Carlo's mixture over the candidates. */
export function pick(weights: readonly number[], uniform: number): number {
  let sum = 0
  for (let i = 0; i < weights.length - 1; i++) {
    sum += weights[i]!
    if (uniform < sum) return i
  }
  return weights.length - 1
}
