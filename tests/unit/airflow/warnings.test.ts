/**
 * A warning is asked of every run and axle of a session at once, so each may be raised by chance in far fewer than one
 * case of twenty: else a faultless project of many runs nearly always carries one.
 */
import { AS_READ, surplusOf } from '@core/airflow/scatter'
import { fromSource, known } from '@core/uncertainty'
import { expect, it } from 'vitest'

/**
 * Five states that repeat to 1 mm, drawn apart until chance makes as much scatter with this probability: points of the
 * chi-square distribution with four degrees of freedom, from scipy.stats.chi2.isf (SciPy 1.17).
 */
const CHI_SQUARE = { p020: 11.667843403834782, p003: 16.014326314940618, p0003: 21.118421324847485 } as const

const factorOf = (chance: keyof typeof CHI_SQUARE, runsAsked: number): number => {
  const apart = Math.sqrt(CHI_SQUARE[chance] / 10)
  const states = [-2, -1, 0, 1, 2].map((at, i) =>
    fromSource(5 + apart * at, 1, known('readingRounding', `state ${i}`)))
  return surplusOf(states, states.map(() => 1 / states.length), { ...AS_READ, count: runsAsked }, 'run', 'session').factor
}

it('is not raised by what chance makes in one run of fifty', () => {
  expect(factorOf('p020', 1)).toBe(1)
})

it('is raised by what chance makes in three runs of a thousand, where one run was asked', () => {
  expect(factorOf('p003', 1)).toBeCloseTo(Math.sqrt(CHI_SQUARE.p003 / 4), 6)
})

it('wants rarer scatter the more runs were asked', () => {
  expect(factorOf('p003', 12)).toBe(1)
  expect(factorOf('p0003', 12)).toBeCloseTo(Math.sqrt(CHI_SQUARE.p0003 / 4), 6)
})
