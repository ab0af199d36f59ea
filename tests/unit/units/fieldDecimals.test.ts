/** Converted values in fields: no tails, and nothing of what was typed is cut off. */
import { fieldDecimals, fromKept, toKept } from '@core/units'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

const text = (shown: number): string => String(Number(shown.toFixed(fieldDecimals(shown, 6))))

describe('a converted value in a field', () => {
  it.each([
    [0.5, 'gramForce', '50.99'], [12.4, 'inch', '0.4882'], [257, 'inch', '10.118'], [0.04, 'inch', '0.001575'],
    [0.25, 'ounce', '8.818'], [293.15, 'fahrenheit', '68'], [10, 'milePerHour', '22.37'], [0, 'inch', '0'],
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

  it('is never off by more than one part in ten thousand', () => {
    fc.assert(fc.property(fc.double({ min: 0.01, max: 1e4, noNaN: true }), (kept) => {
      const shown = fromKept(kept, 'inch')
      expect(Math.abs(Number(text(shown)) - shown)).toBeLessThanOrEqual(1.01e-4 * shown + 5e-7)
    }))
  })
})
