/** A wish that was only converted has three digits at the most, and what a text shows is known as a number. */
import { describe, expect, it } from 'vitest'
import { formatQuantity, formatShort, groupedCount, shortDecimals } from '@core/units'

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

describe('a figure without an uncertainty', () => {
  it.each([[2, '2'], [0.30000001, '0.3'], [-0.123456, '−0.123'], [1234.56, '1235']])('%d is %s', (value, text) => {
    expect(formatShort(value, 'plain').text).toBe(text)
  })
})

describe('a count', () => {
  // Groups of three from the mark with a small space, never a dot or comma (ISO 80000-1:2022, 7.3).
  it.each([[999, '999'], [1000, '1\u202f000'], [200_000, '200\u202f000'], [1_234_567, '1\u202f234\u202f567']])('%d', (count, text) => {
    expect(groupedCount(count)).toBe(text)
  })
})
