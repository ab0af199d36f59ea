/**
 * ClA from forces and dynamic pressures of several runs, F = q ClA, by generalised least squares
 * over all the sources that the runs share.
 */
import { solveSquare } from '@core/linear'
import {
  chiSquareUpper, combine, ENLARGES, fromData, fromSource, plus, standardUncertainty, unsharedVariance,
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
 * @param name what to call the source of surplus scatter
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
  const pValue = dof > 0 ? chiSquareUpper(chiSquare, dof) : 1
  const birge = dof > 0 && pValue < ENLARGES ? Math.sqrt(chiSquare / dof) : 1
  const own = Math.sqrt(unsharedVariance(errors, weights))
  const surplus = birge > 1
    ? fromSource(0, Math.sqrt(birge ** 2 - 1) * own, fromData('runsScatter', `${name}:scatter`, dof))
    : null
  return {
    claM2: surplus ? plus(plain, surplus) : plain, weights, chiSquare, dof, pValue, birge,
    residuals: errors.map((each, i) => {
      const u = standardUncertainty(combine(0, [[each, 1], [plain, -1]]))
      return u > 0 ? apart[i]! / u : 0
    }),
  }
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
