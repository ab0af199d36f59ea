/** Headless figures end with the second digit of their uncertainty (JCGM 100:2008, 7.2.6). */
import { remarkText, withU } from '../../../electron/headless/words'
import { remark } from '@core/remark'
import { describe, expect, it } from 'vitest'

describe('a value with its uncertainty', () => {
  // The mass of 7.2.2: 100.02147 g with u 0.35 mg.
  it.each([
    [100.02147, 0.00035, '100.02147 (u 0.00035)'], [12.345678, 0.0996, '12.35 (u 0.10)'],
    [3.456789, 0.2, '3.46 (u 0.20)'], [1234.5, 31, '1235 (u 31)'],
  ])(
    '%d, u %d', (value, u, text) => {
      expect(withU(value, u)).toBe(text)
    },
  )
  it('tells an unknown one', () => {
    expect(withU(1.5, Infinity)).toBe('1.5 (u unknown)')
  })
})

describe('the figures of a remark', () => {
  it('end by the uncertainty that is told with them', () => {
    expect(remarkText(remark('zeroDrift', { axle: 'rear', driftMm: 0.123456, uMm: 0.034567 })))
      .toContain('0.123\u00a0mm (u 0.035\u00a0mm)')
  })
  it('are counts where they count', () => {
    expect(remarkText(remark('tooFewPoints', { readings: 2, loads: 1 }))).toMatch(/\b2\b(?!\.)/)
    expect(remarkText(remark('tooFewPoints', { readings: 2, loads: 1 }))).not.toContain('2.0')
  })
})
