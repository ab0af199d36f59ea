/** Statements by propagation: t at the effective degrees of freedom, one-sided bounds, pools. */
import {
  budget, coverageInterval, effectiveDof, exact, fromData, fromSource, halfWidth, intervalStatement, lowerBound, plus,
  ratioIntervalOf, sum, upperBound, type Source,
} from '@core/uncertainty'
import { describe, expect, it } from 'vitest'

const source = (id: string, dof = Infinity, more: Partial<Source> = {}): Source =>
  ({ ...fromData('readingRepeats', id, dof), ...more })

describe('an interval', () => {
  it('uses the exact quantile, not 2', () => {
    const { interval } = intervalStatement(fromSource(10, 1, source('a')))
    expect(interval.high).toBeCloseTo(10 + 1.959963984540054, 12)
  })

  it('ends where the measurand ends, and keeps its upper end', () => {
    const speed = fromSource(20, 15, source('a'))
    const { interval } = intervalStatement(speed, { least: 0 })
    expect(interval).toEqual({ ...intervalStatement(speed).interval, low: 0 })
  })

  it('uses Student t at the effective degrees of freedom (JCGM 100:2008, G.4)', () => {
    // Two equal parts of 4 degrees of freedom each: Welch-Satterthwaite gives 8.
    const value = plus(fromSource(5, 0.3, source('a', 4)), fromSource(2, 0.3, source('b', 4)))
    const statement = intervalStatement(value)
    expect(statement.dof).toBeCloseTo(8, 12)
    // t for 8 degrees of freedom, two-sided 95 %, as in any table: 2.306.
    expect(halfWidth(value) / statement.u).toBeCloseTo(2.306, 3)
    expect(statement.budget).toEqual(budget(value))
  })

  it('takes sources of one pool as one estimated variance', () => {
    const pooled = (id: string) => source(id, 4, { pool: 'scatter' })
    expect(effectiveDof(plus(fromSource(0, 0.3, pooled('a')), fromSource(0, 0.7, pooled('b'))))).toBeCloseTo(4, 12)
    const mixed = sum([fromSource(0, 1, pooled('a')), fromSource(0, 1, pooled('b')), fromSource(0, 1, source('c', 10))])
    // (1 + 1 + 1)^2 / ((1 + 1)^2/4 + 1/10)
    expect(effectiveDof(mixed)).toBeCloseTo(9 / 1.1, 12)
  })

  it('of an exact value has no width, and says so', () => {
    expect(intervalStatement(exact(3))).toMatchObject({ u: 0, method: 'exact', interval: { low: 3, high: 3 } })
    expect(coverageInterval(3, 0, 0).high).toBe(3)
  })
})

describe('one-sided bounds', () => {
  const value = fromSource(10, 2, source('a'))
  it('lie at the one-sided quantile', () => {
    expect(lowerBound(value)).toBeCloseTo(10 - 2 * 1.6448536269514722, 12)
    expect(upperBound(value, 0.99)).toBeCloseTo(10 + 2 * 2.3263478740408408, 12)
  })
})

describe('a ratio of values that share a source', () => {
  it('is certain where they share everything', () => {
    const gain = source('gain')
    const interval = ratioIntervalOf(fromSource(6, 0.6, gain), fromSource(3, 0.3, gain))
    expect(interval).toMatchObject({ kind: 'bounded' })
    if (interval.kind === 'bounded') {
      expect(interval.low).toBeCloseTo(2, 7)
      expect(interval.high).toBeCloseTo(2, 7)
    }
  })
})
