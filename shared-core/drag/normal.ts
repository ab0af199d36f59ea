/** Small dense symmetric matrices of the coast fit: solving, inverting, determinants by Cholesky's factor. */

/** Lower factor L of a symmetric positive definite matrix, A = L L'; null where it is none. */
export function choleskyOf(a: readonly (readonly number[])[]): number[][] | null {
  const n = a.length
  const l = Array.from({ length: n }, () => new Array<number>(n).fill(0))
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      let sum = a[i]![j]!
      for (let k = 0; k < j; k++) sum -= l[i]![k]! * l[j]![k]!
      if (i !== j) l[i]![j] = sum / l[j]![j]!
      else if (sum > 1e-14 * Math.abs(a[i]![i]!)) l[i]![i] = Math.sqrt(sum)
      else return null
    }
  }
  return l
}

/** Solves L L' x = b. */
export function solveBy(l: readonly (readonly number[])[], b: readonly number[]): number[] {
  const n = b.length
  const x = [...b]
  for (let i = 0; i < n; i++) {
    for (let k = 0; k < i; k++) x[i]! -= l[i]![k]! * x[k]!
    x[i]! /= l[i]![i]!
  }
  for (let i = n - 1; i >= 0; i--) {
    for (let k = i + 1; k < n; k++) x[i]! -= l[k]![i]! * x[k]!
    x[i]! /= l[i]![i]!
  }
  return x
}

/** Logarithm of the determinant of L L'. */
export const logDeterminant = (l: readonly (readonly number[])[]): number =>
  l.reduce((sum, row, i) => sum + 2 * Math.log(row[i]!), 0)

/** Inverse of L L'. */
export const inverseBy = (l: readonly (readonly number[])[]): number[][] =>
  l.map((_, i) =>
    solveBy(
      l,
      l.map((__, j) => (i === j ? 1 : 0)),
    ),
  )
