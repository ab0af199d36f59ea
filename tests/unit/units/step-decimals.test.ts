import { describe, expect, it } from 'vitest'
import { formatQuantity, stepDecimals, type Unit } from '@core/units'

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
