/** Comparison by significant digits. */
import { expect } from 'vitest'

/** Log relative error: the number of significant digits in which a value agrees with a certified one. */
export const digits = (value: number, certified: number): number =>
  value === certified ? 16 : -Math.log10(Math.abs(value - certified) / Math.abs(certified))

/** Fails unless each value agrees with its certified one to at least this many digits. */
export function expectDigits(values: ArrayLike<number>, certified: readonly number[], least: number): void {
  expect(values.length).toBe(certified.length)
  certified.forEach((each, i) => {
    expect(digits(values[i]!, each), `entry ${i}: ${values[i]} against ${each}`).toBeGreaterThanOrEqual(least)
  })
}

/** Square roots of the diagonal of a row-major matrix. */
export const deviationsOf = (covariance: Float64Array): number[] => {
  const size = Math.sqrt(covariance.length)
  return Array.from({ length: size }, (_, i) => Math.sqrt(covariance[i * size + i]!))
}
