/** Below this share of the largest entry a pivot is none: the system is singular to working precision. */
const LEAST_PIVOT = 1e-13

/**
 * Solves A x = b by elimination with row exchange. For the few rows of a fit's start, a mean's weights
 * or a picture's plane; the fit itself has its own orthogonal route (`calibration/fit`).
 *
 * @param a square, row by row; not changed
 * @returns x, or null where A is singular to working precision or not finite
 */
export function solveSquare(a: readonly (readonly number[])[], b: readonly number[]): number[] | null {
  const n = b.length
  const rows = a.map((row, i) => [...row, b[i]!])
  const largest = Math.max(...a.flatMap((row) => row.map(Math.abs)))
  for (let column = 0; column < n; column++) {
    let pivot = column
    for (let i = column + 1; i < n; i++) {
      if (Math.abs(rows[i]![column]!) > Math.abs(rows[pivot]![column]!)) pivot = i
    }
    if (!(Math.abs(rows[pivot]![column]!) > LEAST_PIVOT * largest)) return null
    ;[rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!]
    const lead = rows[column]!
    for (let i = column + 1; i < n; i++) {
      const factor = rows[i]![column]! / lead[column]!
      if (factor === 0) continue
      for (let j = column; j <= n; j++) rows[i]![j]! -= factor * lead[j]!
    }
  }
  const x = new Array<number>(n).fill(0)
  for (let i = n - 1; i >= 0; i--) {
    let sum = rows[i]![n]!
    for (let j = i + 1; j < n; j++) sum -= rows[i]![j]! * x[j]!
    x[i] = sum / rows[i]![i]!
  }
  return x
}
