/**
 * ClA from forces and dynamic pressures of several runs, F = q ClA, by generalised least squares
 * over all the sources that the runs share.
 */
import { solveSquare } from '@core/linear'
import { AXLES } from '@core/schema'
import {
  beyond, combine, effectiveDof, ENLARGES, partsOf, plus, ratioUpper, scaled, standardUncertainty, unshared, variance,
  type Uncertain,
} from '@core/uncertainty'
import { covarianceMatrix, meanWeights } from './weights'

export interface Run { readonly forceN: Uncertain; readonly pressurePa: Uncertain }

export interface ClaFit {
  readonly claM2: Uncertain
  readonly weights: readonly number[]
  /** Difference from the fit over its standard uncertainty. */
  readonly residuals: readonly number[]
  readonly chiSquare: number
  readonly dof: number
  readonly pValue: number
  readonly birge: number
}

const ROUNDS = 4

/**
 * Fits one ClA (m^2) to one or more runs.
 *
 * Each run's error is linearised at the fitted ClA, not at the run's own: a shared relative error
 * then has the same size in all runs and cannot pull the mean to the smaller values.
 *
 * @param name of the one estimate of surplus scatter
 */
export function fitCla(runs: readonly Run[], name: string): ClaFit {
  const values = runs.map(({ forceN, pressurePa }) => forceN.value / pressurePa.value)
  let cla = values.reduce((sum, each) => sum + each, 0) / values.length
  let errors: Uncertain[] = []
  let matrix: number[][] = []
  let weights: number[] = []
  for (let round = 0; round < ROUNDS; round++) {
    errors = runs.map((run) => errorAt(run, cla))
    matrix = covarianceMatrix(errors)
    weights = meanWeights(matrix)
    cla = values.reduce((sum, each, i) => sum + weights[i]! * each, 0)
  }
  const plain = combine(cla, errors.map((each, i) => [each, weights[i]!] as const))
  const dof = runs.length - 1
  const apart = values.map((each) => each - cla)
  const solved = dof > 0 ? solveSquare(ridged(matrix), apart) : null
  const chiSquare = solved ? Math.max(0, solved.reduce((sum, each, i) => sum + each * apart[i]!, 0)) : 0
  const own = unshared(errors)
  const ownOfMean = combine(0, own.map((each, i) => [each, weights[i]!] as const))
  const pValue = dof > 0 ? ratioUpper(chiSquare / dof, dof, effectiveDof(ownOfMean)) : 1
  // One estimate for both axles, which are both asked for it.
  const birge = dof > 0 && pValue < ENLARGES / AXLES.length ? Math.sqrt(chiSquare / dof) : 1
  const surplus = scaled(ownOfMean, Math.sqrt(birge ** 2 - 1)).parts.map(({ source, contribution }) =>
    ({ source: beyond(source, 'runsScatter', dof, name), contribution }))
  const guessed = scaled(ownOfMean, Math.sqrt(1 + byGuessedWeights(own, weights)) - 1)
  return {
    claM2: [plain, guessed, ...(birge > 1 ? [{ value: 0, parts: surplus }] : [])].reduce(plus),
    weights, chiSquare, dof, pValue, birge,
    residuals: errors.map((each, i) => {
      const u = standardUncertainty(combine(0, [[each, 1], [plain, -1]]))
      return u > 0 ? apart[i]! / u : 0
    }),
  }
}

/**
 * Share by which a mean's own variance is larger because its weights rest on variances that were estimated, each
 * by few readings (P. Meier, Biometrics 9 (1953) 59). One estimate that all runs share tilts no weights.
 */
function byGuessedWeights(own: readonly Uncertain[], weights: readonly number[]): number {
  const poolsOf = ({ parts }: Uncertain) => new Set(parts.map(({ source }) => source.pool ?? source.id))
  const count = new Map<string, number>()
  for (const each of own) for (const pool of poolsOf(each)) count.set(pool, (count.get(pool) ?? 0) + 1)
  return own.reduce((sum, each, i) => {
    const apart = partsOf(each, ({ pool, id }) => count.get(pool ?? id) === 1)
    const share = variance(each) > 0 ? variance(apart) / variance(each) : 0
    return sum + (4 / effectiveDof(apart)) * share ** 2 * weights[i]! * (1 - weights[i]!)
  }, 0)
}

/** The error of a run's ClA, linearised at the fitted one. */
const errorAt = ({ forceN, pressurePa }: Run, cla: number): Uncertain =>
  combine(forceN.value / pressurePa.value, [[forceN, 1 / pressurePa.value], [pressurePa, -cla / pressurePa.value]])

/** A trace of independent error, so that runs without any of their own can be solved. */
function ridged(matrix: readonly (readonly number[])[]): number[][] {
  const ridge = 1e-9 * Math.max(...matrix.map((row, i) => row[i]!))
  return matrix.map((row, i) => row.map((each, j) => (i === j ? each + ridge : each)))
}

/** A straight line through uncertain points by weighted least squares; null where the x do not differ. */
export function lineThrough(
  x: readonly number[], y: readonly Uncertain[],
): { slope: Uncertain; intercept: Uncertain; slopeWeights: readonly number[] } | null {
  const floor = 1e-12 * Math.max(...y.map(({ value }) => Math.abs(value)), 1e-300)
  const weights = y.map((each) => 1 / Math.max(standardUncertainty(each), floor) ** 2)
  const total = weights.reduce((sum, each) => sum + each, 0)
  const middle = x.reduce((sum, each, i) => sum + weights[i]! * each, 0) / total
  const square = x.reduce((sum, each, i) => sum + weights[i]! * (each - middle) ** 2, 0)
  if (!(square > 0)) return null
  const slopeWeights = x.map((each, i) => (weights[i]! * (each - middle)) / square)
  const weighted = (factors: readonly number[]) => combine(
    y.reduce((sum, each, i) => sum + factors[i]! * each.value, 0), y.map((each, i) => [each, factors[i]!] as const),
  )
  return {
    slope: weighted(slopeWeights), slopeWeights,
    intercept: weighted(x.map((_, i) => weights[i]! / total - middle * slopeWeights[i]!)),
  }
}
