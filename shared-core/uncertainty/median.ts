/** The middle of some values, the mean of the two middle ones where their number is even; NaN of none. */
export function median(values: ArrayLike<number>): number {
  const sorted = Float64Array.from(values).sort()
  const middle = sorted.length >> 1
  if (sorted.length === 0) return NaN
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2
}
