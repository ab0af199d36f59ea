/** What of a traverse's spread all runs of a setting share, and what is each traverse's own. */
import { readTraverse } from '@core/airflow'
import type { Traverse } from '@core/schema'
import { covariance, variance } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { splitUnevenness } from '../../../shared-core/airflow/unevenness'
import { Chance } from '../../worlds/draws'
import { chassis } from './bench'

const traverse = (shown: readonly number[]): Traverse => ({
  anemometerId: 'none',
  points: shown.map((each, i) => ({ id: `p${i}`, yMm: 40 * i, zMm: 20, weight: null, shownMs: [each] })),
})

/** Share of the variance of two traverses' means, instrument apart, that both have in common. */
function sharedShare(one: readonly number[], other: readonly number[]): number {
  const [a, b] = [traverse(one), traverse(other)]
  const own = (each: Traverse, others: Traverse[]) => {
    const { value, parts } = readTraverse(each, chassis(), 's', 'full', others)!.meanSquareM2S2
    return { value, parts: parts.filter(({ source }) => source.role !== 'anemometer') }
  }
  const [x, y] = [own(a, [b]), own(b, [a])]
  return covariance(x, y) / Math.sqrt(variance(x) * variance(y))
}

const PLACES = [15, 17, 20, 22, 20, 18, 16, 19, 21]

describe('two traverses over one grid at one setting', () => {
  it('share an unevenness that both met', () => {
    expect(sharedShare(PLACES, PLACES.map((each, i) => each + (i % 2 ? 0.05 : -0.05)))).toBeGreaterThan(0.95)
  })

  it('share next to nothing of what each was read with', () => {
    const chance = new Chance(5)
    const noisy = () => PLACES.map(() => 20 * (1 + chance.normal(0, 0.03)))
    const shares = Array.from({ length: 40 }, () => sharedShare(noisy(), noisy()))
    expect(shares.reduce((sum, each) => sum + each, 0) / 40).toBeLessThan(0.35)
  })

  it('split by the mean squares of a two-way analysis of variance', () => {
    // Places (2, 2, 5) and (4, 6, 5) over their row means: computed with numpy 2.4 from the sums of squares.
    const { places, readings, readingsDof } = splitUnevenness([[2, 2, 5], [4, 6, 5]])
    const rows = [[2, 2, 5].map((each) => each / 3 - 1), [4, 6, 5].map((each) => each / 5 - 1)]
    const means = [0, 1, 2].map((j) => (rows[0]![j]! + rows[1]![j]!) / 2)
    const left = rows.flatMap((row) => row.map((each, j) => (each - means[j]!) ** 2)).reduce((sum, each) => sum + each)
    expect(readingsDof).toBe(2)
    expect(readings).toBeCloseTo(left / 2, 12)
    expect(places).toBeCloseTo(Math.max(0, means.reduce((sum, each) => sum + each * each, 0) / 2 - left / 4), 12)
  })
})

describe('unevenness', () => {
  it('does not shrink without end with more points', () => {
    const many = (count: number) => readTraverse(
      traverse(Array.from({ length: count }, (_, i) => (i % 2 ? 21 : 19))), chassis(), 's', 'full',
    )!.meanSquareM2S2.parts.find(({ source }) => source.role === 'unevenness')!.contribution
    expect(many(36)).toBeLessThan(many(9))
    expect(many(400) / many(100)).toBeGreaterThan(0.99)
  })
})
