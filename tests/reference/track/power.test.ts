/** Power of a paired test and the noncentral t against scipy.stats (nct, t), version 1.17, computed once. */
import { describe, expect, it } from 'vitest'
import { drawnOrder, noncentralT, pairedPower, planRuns } from '@core/track'

describe('noncentral t', () => {
  it.each([
    [2, 5, 1, 0.7780746626162148], [3.5, 9, 2, 0.8625088103084512], [-1, 7, 0.5, 0.07810220220087769],
  ])('P(T <= %d) for %d degrees of freedom, shift %d', (t, dof, shift, scipy) => {
    expect(noncentralT(t, dof, shift)).toBeCloseTo(scipy, 6)
  })
})

describe('power of a paired t test at 5 %, two-sided', () => {
  it.each([
    [3, 2, 0.47074943127843494], [4, 1, 0.2887524164017151], [6, 1, 0.5068419799585823], [8, 1, 0.6808339582062666],
    [10, 0.5, 0.29317560651407687], [34, 0.5, 0.8077775012792737],
  ])('%d pairs, effect %d', (pairs, effect, scipy) => {
    expect(pairedPower(pairs, effect, 0.05)).toBeCloseTo(scipy, 6)
  })
})

describe('a plan', () => {
  it('takes as few blocks as reach the power, and no fewer', () => {
    const question = { wishedShare: 0.05, runShare: 0.02, power: 0.8, level: 0.05 }
    const { blocks, power } = planRuns(question)
    const effect = Math.log(1.05) / (Math.SQRT2 * 0.02)
    expect(power).toBeGreaterThanOrEqual(0.8)
    expect(pairedPower(2 * blocks! - 2, effect, 0.05)).toBeLessThan(0.8)
  })

  it('says that a small gain is out of reach of a large scatter', () => {
    expect(planRuns({ wishedShare: 0.002, runShare: 0.05, power: 0.8, level: 0.05 }).blocks).toBeNull()
  })

  it('cancels a steady drift in every block, whatever the lot', () => {
    for (let lot = 0; lot < 40; lot++) {
      const order = drawnOrder('a', 'b', 5, Array.from({ length: 5 }, (_, i) => ((lot * 7 + i * 3) % 11) / 11))
      expect(order).toHaveLength(20)
      for (let block = 0; block < 5; block++) {
        const places = (of: string) => order.slice(4 * block, 4 * block + 4)
          .reduce((sum, each, at) => (each === of ? sum + at : sum), 0)
        expect(places('a')).toBe(places('b'))
      }
    }
  })

  it('holds two opposite blocks of two: a bent drift cancels, too', () => {
    const order = drawnOrder('a', 'b', 2, [0.3, 0.8])
    const bent = order.reduce((sum, each, at) => sum + (each === 'a' ? -1 : 1) * at * at, 0)
    expect(bent).toBe(0)
  })
})
