/** Converted values in fields: no tails, and nothing of what was typed is cut off. */
import { fieldDecimals, formatAsRead, fromKept, readingDecimals, RULE_STEP_MM, toKept } from '@core/units'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

const text = (shown: number): string => String(Number(shown.toFixed(fieldDecimals(shown, 6))))

describe('a converted value in a field', () => {
  it.each([
    [0.5, 'gramForce', '51'], [12.4, 'inch', '0.488'], [257, 'inch', '10.12'], [0.04, 'inch', '0.001575'],
    [0.25, 'ounce', '8.82'], [293.15, 'fahrenheit', '68'], [10, 'milePerHour', '22.37'], [0, 'inch', '0'],
  ] as const)('of %s shows in %s as %s', (kept, unit, shown) => {
    expect(text(fromKept(kept, unit))).toBe(shown)
  })

  it('shows a value typed in this unit as it was typed', () => {
    const typed = fc.tuple(fc.integer({ min: -999_999, max: 999_999 }), fc.nat(5))
      .map(([whole, decimals]) => whole / 10 ** decimals)
    const unit = fc.constantFrom('inch', 'gramForce', 'poundForce', 'ounce', 'kilometrePerHour', 'milePerHour', 'celsius')
    fc.assert(fc.property(typed, unit, (value, of) => {
      expect(text(fromKept(toKept(value, of), of))).toBe(String(value))
    }))
  })

  it('is never off by more than half a part in a thousand', () => {
    fc.assert(fc.property(fc.double({ min: 0.01, max: 1e4, noNaN: true }), (kept) => {
      const shown = fromKept(kept, 'inch')
      expect(Math.abs(Number(text(shown)) - shown)).toBeLessThanOrEqual(5.01e-4 * shown + 5e-7)
    }))
  })

  it('of a place ends as a rule of 1 mm is read: hundredths of an inch', () => {
    expect(readingDecimals(RULE_STEP_MM, 'inch')).toBe(2)
    expect(readingDecimals(RULE_STEP_MM, 'millimetre')).toBe(0)
  })
})

describe('a reading that was put aside or typed again', () => {
  it.each([
    [16.1, 'millimetre', '16.1'], [16.15, 'millimetre', '16.15'], [16.1234, 'millimetre', '16.1234'],
    [161, 'millimetre', '161'], [0.6355 * 25.4, 'inch', '0.6355'], [16.15, 'inch', '0.6358'],
  ] as const)('of %s mm is told in %s as it was read: %s', (kept, unit, shown) => {
    expect(formatAsRead(kept, unit).value).toBe(shown)
  })
})
