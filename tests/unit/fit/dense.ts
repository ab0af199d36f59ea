/**
 * Any covariance brought to the form the solver takes: independent errors plus shared factors. A
 * dense matrix U of n values becomes u^2 I + B B' with B its remaining Cholesky factor: exact, with
 * n factors. Its cost grows with the cube of n, so structure that is known (a gain, a zero) should
 * be given as factors directly.
 */
import { semidefiniteCholesky } from '@core/calibration/fit/orthogonal'
import type { Factor, Observations } from '@core/calibration/fit/types'

/** Symmetric positive semidefinite covariance, row by row. */
type Covariance = readonly (readonly number[])[]

interface Structured { readonly u: Float64Array; readonly columns: readonly Float64Array[] }

/** U = diag(u^2) + sum of columns. Null where U is not symmetric positive semidefinite. */
export function structured(covariance: Covariance): Structured | null {
  const n = covariance.length
  const asymmetric = covariance.some((row, i) => row.length !== n
    || row.some((each, j) => Math.abs(each - covariance[j]![i]!) > 1e-12 * Math.abs(each)))
  if (asymmetric || covariance.some((row, i) => !(row[i]! >= 0))) return null
  const trace = covariance.reduce((sum, row, i) => sum + row[i]!, 0)
  if (trace === 0) return { u: new Float64Array(n), columns: [] }
  for (let share = 1; share > 1e-8; share /= 2) {
    const variance = (share * trace) / n
    const rest = lessDiagonal(covariance, variance)
    if (!isSemidefinite(rest, n)) continue
    return { u: new Float64Array(n).fill(Math.sqrt(variance)), columns: columnsOf(rest, n) }
  }
  const whole = lessDiagonal(covariance, 0)
  return isSemidefinite(whole, n) ? { u: new Float64Array(n), columns: columnsOf(whole, n) } : null
}

/**
 * Observations with full covariance matrices of x and of y (null: exact), x and y uncorrelated.
 * Null where a matrix is no covariance.
 */
export function denseObservations(
  x: readonly number[], y: readonly number[], covarianceX: Covariance | null, covarianceY: Covariance | null,
): Observations | null {
  const none: Structured = { u: new Float64Array(x.length), columns: [] }
  const ofX = covarianceX ? structured(covarianceX) : none
  const ofY = covarianceY ? structured(covarianceY) : none
  if (!ofX || !ofY) return null
  const factors: Factor[] = [
    ...ofX.columns.map((onX, j) => ({ id: `x:${j}`, onX, onY: null })),
    ...ofY.columns.map((onY, j) => ({ id: `y:${j}`, onX: null, onY })),
  ]
  return { x: Float64Array.from(x), y: Float64Array.from(y), ux: ofX.u, uy: ofY.u, factors }
}

function lessDiagonal(covariance: Covariance, variance: number): Float64Array {
  const n = covariance.length
  const rest = new Float64Array(n * n)
  covariance.forEach((row, i) => row.forEach((each, j) => { rest[i * n + j] = each - (i === j ? variance : 0) }))
  return rest
}

/** True where the Cholesky factor gives the matrix back to rounding. */
function isSemidefinite(a: Float64Array, n: number): boolean {
  const lower = semidefiniteCholesky(a, n)
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = 0
      for (let k = 0; k <= j; k++) sum += lower[i * n + k]! * lower[j * n + k]!
      const size = Math.sqrt(Math.abs(a[i * n + i]! * a[j * n + j]!))
      if (!(Math.abs(sum - a[i * n + j]!) <= 1e-11 * size)) return false
    }
  }
  return true
}

function columnsOf(a: Float64Array, n: number): Float64Array[] {
  const lower = semidefiniteCholesky(a, n)
  return Array.from({ length: n }, (_, j) => Float64Array.from({ length: n }, (__, i) => lower[i * n + j]!))
    .filter((column) => column.some((each) => each !== 0))
}
