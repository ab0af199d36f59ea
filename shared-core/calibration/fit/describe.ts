/** Everything that is told of a fit at its minimum: covariance, where it comes from, diagnostics. */
import { chiSquareUpper } from '@core/uncertainty'
import { inverseOfR, reduce, semidefiniteCholesky } from './orthogonal'
import type { Problem } from './problem'
import type { Convergence, Fit, FitOptions, Observations, Refusal } from './types'

/** Condition of the column-scaled design beyond which a parameter counts as not told by the readings. */
const LARGEST_CONDITION = 1e11

/** The minimum as the search left it; matrices column-major, weighted. */
export interface Minimum {
  readonly unknowns: Float64Array
  readonly xi: Float64Array
  readonly design: Float64Array
  readonly residual: Float64Array
  readonly chiSquare: number
}

/** Describes the fit at its minimum; a refusal where the readings do not tell every parameter. */
export function describeFit(
  problem: Problem, observations: Observations, options: FitOptions, minimum: Minimum, convergence: Convergence,
): Fit {
  const { points, thetaCount: p, columns: m, rows } = problem
  const { unknowns, xi, design, residual, chiSquare } = minimum
  const reduced = design.slice()
  reduce(reduced, rows, m, new Float64Array(rows))
  const inverse = inverseOfR(reduced, rows, m)
  const { condition, weakest } = conditionOf(design, inverse, rows, m)
  if (!inverse || !(condition < LARGEST_CONDITION)) return untoldParameter(weakest, p)
  for (let j = 0; j < p; j++) if (problem.fixed[j]) inverse.fill(0, j * m, (j + 1) * m)
  const covariance = outer(inverse, inverse, m)
  const factorSensitivity = observations.factors.map((_, j) => columnOf(covariance, m, p + j, -1))
  const priorSensitivity = (options.priors ?? []).map(({ parameter, u }) =>
    u === 0 ? new Float64Array(m) : columnOf(covariance, m, parameter, 1 / u))
  const noise = noiseOf(problem, inverse)

  const leverage = new Float64Array(points)
  const standardised = new Float64Array(points)
  const activeBounds: number[] = []
  let pointCount = 0
  for (let i = 0; i < points; i++) {
    let share = 0
    for (let j = 0; j < m; j++) {
      let sum = 0
      for (let k = 0; k <= j; k++) sum += design[k * rows + i]! * inverse[k * m + j]!
      share += sum * sum
    }
    leverage[i] = share
    standardised[i] = share > 1 - 1e-9 ? 0 : residual[i]! / Math.sqrt(1 - share)
    const bound = Boolean(observations.atLeast?.[i])
    if (bound && residual[i]! > 0) activeBounds.push(i)
    if (!bound && observations.uy[i]! < Infinity) pointCount++
  }
  const free = p - problem.fixed.reduce((count, each) => count + each, 0)
  const dof = pointCount + problem.weightedPriors.length - free
  return {
    fitted: true,
    theta: unknowns.slice(0, p),
    z: unknowns.slice(p),
    covariance, factorSensitivity, priorSensitivity,
    noiseSensitivity: noise,
    pointSensitivity: (i) => {
      const { root, slope } = problem.weightAt(i, unknowns, xi[i]!)
      const byY = new Float64Array(m)
      for (let j = 0; j < m; j++) {
        for (let k = 0; k < m; k++) byY[j]! += root * covariance[j * m + k]! * design[k * rows + i]!
      }
      return { byX: byY.map((each) => -slope * each), byY }
    },
    chiSquare, dof,
    pValue: dof > 0 ? chiSquareUpper(chiSquare, dof) : NaN,
    birge: dof > 0 ? Math.sqrt(chiSquare / dof) : 1,
    pointCount, xi: xi.slice(), leverage, standardised, activeBounds,
    convergence: { ...convergence, condition },
  }
}

