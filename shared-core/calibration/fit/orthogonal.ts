/**
 * Householder reduction of a tall matrix, without allocation. An orthogonal reduction and not the
 * normal equations: it keeps the digits that squaring the condition number would lose.
 * Source of the method: Golub and Van Loan, Matrix Computations, 5.2.
 */

/**
 * Reduces `matrix` (column-major, `rows` x `columns`) to upper-triangular R in place and applies the
 * same reflections to `rhs`, whose first `columns` entries become Q'rhs.
 */
export function reduce(matrix: Float64Array, rows: number, columns: number, rhs: Float64Array): void {
  for (let k = 0; k < columns; k++) {
    const at = k * rows
    let square = 0
    for (let i = k; i < rows; i++) square += matrix[at + i]! * matrix[at + i]!
    if (square === 0) continue
    const head = matrix[at + k]!
    const alpha = head > 0 ? -Math.sqrt(square) : Math.sqrt(square)
    const beta = 1 / (alpha * (head - alpha))
    matrix[at + k] = head - alpha
    for (let j = k + 1; j < columns; j++) reflect(matrix, at, matrix, j * rows, k, rows, beta)
    reflect(matrix, at, rhs, 0, k, rows, beta)
    matrix[at + k] = alpha
  }
}

/** Adds beta (v'a) v to the column a; v and a start at their offsets, both taken from entry k on. */
function reflect(
  v: Float64Array, vAt: number, a: Float64Array, aAt: number, k: number, rows: number, beta: number,
): void {
  let dot = 0
  for (let i = k; i < rows; i++) dot += v[vAt + i]! * a[aAt + i]!
  if (dot === 0) return
  dot *= beta
  for (let i = k; i < rows; i++) a[aAt + i]! += dot * v[vAt + i]!
}

/** Solves R x = b for upper-triangular R in the head of a column-major matrix. False where R is singular. */
export function backSolve(
  matrix: Float64Array, rows: number, columns: number, b: Float64Array, x: Float64Array,
): boolean {
  for (let i = columns - 1; i >= 0; i--) {
    let value = b[i]!
    for (let j = i + 1; j < columns; j++) value -= matrix[j * rows + i]! * x[j]!
    const pivot = matrix[i * rows + i]!
    if (pivot === 0) return false
    x[i] = value / pivot
  }
  return true
}

/** Row-major inverse of the upper-triangular R in the head of a column-major matrix; null where singular. */
export function inverseOfR(matrix: Float64Array, rows: number, columns: number): Float64Array | null {
  const inverse = new Float64Array(columns * columns)
  for (let j = 0; j < columns; j++) {
    const pivot = matrix[j * rows + j]!
    if (pivot === 0 || !Number.isFinite(pivot)) return null
    inverse[j * columns + j] = 1 / pivot
    for (let i = j - 1; i >= 0; i--) {
      let sum = 0
      for (let k = i + 1; k <= j; k++) sum += matrix[k * rows + i]! * inverse[k * columns + j]!
      inverse[i * columns + j] = -sum / matrix[i * rows + i]!
    }
  }
  return inverse
}

/**
 * Lower-triangular L with L L' = A for a positive semidefinite A: a pivot below `tolerance` times
 * the diagonal's own entry counts as zero and its column stays empty.
 */
export function semidefiniteCholesky(a: Float64Array, size: number, tolerance = 1e-12): Float64Array {
  const lower = new Float64Array(size * size)
  for (let j = 0; j < size; j++) {
    let pivot = a[j * size + j]!
    for (let k = 0; k < j; k++) pivot -= lower[j * size + k]! ** 2
    if (pivot <= tolerance * Math.abs(a[j * size + j]!)) continue
    const root = Math.sqrt(pivot)
    lower[j * size + j] = root
    for (let i = j + 1; i < size; i++) {
      let sum = a[i * size + j]!
      for (let k = 0; k < j; k++) sum -= lower[i * size + k]! * lower[j * size + k]!
      lower[i * size + j] = sum / root
    }
  }
  return lower
}
