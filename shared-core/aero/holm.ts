/**
 * Holm's step-down correction for several comparisons at once (S. Holm, Scand. J. Stat. 6 (1979) 65):
 * the chance of calling any equal pair different stays at the level chosen.
 *
 * @param pValues one per comparison, 0 to 1
 * @returns corrected p-values in the same order, never above 1
 */
export function holm(pValues: readonly number[]): number[] {
  const order = pValues.map((_, i) => i).sort((a, b) => pValues[a]! - pValues[b]!)
  const corrected = new Array<number>(pValues.length).fill(1)
  let held = 0
  order.forEach((index, rank) => {
    held = Math.max(held, Math.min(1, pValues[index]! * (pValues.length - rank)))
    corrected[index] = held
  })
  return corrected
}
