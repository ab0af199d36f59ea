/** First-order propagation against its closed forms (JCGM 100:2008, 5.1.2 and 5.2.2), and the budget's bookkeeping. */
import {
  budget, combine, covariance, effectiveDof, exact, fromSource, intervalStatement, known, lowerBound, mean, minus,
  over, plus, scaled, standardUncertainty, sum, times, variance, type Source, type SourceGroup,
} from '@core/uncertainty'
import { describe, expect, it } from 'vitest'

const source = (id: string, group: SourceGroup = 'gaugeReading', dof = Infinity): Source =>
  ({ ...known('readingRounding', id), group, dof })

const a = fromSource(6, 0.3, source('a'))
const b = fromSource(-4, 0.2, source('b'))

describe('each operation', () => {
  it.each([
    ['plus', plus(a, b), 2, Math.hypot(0.3, 0.2)],
    ['minus', minus(a, b), 10, Math.hypot(0.3, 0.2)],
    ['times', times(a, b), -24, Math.hypot(0.3 * 4, 0.2 * 6)],
    ['over', over(a, b), -1.5, 1.5 * Math.hypot(0.3 / 6, 0.2 / 4)],
    ['scaled', scaled(a, -2), -12, 0.6],
    ['sum', sum([a, b, a]), 8, Math.hypot(0.6, 0.2)],
    ['mean', mean([a, b]), 1, Math.hypot(0.3, 0.2) / 2],
  ])('%s', (_name, result, value, u) => {
    expect(result.value).toBeCloseTo(value, 12)
    expect(standardUncertainty(result)).toBeCloseTo(u, 12)
  })

  it('of a value with itself keeps what is shared shared', () => {
    expect(standardUncertainty(minus(a, a))).toBe(0)
    expect(over(a, a)).toMatchObject({ value: 1 })
    expect(standardUncertainty(over(a, a))).toBeCloseTo(0, 15)
    expect(standardUncertainty(times(a, a))).toBeCloseTo(2 * 6 * 0.3, 12)
    expect(covariance(a, plus(a, b))).toBeCloseTo(0.09, 12)
    expect(covariance(a, b)).toBe(0)
  })

  it('leaves no part of an input that has no say', () => {
    expect(combine(5, [[a, 0], [b, 1]]).parts.map((part) => part.source.id)).toEqual(['b'])
    expect(fromSource(5, 0, source('c'))).toEqual(exact(5))
  })
})

describe('degrees of freedom', () => {
  it('are without end for what is exact, and for what rests on knowledge alone', () => {
    expect(effectiveDof(exact(3))).toBe(Infinity)
    expect(effectiveDof(plus(a, b))).toBe(Infinity)
  })

  it('follow Welch and Satterthwaite (JCGM 100:2008, G.4.1, eq. G.2b), sources of knowledge adding variance only', () => {
    const scattered = fromSource(0, 0.4, source('s', 'repeatability', 5))
    expect(effectiveDof(plus(a, scattered))).toBeCloseTo((0.09 + 0.16) ** 2 / (0.16 ** 2 / 5), 12)
  })
})

describe('the budget', () => {
  const gauge = fromSource(0, 0.3, source('g1'))
  const gaugeToo = fromSource(0, 0.4, source('g2'))
  const air = fromSource(0, 1.2, source('air', 'airUnevenness'))

  it('sums squares within a group, largest first, with shares that add to one', () => {
    const rows = budget(sum([gauge, air, gaugeToo]))
    expect(rows.map((row) => row.group)).toEqual(['airUnevenness', 'gaugeReading'])
    expect(rows[0]?.u).toBeCloseTo(1.2, 12)
    expect(rows[1]?.u).toBeCloseTo(0.5, 12)
    expect(rows[0]?.share).toBeCloseTo(1.44 / 1.69, 12)
    expect(rows.reduce((total, row) => total + row.share, 0)).toBeCloseTo(1, 12)
    expect(rows.reduce((total, row) => total + row.u ** 2, 0)).toBeCloseTo(variance(sum([gauge, air, gaugeToo])), 12)
  })

  it('of an exact value is empty, and of a cancelled one has no share', () => {
    expect(budget(exact(1))).toEqual([])
    expect(budget(minus(a, a))).toEqual([{ group: 'gaugeReading', u: 0, share: 0 }])
  })
})

describe('statements', () => {
  it('say how they were made', () => {
    expect(intervalStatement(a)).toMatchObject({ method: 'propagation', extrapolated: false })
    expect(intervalStatement(exact(2))).toMatchObject({ method: 'exact', u: 0 })
    expect(lowerBound(exact(2))).toBe(2)
  })
})
