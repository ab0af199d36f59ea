/** Fieller's interval: its ends solve (a - r b)^2 = t^2 (var a - 2 r cov + r^2 var b), which is checked directly. */
import {
  exact, fromData, fromSource, ratioInterval, ratioIntervalOf, type RatioInput, type Source,
} from '@core/uncertainty'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'

/** Student's t, two-sided 95 %, at 10 degrees of freedom: 2.228 in any table; these digits by mpmath at 30 places. */
const T10 = 2.228138851986275

const statistic = (input: RatioInput, r: number): number =>
  (input.numerator - r * input.denominator)
  / Math.sqrt(input.varianceNumerator - 2 * r * input.covariance + r ** 2 * input.varianceDenominator)

const source = (id: string, dof = Infinity): Source =>
  fromData('readingRepeats', id, dof)

describe('the ends', () => {
  it('are just significant, for every sign of numerator and denominator', () => {
    const size = fc.double({ min: 1, max: 50, noNaN: true })
    const small = fc.double({ min: 0.01, max: 0.2, noNaN: true })
    const sign = fc.constantFrom(-1, 1)
    fc.assert(fc.property(size, size, sign, sign, small, small, fc.double({ min: -0.9, max: 0.9, noNaN: true }),
      (n, d, signN, signD, uN, uD, correlation) => {
        const input: RatioInput = {
          numerator: signN * n, denominator: signD * d, varianceNumerator: uN ** 2, varianceDenominator: uD ** 2,
          covariance: correlation * uN * uD, dof: 10,
        }
        const interval = ratioInterval(input)
        if (interval.kind !== 'bounded') throw new Error(interval.kind)
        expect(interval.low).toBeLessThan(interval.high)
        for (const end of [interval.low, interval.high]) {
          expect(Math.abs(statistic(input, end)) / T10).toBeCloseTo(1, 5)
        }
        expect(interval.low).toBeLessThan(input.numerator / input.denominator)
        expect(interval.high).toBeGreaterThan(input.numerator / input.denominator)
      }))
  })

  it('stand alike on both sides of a numerator of zero', () => {
    const interval = ratioInterval({
      numerator: 0, denominator: 10, varianceNumerator: 1, varianceDenominator: 0, covariance: 0, dof: 10,
    })
    if (interval.kind !== 'bounded') throw new Error(interval.kind)
    expect(interval.low).toBeCloseTo(-T10 / 10, 13)
    expect(interval.high).toBeCloseTo(T10 / 10, 13)
  })

  it('widen with the probability', () => {
    const known = { varianceNumerator: 1, varianceDenominator: 1, covariance: 0, dof: 10 }
    const input = { numerator: 5, denominator: 10, ...known }
    const [narrow, wide] = [ratioInterval(input, 0.5), ratioInterval(input, 0.99)]
    if (narrow.kind !== 'bounded' || wide.kind !== 'bounded') throw new Error('bounded at both')
    expect(wide.high - wide.low).toBeGreaterThan(3 * (narrow.high - narrow.low))
  })
})

describe('from uncertain values', () => {
  it('uses the degrees of freedom of a - r b', () => {
    const a = fromSource(4, 0.2, source('a', 10))
    const interval = ratioIntervalOf(a, exact(2))
    expect(interval).toMatchObject({ kind: 'bounded' })
    if (interval.kind === 'bounded') expect((interval.high - 2) / 0.1).toBeCloseTo(T10, 9)
    // Both parts alike in size after scaling, 10 and 30 degrees of freedom: Welch-Satterthwaite gives 15.
    const b = fromSource(2, 0.1, source('b', 30))
    const both = ratioIntervalOf(a, b)
    const input = { numerator: 4, denominator: 2, varianceNumerator: 0.04, varianceDenominator: 0.01, covariance: 0 }
    expect(both).toEqual(ratioInterval({ ...input, dof: (2 * 0.04) ** 2 / (0.04 ** 2 / 10 + 0.04 ** 2 / 30) }))
  })

  it('says what can still be said with a denominator of zero', () => {
    const zero = fromSource(0, 0.1, source('b'))
    expect(ratioIntervalOf(fromSource(5, 0.1, source('a', 10)), zero).kind).toBe('outside')
    expect(ratioIntervalOf(fromSource(0, 0.1, source('a', 10)), zero).kind).toBe('unbounded')
    expect(ratioIntervalOf(exact(0), exact(0)).kind).toBe('unbounded')
  })
})
