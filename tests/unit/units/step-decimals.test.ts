import { describe, expect, it } from 'vitest'
import { fixedText, formatQuantity, fromKept, readingDecimals, stepDecimals, type Unit } from '@core/units'

describe('decimals for the step of a display', () => {
  // 1 g is 0.001 kg and 0.0353 oz (avoirdupois, NIST SP 811 app. B.8: 28.34952 g); 0.05 mm is 0.00197 in.
  it.each<[string, number, Unit, number]>([
    ['1 g in g', 0.001, 'gram', 0], ['1 g in kg', 0.001, 'kilogram', 3], ['1 g in oz', 0.001, 'ounce', 2],
    ['0.1 g in g', 0.0001, 'gram', 1], ['0.05 mm in mm', 0.05, 'millimetre', 2], ['0.05 mm in in', 0.05, 'inch', 3],
  ])('%s', (_what, step, unit, decimals) => {
    expect(stepDecimals(step, unit)).toBe(decimals)
  })

  it('never leaves 352 g as nothing', () => {
    expect(formatQuantity(0.352, 'kilogram', { decimals: stepDecimals(0.001, 'kilogram') }).value).toBe('0.352')
  })
})

describe('decimals for the readings of a gauge', () => {
  // An inch is 25.4 mm exactly (NIST SP 811, B.8).
  it.each<[string, number, Unit, number]>([
    ['0.05 mm in mm', 0.05, 'millimetre', 2], ['0.1 mm in mm', 0.1, 'millimetre', 1], ['0.025 mm in mm', 0.025, 'millimetre', 3],
    ['0.05 mm in in', 0.05, 'inch', 4], ['0.01 mm in in', 0.01, 'inch', 4], ['0.1 mm in in', 0.1, 'inch', 3],
    ['0.001 in in in', 0.0254, 'inch', 3], ['0.0005 in in in', 0.0127, 'inch', 4], ['1 mm in mm', 1, 'millimetre', 0],
  ])('%s', (_what, step, unit, decimals) => {
    expect(readingDecimals(step, unit)).toBe(decimals)
  })

  it.each([0.01, 0.02, 0.05, 0.1])('keeps every step of %d mm apart in inches', (step) => {
    const shown = Array.from({ length: 2000 }, (_, count) => fixedText(fromKept(count * step, 'inch'), readingDecimals(step, 'inch')))
    expect(new Set(shown).size).toBe(2000)
  })
})
