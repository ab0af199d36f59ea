/**
 * Least-squares algebra on tall matrices, without allocation. What is reported comes from Householder's
 * orthogonal reduction (Golub and Van Loan, Matrix Computations, 5.2), which keeps the digits that
 * the normal equations lose; these only give steps on the way, where digits are to spare.
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
  const along = beta * dot(v, vAt + k, a, aAt + k, rows - k)
  if (along === 0) return
  for (let i = k; i < rows; i++) a[aAt + i]! += along * v[vAt + i]!
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

/** A pivot below this share of its diagonal entry: too few digits are left in the normal equations. */
const LEAST_PIVOT = 1e-10

/**
 * R and Q'rhs by the normal equations, for a design (column-major, `rows` x `columns`) that is left
 * as it is: several times quicker than the reduction, and good enough for a step where the columns
 * are well apart. False where they are not; the outputs are then unusable.
 *
 * @param triangle receives R, column-major, `columns` x `columns`
 * @param head receives Q'rhs
 */
export function triangleByNormal(
  design: Float64Array, rows: number, columns: number, rhs: Float64Array, triangle: Float64Array, head: Float64Array,
): boolean {
  for (let j = 0; j < columns; j++) {
    const at = j * columns
    for (let i = 0; i <= j; i++) {
      let sum = dot(design, i * rows, design, j * rows, rows)
      const square = sum
      for (let k = 0; k < i; k++) sum -= triangle[i * columns + k]! * triangle[at + k]!
      if (i < j) triangle[at + i] = sum / triangle[i * columns + i]!
      else if (sum > LEAST_PIVOT * square) triangle[at + j] = Math.sqrt(sum)
      else return false
    }
    let value = dot(design, j * rows, rhs, 0, rows)
    for (let k = 0; k < j; k++) value -= triangle[at + k]! * head[k]!
    head[j] = value / triangle[at + j]!
  }
  return true
}

/** R and Q'rhs by reduction of a copy of the design in `room`. Outputs as `triangleByNormal`. */
export function triangleByReduction(
  design: Float64Array, rows: number, columns: number, rhs: Float64Array, triangle: Float64Array, head: Float64Array,
  room: Float64Array, rhsRoom: Float64Array,
): void {
  room.set(design)
  rhsRoom.set(rhs)
  reduce(room, rows, columns, rhsRoom)
  for (let j = 0; j < columns; j++) {
    for (let i = 0; i < columns; i++) triangle[j * columns + i] = i <= j ? room[j * rows + i]! : 0
    head[j] = rhsRoom[j]!
  }
}

/** Scalar product of two runs; two running sums, so that one addition need not wait for the other. */
function dot(a: Float64Array, aAt: number, b: Float64Array, bAt: number, count: number): number {
  let even = 0
  let odd = 0
  let i = 0
  for (; i + 1 < count; i += 2) {
    even += a[aAt + i]! * b[bAt + i]!
    odd += a[aAt + i + 1]! * b[bAt + i + 1]!
  }
  if (i < count) even += a[aAt + i]! * b[bAt + i]!
  return even + odd
}
