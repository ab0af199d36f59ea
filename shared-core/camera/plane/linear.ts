/** The little linear algebra this room needs: least squares and a symmetric eigenvector, small and dense. */
import { solveSquare } from '@core/linear'

/**
 * Least squares by the normal equations, for the few well-scaled columns of this room.
 * `cofactors` is the inverse of the normal matrix: times the residual variance it is the covariance.
 */
export function leastSquares(rows: readonly (readonly number[])[], values: readonly number[]): {
  solution: number[]; residuals: number[]; cofactors: number[][]
} | null {
  const n = rows[0]?.length ?? 0
  if (rows.length <= n || n === 0) return null
  const normal = Array.from({ length: n }, () => new Array<number>(n).fill(0))
  const right = new Array<number>(n).fill(0)
  rows.forEach((row, k) => {
    for (let i = 0; i < n; i++) {
      right[i]! += row[i]! * values[k]!
      for (let j = 0; j < n; j++) normal[i]![j]! += row[i]! * row[j]!
    }
  })
  const solution = solveSquare(normal, right)
  if (!solution) return null
  const cofactors: number[][] = []
  for (let i = 0; i < n; i++) {
    const unit = right.map((_, j) => (i === j ? 1 : 0))
    const column = solveSquare(normal, unit)
    if (!column) return null
    cofactors.push(column)
  }
  const residuals = rows.map((row, k) => values[k]! - row.reduce((sum, each, i) => sum + each * solution[i]!, 0))
  return { solution, residuals, cofactors }
}

/**
 * Eigenvalues (ascending) and eigenvectors (rows of `vectors`, same order) of a symmetric matrix by
 * cyclic Jacobi rotations (Golub and Van Loan, Matrix Computations, section 8.5).
 */
export function symmetricEigen(matrix: readonly (readonly number[])[]): { values: number[]; vectors: number[][] } {
  const n = matrix.length
  const a = matrix.map((row) => [...row])
  const v = a.map((_, i) => a.map((__, j) => (i === j ? 1 : 0)))
  for (let sweep = 0; sweep < 60; sweep++) {
    let off = 0
    let all = 0
    for (let p = 0; p < n; p++) for (let q = 0; q < n; q++) {
      all += a[p]![q]! ** 2
      if (p !== q) off += a[p]![q]! ** 2
    }
    if (off <= 1e-34 * all) break
    for (let p = 0; p < n - 1; p++) for (let q = p + 1; q < n; q++) rotate(a, v, p, q)
  }
  const order = a.map((_, i) => i).sort((i, j) => a[i]![i]! - a[j]![j]!)
  return { values: order.map((i) => a[i]![i]!), vectors: order.map((i) => v.map((row) => row[i]!)) }
}

function rotate(a: number[][], v: number[][], p: number, q: number): void {
  const apq = a[p]![q]!
  if (apq === 0) return
  const tau = (a[q]![q]! - a[p]![p]!) / (2 * apq)
  const t = (tau >= 0 ? 1 : -1) / (Math.abs(tau) + Math.sqrt(1 + tau * tau))
  const c = 1 / Math.sqrt(1 + t * t)
  const s = t * c
  for (let k = 0; k < a.length; k++) {
    const akp = a[k]![p]!
    const akq = a[k]![q]!
    a[k]![p] = c * akp - s * akq
    a[k]![q] = s * akp + c * akq
  }
  for (let k = 0; k < a.length; k++) {
    const apk = a[p]![k]!
    const aqk = a[q]![k]!
    a[p]![k] = c * apk - s * aqk
    a[q]![k] = s * apk + c * aqk
  }
  for (const row of v) {
    const vp = row[p]!
    const vq = row[q]!
    row[p] = c * vp - s * vq
    row[q] = s * vp + c * vq
  }
}
