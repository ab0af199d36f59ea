/** Small dense linear algebra: weighted means with full covariance. */
import { covariance, variance, type Uncertain } from '@core/uncertainty'

/** Covariance matrix of some values through the sources they share. */
export const covarianceMatrix = (values: readonly Uncertain[]): number[][] =>
  values.map((one, i) => values.map((other, j) => (i === j ? variance(one) : covariance(one, other))))

/** Solves a symmetric system by elimination with pivoting; null where it is singular. */
export function solveSystem(matrix: readonly (readonly number[])[], right: readonly number[]): number[] | null {
  const size = right.length
  const rows = matrix.map((row, i) => [...row, right[i]!])
  const largest = Math.max(...rows.map((row, i) => Math.abs(row[i]!)))
  for (let k = 0; k < size; k++) {
    let best = k
    for (let i = k + 1; i < size; i++) if (Math.abs(rows[i]![k]!) > Math.abs(rows[best]![k]!)) best = i
    ;[rows[k], rows[best]] = [rows[best]!, rows[k]!]
    if (!(Math.abs(rows[k]![k]!) > 1e-13 * largest)) return null
    for (let i = k + 1; i < size; i++) {
      const factor = rows[i]![k]! / rows[k]![k]!
      for (let j = k; j <= size; j++) rows[i]![j]! -= factor * rows[k]![j]!
    }
  }
  const solution = new Array<number>(size).fill(0)
  for (let i = size - 1; i >= 0; i--) {
    let value = rows[i]![size]!
    for (let j = i + 1; j < size; j++) value -= rows[i]![j]! * solution[j]!
    solution[i] = value / rows[i]![i]!
  }
  return solution
}

/**
 * Generalised least-squares weights of a mean (A. C. Aitken, Proc. R. Soc. Edinb. 55 (1935) 42), adding
 * to 1 and none below zero. A negative weight would let one run correct another by what they share,
 * which is right only if the model is; the run that asks for it is left out instead.
 */
export function meanWeights(matrix: readonly (readonly number[])[]): number[] {
  let kept = matrix.map((_, i) => i)
  for (;;) {
    const part = kept.map((i) => kept.map((j) => matrix[i]![j]!))
    const raw = solveSystem(part, kept.map(() => 1))
    const sum = raw?.reduce((total, each) => total + each, 0) ?? 0
    if (!raw || !(sum > 0)) return spreadOver(kept, kept.map(() => 1 / kept.length), matrix.length)
    const worst = raw.reduce((least, each, i) => (each < raw[least]! ? i : least), 0)
    if (raw[worst]! >= 0) return spreadOver(kept, raw.map((each) => each / sum), matrix.length)
    kept = kept.filter((_, i) => i !== worst)
  }
}

function spreadOver(kept: readonly number[], weights: readonly number[], size: number): number[] {
  const all = new Array<number>(size).fill(0)
  kept.forEach((index, i) => { all[index] = weights[i]! })
  return all
}
