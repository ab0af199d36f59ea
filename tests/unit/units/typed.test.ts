import { describe, expect, it } from 'vitest'
import { parseTyped, type Unit } from '@core/units'

const kept = (text: string, unit: Unit = 'millimetre', mark: 'point' | 'comma' = 'point') => {
  const typed = parseTyped(text, unit, { decimalMark: mark })
  return typed.ok ? typed.kept : typed.problem
}

describe('numbers as typed', () => {
  it.each([
    ['12.5', 12.5], ['12,5', 12.5], ['  12.5  ', 12.5], ['-0,25', -0.25], ['\u22123.2', -3.2], ['+4', 4], ['.5', 0.5],
    ['5.', 5], ['1e-2', 0.01], ['0,123', 0.123], ['0.123', 0.123], ['1.234', 1.234], ['12,3456', 12.3456],
    ['1234,5', 1234.5], ['1 234,567', 1234.567], ['1\u00a0234.5', 1234.5], ['1,234.5', 1234.5], ['1.234,5', 1234.5],
    ['1.234.567', 1234567], ['1\u2019234', 1234],
  ])('reads %j as %d', (text, value) => {
    expect(kept(text)).toBeCloseTo(value, 12)
  })

  it('lets the chosen mark decide what a group of three means, and refuses the other', () => {
    expect(kept('1,234', 'gram')).toBe('ambiguousThousands')
    expect(kept('1,234', 'gram', 'comma')).toBeCloseTo(1.234e-3, 15)
    expect(kept('1.234', 'kilogram')).toBe(1.234)
    expect(kept('1.234', 'kilogram', 'comma')).toBe('ambiguousThousands')
  })

  it('says what to type where thousands are ambiguous, and keeps the text', () => {
    const typed = parseTyped(' 1,234 ', 'gram')
    expect(typed).toMatchObject({
      ok: false, text: ' 1,234 ', message: '"1,234" may mean two numbers: type 1234 or 1.234',
    })
  })

  it.each([
    ['', 'empty'], ['  ', 'empty'], ['abc', 'notANumber'], ['1.2.3', 'notANumber'], ['1,2,3', 'notANumber'],
    ['12 5', 'spaceInNumber'], ['.', 'notANumber'], ['--3', 'notANumber'], ['1e999', 'tooLarge'],
    ['1/2', 'unknownUnit'], ['NaN', 'notANumber'], ['Infinity', 'notANumber'], ['9'.repeat(200), 'notANumber'],
    ['1,23,456', 'notANumber'], ['1.234,567.8', 'notANumber'], ['0x10', 'unknownUnit'], ['5 furlongs', 'unknownUnit'],
  ])('refuses %j: %s', (text, problem) => {
    expect(kept(text)).toBe(problem)
  })

  it.each([
    ['0.5 in', 'millimetre', 12.7], ['0.5"', 'millimetre', 12.7], ['12.7mm', 'inch', 12.7], ['100 gf', 'newton', 0.980665],
    ['2 lbf', 'newton', 8.896443230521], ['36 km/h', 'metrePerSecond', 10], ['10 mph', 'metrePerSecond', 4.4704],
    ['68 °F', 'celsius', 293.15], ['20 C', 'fahrenheit', 293.15], ['1013.25 hPa', 'pascal', 101325], ['1.5 KG', 'gram', 1.5],
    ['16oz', 'gram', 0.45359237], ['50 %', 'percent', 0.5], ['1.2 g', 'standardGravity', 11.76798],
  ] as const)('takes a unit after the number: %j in a field of %s', (text, unit, value) => {
    expect(kept(text, unit)).toBeCloseTo(value, 10)
  })

  it('does not take a mass for a force', () => {
    const typed = parseTyped('100 g', 'newton')
    expect(typed).toMatchObject({ ok: false, problem: 'unknownUnit' })
    expect(typed.ok ? '' : typed.message).toContain('g is a mass')
  })
})
