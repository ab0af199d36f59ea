/** A wish that was only converted has three digits at the most, and what a text shows is known as a number. */
import { describe, expect, it } from 'vitest'
import { formatQuantity, shortDecimals } from '@core/units'

describe('three digits at the most', () => {
  it.each([
    // 4 N in pounds-force is 0.899236 (NIST SP 811, B.8: 4.448222 N to the pound-force).
    [0.899236, 3], [0.0674427, 4], [15, 0], [1.5, 1], [0.3, 1], [1234.5, 0], [0, 0], [0.09996, 1], [-0.25, 2],
  ])('%d has %d decimals', (shown, decimals) => {
    expect(shortDecimals(shown)).toBe(decimals)
  })
})

describe('the number that a text shows', () => {
  it('is rounded as the text is, with any decimal mark', () => {
    const said = formatQuantity(-1.23456, 'millimetre', { u: 0.0123, decimalMark: 'comma' })
    expect(said.value).toBe('−1,235')
    expect(said.figure).toBe(-1.235)
  })
  it('is none where there is none', () => {
    expect(formatQuantity(Infinity, 'millimetre').figure).toBeNaN()
  })
})
