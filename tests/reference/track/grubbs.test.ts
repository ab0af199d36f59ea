/**
 * Critical values of Grubbs' test for one outlier, two-sided tail taken: ISO 5725-2:1994, table 5
 * ("one largest or one smallest", upper 1 % and upper 5 %). From memory; to one unit of the last digit.
 */
import { describe, expect, it } from 'vitest'
import { grubbsCritical } from '@core/track/repeats'

describe('Grubbs\u2019 critical values', () => {
  it.each([
    [3, 1.155, 1.155], [4, 1.496, 1.481], [5, 1.764, 1.715], [6, 1.973, 1.887], [7, 2.139, 2.020], [8, 2.274, 2.126],
    [10, 2.482, 2.290], [15, 2.806, 2.549], [20, 3.001, 2.709],
  ])('for %d values', (count, one, five) => {
    expect(grubbsCritical(count, 0.01)).toBeCloseTo(one, 2.69)
    expect(grubbsCritical(count, 0.05)).toBeCloseTo(five, 2.69)
  })
})
