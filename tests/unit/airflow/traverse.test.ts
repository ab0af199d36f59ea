/** The parts of a traverse's uncertainty, each against its closed form; and what it says of itself. */
import { readTraverse } from '@core/airflow'
import { standardUncertainty } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { chassis } from './bench'

interface Point { shown: number[]; weight?: number; yMm?: number }

const traverse = (points: readonly Point[], anemometerId = 'cups') => ({
  anemometerId,
  points: points.map(({ shown, weight, yMm }, i) =>
    ({ id: `p${i}`, yMm: yMm ?? 10 * i, zMm: 5, weight: weight ?? null, shownMs: shown })),
})
/** The bench's anemometer, with a factor away from 1 so that its powers can be told apart. */
const car = chassis({ anemometers: [
  { id: 'other', name: 'Other', resolutionMs: 5, factor: { value: 3, u: 1 } },
  { id: 'cups', name: 'Cups', resolutionMs: 0.1, factor: { value: 1.1, u: 0.02 } },
] })
const read = (points: readonly Point[], of = car, anemometerId = 'cups') => {
  const result = readTraverse(traverse(points, anemometerId), of, 's', 'full')
  if (result === null) throw new Error('nothing was read')
  return result
}
const partOf = (result: ReturnType<typeof read>, ending: string) =>
  result.meanSquareM2S2.parts.find(({ source }) => source.id.endsWith(ending))

const REPEATED: Point[] = [{ shown: [10, 10.4], weight: 3 }, { shown: [20, 20.2, 20.1], weight: 1 }]

describe('a traverse with repeats', () => {
  const result = read(REPEATED)
  const weights = [0.75, 0.25]
  const means = [10.2, 20.1]

  it('has the mean square times the squared factor', () => {
    const squares = [(10 ** 2 + 10.4 ** 2) / 2, (20 ** 2 + 20.2 ** 2 + 20.1 ** 2) / 3]
    const shown = 0.75 * squares[0]! + 0.25 * squares[1]!
    expect(result.meanSquareM2S2.value).toBeCloseTo(1.21 * shown, 10)
    expect(partOf(result, ':factor')?.contribution).toBeCloseTo(2 * 1.1 * shown * 0.02, 10)
  })

  it('pools the scatter of its repeats over the points', () => {
    // Squared deviations 2 x 0.2^2 and 2 x 0.1^2 on 1 + 2 degrees of freedom.
    const deviation = Math.sqrt((2 * 0.2 ** 2 + 2 * 0.1 ** 2) / 3)
    const each = [2, 3].map((count, i) => (2 * means[i]! * weights[i]! * deviation) / Math.sqrt(count))
    expect(partOf(result, ':repeats')?.contribution).toBeCloseTo(1.21 * Math.hypot(...each), 10)
    expect(partOf(result, ':repeats')?.source.dof).toBe(3)
  })

  it('rounds each reading by itself where readings scatter', () => {
    const each = [2, 3].map((count, i) => (2 * means[i]! * weights[i]! * 0.1) / Math.sqrt(12 * count))
    expect(partOf(result, ':rounding')?.contribution).toBeCloseTo(1.21 * Math.hypot(...each), 10)
  })

  it('rounds alike where the display stood still', () => {
    const still = read([{ shown: [10, 10, 10] }, { shown: [20] }])
    const each = [2 * 10 * 0.5 * 0.1, 2 * 20 * 0.5 * 0.1].map((u) => u / Math.sqrt(12))
    expect(partOf(still, ':rounding')?.contribution).toBeCloseTo(1.21 * Math.hypot(...each), 10)
  })

  it('estimates the unevenness with a degree of freedom less than points, weighted', () => {
    const concentration = 0.75 ** 2 + 0.25 ** 2
    const squares = [(10 ** 2 + 10.4 ** 2) / 2, (20 ** 2 + 20.2 ** 2 + 20.1 ** 2) / 3]
    const shown = 0.75 * squares[0]! + 0.25 * squares[1]!
    const biased = 0.75 * (squares[0]! - shown) ** 2 + 0.25 * (squares[1]! - shown) ** 2
    const deviation = Math.sqrt(biased / (1 - concentration))
    expect(result.unevenness).toBeCloseTo(deviation / shown, 10)
    // What the repeats leave in V squared of a point is not the places': scatter of 3 degrees of freedom, over 2 and 3.
    const shownSquares = [[10 ** 2, 10.4 ** 2], [20 ** 2, 20.2 ** 2, 20.1 ** 2]]
    const scatter = shownSquares.flatMap((each, i) => each.map((one) => (one - squares[i]!) ** 2))
      .reduce((sum, each) => sum + each, 0) / 3
    const repeats = (scatter * (1 / 2 + 1 / 3)) / 2 / ((squares[0]! + squares[1]!) / 2) ** 2
    const places = shown * Math.sqrt(((deviation / shown) ** 2 - repeats) * concentration)
    expect(partOf(result, ':unevenness')?.contribution).toBeCloseTo(1.21 * places, 9)
    expect(partOf(result, ':unevenness')?.source.dof).toBe(1)
  })

  it('has nothing to remark', () => {
    expect(result.remarks).toEqual([])
    expect(result.pointCount).toBe(2)
  })
})

