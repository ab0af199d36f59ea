/** Weighted means with full covariance. */
import { solveSquare } from '@core/linear'
import { covariance, variance, type Uncertain } from '@core/uncertainty'

/** Covariance matrix of some values through the sources they share. */
export const covarianceMatrix = (values: readonly Uncertain[]): number[][] =>
  values.map((one, i) => values.map((other, j) => (i === j ? variance(one) : covariance(one, other))))

/**
 * Generalised least-squares weights of a mean (A. C. Aitken, Proc. R. Soc. Edinb. 55 (1935) 42), adding
 * to 1 and none below zero. A negative weight would let one run correct another by what they share,
 * which is right only if the model is; the run that asks for it is left out instead.
 */
export function meanWeights(matrix: readonly (readonly number[])[]): number[] {
  let kept = matrix.map((_, i) => i)
  for (;;) {
    const part = kept.map((i) => kept.map((j) => matrix[i]![j]!))
    const raw = solveSquare(part, kept.map(() => 1))
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
