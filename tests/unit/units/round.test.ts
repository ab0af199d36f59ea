import { describe, expect, it } from 'vitest'
import {
  CHOICES, DEFAULT_UNITS, formatBound, formatEnds, formatQuantity, fromKept, roundByUncertainty, toKept, unitFor,
} from '@core/units'

describe('rounding by uncertainty', () => {
  // JCGM 100:2008 (GUM), 7.2.6 (from memory): y = 10.057 62 ohm with u = 27 mohm is rounded to 10.058 ohm.
  it('rounds the example of GUM 7.2.6', () => {
    expect(roundByUncertainty(10.05762, 0.027)).toMatchObject({ valueText: '10.058', uText: '0.027', decimals: 3 })
  })

  it.each([
    [12.3456, 0.0996, '12.35', '0.10'], [12.3456, 0.21, '12.35', '0.21'], [12345, 1234, '12300', '1200'],
    [0.04, 9.96, '0', '10'], [-0.001, 0.5, '0.00', '0.50'], [-1.005, 0.1, '-1.01', '0.10'], [1e-9, 3e-10, '0.00000000100', '0.00000000030'],
    [5, 0, '5', '0'], [0.1 + 0.2, 0, '0.3', '0'], [-0, 0, '0', '0'], [0, 1.5e4, '0', '15000'],
  ])('%d with u %d is %s with %s', (value, u, valueText, uText) => {
    expect(roundByUncertainty(value, u)).toMatchObject({ valueText, uText })
  })

  it('never leaves a negative zero', () => {
    expect(Object.is(roundByUncertainty(-0.001, 0.5).value, 0)).toBe(true)
    expect(Object.is(roundByUncertainty(-4, 1500).value, 0)).toBe(true)
  })
})

describe('texts', () => {
  it('carries value, u and unit with one end', () => {
    expect(formatQuantity(12.3456, 'newton', { u: 0.21 })).toEqual({ value: '12.35', u: '0.21', symbol: 'N', figure: 12.35, text: '12.35\u00a0N' })
    expect(formatQuantity(12.3456, 'newton', { u: 0.21, decimalMark: 'comma' }).text).toBe('12,35\u00a0N')
    expect(formatQuantity(-12.3456, 'newton', { u: 0.21, signed: true }).value).toBe('\u221212.35')
    expect(formatQuantity(0.34, 'newton', { u: 0.021, signed: true }).value).toBe('+0.340')
    expect(formatQuantity(NaN, 'newton').text).toBe('–')
  })

  it('rounds in the unit that is shown', () => {
    expect(formatQuantity(toKept(1, 'poundForce'), 'poundForce', { u: 0.05 }).text).toBe('1.000\u00a0lbf')
    expect(formatQuantity(293.15, 'celsius', { u: 0.5 }).text).toBe('20.00\u00a0°C')
    expect(formatQuantity(1.8, 'fahrenheit', { step: true, decimals: 2 }).value).toBe('3.24')
  })

  it('writes both ends of an interval alike', () => {
    expect(formatEnds(-0.004, 1.23456, 'newton', { u: 0.3 })).toEqual({ low: '0.00', high: '1.23', symbol: 'N' })
  })

  it('follows a builder\u2019s choice', () => {
    const choice = { ...DEFAULT_UNITS, force: 'poundForce', length: 'inch' } as const
    expect([unitFor('force', choice), unitFor('rate', choice), unitFor('area', choice), unitFor('distance', choice)])
      .toEqual(['poundForce', 'poundForcePerInch', 'squareInch', 'foot'])
  })

  it('tells the same spring in every unit of force: 4 N/mm is 365.4 ozf/in, 22.84 lbf/in', () => {
    const rateIn = (force: (typeof CHOICES)['force'][number]): number =>
      fromKept(4, unitFor('rate', { ...DEFAULT_UNITS, force }))
    expect(CHOICES.force.map((force) => Number(rateIn(force).toPrecision(4)))).toEqual([4, 407.9, 365.4, 22.84])
    expect(rateIn('ounceForce') / rateIn('poundForce')).toBeCloseTo(16, 12)
  })
})

describe('bounds', () => {
  it.each([
    [6.1249, 'atLeast', '6.12'], [6.1249, 'atMost', '6.13'], [6.12, 'atLeast', '6.12'], [6.12, 'atMost', '6.12'],
    [-0.5551, 'atLeast', '\u22120.556'], [-0.5551, 'atMost', '\u22120.555'], [1234.5, 'atLeast', '1230'], [0, 'atMost', '0'],
    [6.1279, 'atLeast', '6.12'],
  ] as const)('%d, %s, is %s N: never more than was told', (kept, side, text) => {
    expect(formatBound(kept, 'newton', side)).toBe(`${text}\u00a0N`)
  })

  it('has the builder\u2019s unit and mark', () => {
    expect(formatBound(10, 'kilometrePerHour', 'atLeast', { decimalMark: 'comma' })).toBe('36,0\u00a0km/h')
    expect(formatBound(Infinity, 'newton', 'atMost')).toBe('–')
  })
})