describe('points that stand for unequal areas', () => {
  const squareOf = (points: readonly Point[]) => read(points).meanSquareM2S2.value

  it('count by their share, whatever the unit of the areas', () => {
    // A core of a quarter of the jet at 20 m/s in a rim at 10 m/s: (400 + 3 x 100) / 4, not (400 + 100) / 2.
    const core: Point[] = [{ shown: [20, 20.1], weight: 1 }, { shown: [10, 10.1], weight: 3 }]
    const squares = [(20 ** 2 + 20.1 ** 2) / 2, (10 ** 2 + 10.1 ** 2) / 2]
    expect(squareOf(core)).toBeCloseTo(1.21 * (squares[0]! + 3 * squares[1]!) / 4, 10)
    expect(squareOf(core.map((each) => ({ ...each, weight: 250 * each.weight! })))).toBeCloseTo(squareOf(core), 10)
  })

  it('count as one where none is given, and alike where all are the same', () => {
    const plain: Point[] = [{ shown: [20, 20.1] }, { shown: [10, 10.1] }]
    expect(squareOf(plain.map((each) => ({ ...each, weight: 7 })))).toBeCloseTo(squareOf(plain), 10)
    expect(squareOf([{ ...plain[0]!, weight: 1 }, plain[1]!])).toBeCloseTo(squareOf(plain), 10)
  })

  it('take no part with no area, and tell nothing where none has any', () => {
    const two: Point[] = [{ shown: [20, 20.1] }, { shown: [10, 10.1] }]
    expect(squareOf([...two, { shown: [99], weight: 0 }])).toBeCloseTo(squareOf(two), 10)
    const none = two.map((each) => ({ ...each, weight: 0 }))
    expect(readTraverse(traverse(none), car, 's', 'full')).toBeNull()
  })
})

describe('what a traverse says of itself', () => {
  it('that nothing was repeated', () => {
    const result = read([{ shown: [10] }, { shown: [12] }])
    expect(result.remarks.map(({ code }) => code)).toEqual(['noTraverseRepeats'])
    expect(partOf(result, ':repeats')).toBeUndefined()
  })

  it('that it is one point, also where all the weight lies on one', () => {
    const one = read([{ shown: [10, 10.2] }])
    expect(one.remarks).toMatchObject([{ code: 'onePointTraverse', values: { relativeU: 0.2 } }])
    expect(one.unevenness).toBeNull()
    const heavy = read([{ shown: [10, 10.2], weight: 1 }, { shown: [99, 99.5], weight: 0 }])
    expect(heavy.unevenness).toBeNull()
    expect(partOf(heavy, ':unevenness')?.contribution).toBeCloseTo(0.2 * heavy.meanSquareM2S2.value, 8)
  })

  it('that its anemometer is not in the profile, and takes 5 % then and no rounding', () => {
    const result = read(REPEATED, car, 'lost')
    expect(result.remarks).toMatchObject([{ code: 'unknownAnemometer', values: { relativeU: 0.05 } }])
    expect(partOf(result, ':factor')?.contribution).toBeCloseTo(2 * 0.05 * result.meanSquareM2S2.value, 9)
    expect(partOf(result, ':factor')?.source).toMatchObject({ id: 'anemometer:lost:factor', group: 'anemometer' })
    expect(partOf(result, ':rounding')).toBeUndefined()
    expect(standardUncertainty(result.meanSquareM2S2)).toBeGreaterThan(0)
  })
})

describe('what two traverses share', () => {
  const unevenness = (points: readonly Point[]) => partOf(read(points), ':unevenness')?.source.id

  it('is the jet, over one grid with one weighing', () => {
    const base = [{ shown: [10, 11] }, { shown: [12, 13] }]
    expect(unevenness([{ shown: [10.5, 11] }, { shown: [12, 13] }])).toBe(unevenness(base))
    expect(unevenness([{ shown: [10, 11], yMm: 3 }, { shown: [12, 13] }])).not.toBe(unevenness(base))
    expect(unevenness([{ shown: [10, 11], weight: 2 }, { shown: [12, 13] }])).not.toBe(unevenness(base))
  })
})