/** The refusal where the readings do not tell every parameter at this design, else null. */
export function untold(problem: Problem, design: Float64Array): Refusal | null {
  const { columns: m, rows, thetaCount } = problem
  const reduced = design.slice()
  reduce(reduced, rows, m, new Float64Array(rows))
  const { condition, weakest } = conditionOf(design, inverseOfR(reduced, rows, m), rows, m)
  return condition < LARGEST_CONDITION ? null : untoldParameter(weakest, thetaCount)
}

const untoldParameter = (weakest: number, thetaCount: number): Refusal =>
  ({ fitted: false, code: 'notIdentifiable', parameter: weakest < thetaCount ? weakest : -1 })

/** A B' for two row-major square matrices. */
function outer(a: Float64Array, b: Float64Array, m: number): Float64Array {
  const product = new Float64Array(m * m)
  for (let i = 0; i < m; i++) {
    for (let j = 0; j < m; j++) {
      let sum = 0
      for (let k = 0; k < m; k++) sum += a[i * m + k]! * b[j * m + k]!
      product[i * m + j] = sum
    }
  }
  return product
}

/**
 * Cholesky columns of the covariance due to the independent point errors alone. With R'R the whole
 * normal matrix and q the rows of Q that belong to the knowledge below the points, that covariance
 * is R^-1 (I - sum q q') R^-T.
 */
function noiseOf({ thetaCount: p, columns: m, weightedPriors }: Problem, inverse: Float64Array): Float64Array[] {
  const inner = new Float64Array(m * m)
  for (let j = 0; j < m; j++) inner[j * m + j] = 1
  const takeOff = (row: number, weight: number) => {
    for (let i = 0; i < m; i++) {
      for (let j = 0; j < m; j++) inner[i * m + j]! -= weight * inverse[row * m + i]! * inverse[row * m + j]!
    }
  }
  for (let j = p; j < m; j++) takeOff(j, 1)
  for (const { parameter, u } of weightedPriors) takeOff(parameter, 1 / (u * u))
  // product = R^-1 inner, then (R^-1 inner) R^-T
  const half = outer(inverse, inner, m)
  const covariance = outer(half, inverse, m)
  for (let i = 0; i < m; i++) {
    for (let j = 0; j < i; j++) {
      covariance[i * m + j] = covariance[j * m + i] = (covariance[i * m + j]! + covariance[j * m + i]!) / 2
    }
    covariance[i * m + i] = Math.max(0, covariance[i * m + i]!)
  }
  const lower = semidefiniteCholesky(covariance, m)
  const columns: Float64Array[] = []
  for (let source = 0; source < m; source++) columns.push(columnOf(lower, m, source, 1))
  return columns
}

/** Column j of a row-major square matrix, times a factor. */
function columnOf(matrix: Float64Array, m: number, j: number, factor: number): Float64Array {
  const column = new Float64Array(m)
  for (let i = 0; i < m; i++) column[i] = factor * matrix[i * m + j]!
  return column
}

/** Condition (Frobenius norm) of the design with its columns brought to length 1, and the least told parameter. */
function conditionOf(
  design: Float64Array, inverse: Float64Array | null, rows: number, m: number,
): { condition: number; weakest: number } {
  const length = new Float64Array(m)
  for (let j = 0; j < m; j++) {
    let square = 0
    for (let i = 0; i < rows; i++) square += design[j * rows + i]! * design[j * rows + i]!
    length[j] = Math.sqrt(square)
  }
  const empty = length.indexOf(0)
  if (empty >= 0 || !inverse) return { condition: Infinity, weakest: Math.max(empty, 0) }
  let square = 0
  let largest = 0
  let weakest = 0
  for (let i = 0; i < m; i++) {
    let own = 0
    for (let j = 0; j < m; j++) own += (length[i]! * inverse[i * m + j]!) ** 2
    square += own
    if (own > largest) {
      largest = own
      weakest = i
    }
  }
  return { condition: Math.sqrt(m * square), weakest }
}
