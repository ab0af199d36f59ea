/** Fieller's interval against figures from scipy (`library_figures.py`). */
import { ratioInterval, type RatioInput } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import figures from './library-figures.json'

const inputOf = (given: Omit<RatioInput, 'dof'> & { dof: number | string }): RatioInput =>
  ({ ...given, dof: Number(given.dof) })

describe('Fieller: the ends are where the t statistic of a - r b is just significant', () => {
  it.each(['bounded', 'knownVariances'] as const)('%s', (name) => {
    const interval = ratioInterval(inputOf(figures.fieller[name]))
    if (interval.kind !== 'bounded') throw new Error(interval.kind)
    expect(interval.low).toBeCloseTo(figures.fieller[name].ends[0]!, 11)
    expect(interval.high).toBeCloseTo(figures.fieller[name].ends[1]!, 11)
  })

  it('leaves out only what lies between, where the denominator is not clearly away from zero', () => {
    const interval = ratioInterval(inputOf(figures.fieller.outside))
    if (interval.kind !== 'outside') throw new Error(interval.kind)
    expect(interval.below).toBeCloseTo(figures.fieller.outside.ends[0]!, 10)
    expect(interval.above).toBeCloseTo(figures.fieller.outside.ends[1]!, 10)
  })

  it('excludes nothing where neither is clearly away from zero', () => {
    expect(ratioInterval({
      numerator: 0.1, denominator: 0.1, varianceNumerator: 1, varianceDenominator: 1, covariance: 0, dof: 10,
    }).kind).toBe('unbounded')
  })
})
