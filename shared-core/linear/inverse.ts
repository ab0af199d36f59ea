import { solveSquare } from './solveSquare'

/**
 * The inverse of a small square matrix, row by row.
 *
 * @throws RangeError where it is singular to working precision
 */
export function inverseOf(a: readonly (readonly number[])[]): number[][] {
  const columns = a.map((_, at) => solveSquare(a, a.map((__, row) => (row === at ? 1 : 0))))
  if (columns.some((column) => column === null)) throw new RangeError('the matrix is singular')
  return a.map((_, row) => columns.map((column) => column![row]!))
}
