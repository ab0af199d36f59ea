import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  formatQuantity, fromKept, parseTyped, roundByUncertainty, toKept, type DecimalMark, type Unit,
} from '@core/units'
import { UNITS } from '@core/units/quantities'

const unit = fc.constantFrom(...(Object.keys(UNITS) as Unit[]))
const mark = fc.constantFrom<DecimalMark>('point', 'comma')
const number = fc.double({ min: -1e6, max: 1e6, noNaN: true })
const uncertainty = fc.double({ min: 1e-6, max: 1e5, noNaN: true })

describe('units', () => {
  it('come back from the unit they were shown in', () => {
    fc.assert(fc.property(number, unit, (value, each) => {
      expect(Math.abs(fromKept(toKept(value, each), each) - value)).toBeLessThanOrEqual(1e-9 * (1 + Math.abs(value)))
    }))
  })

  it('read back every text they print, with or without its unit', () => {
    fc.assert(fc.property(number, uncertainty, unit, mark, fc.boolean(), (value, u, each, decimalMark, withUnit) => {
      const printed = formatQuantity(value, each, { u, decimalMark })
      const typed = parseTyped(withUnit ? printed.text : printed.value, each, { decimalMark })
      expect(typed.ok).toBe(true)
      if (typed.ok) expect(Math.abs(typed.kept - value)).toBeLessThanOrEqual(u * 0.51 + 1e-9 * Math.abs(value))
    }))
  })

  it('never take any text for a number that is not finite, and always keep the text', () => {
    fc.assert(fc.property(fc.string({ maxLength: 40, unit: 'binary' }), unit, mark, (text, each, decimalMark) => {
      const typed = parseTyped(text, each, { decimalMark })
      expect(typed.text).toBe(text)
      if (typed.ok) expect(Number.isFinite(typed.kept)).toBe(true)
      else expect(typed.message.length).toBeGreaterThan(5)
    }), { numRuns: 500 })
  })
})

describe('rounding by uncertainty', () => {
  it('moves a value by at most half a unit in the last of two digits of u, alike for both signs', () => {
    fc.assert(fc.property(number, uncertainty, (value, u) => {
      const rounded = roundByUncertainty(value, u)
      const half = 0.5 * 10 ** -rounded.decimals
      expect(Math.abs(rounded.value - value)).toBeLessThanOrEqual(half * (1 + 1e-9) + 1e-12 * Math.abs(value))
      expect(half).toBeLessThanOrEqual(u * 0.0503)
      expect(roundByUncertainty(-value, u).value).toBe(rounded.value === 0 ? 0 : -rounded.value)
      expect(rounded.valueText).not.toMatch(/^-0(\.0*)?$/)
    }))
  })
})
