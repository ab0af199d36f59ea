/** A decimal mark that slipped is named with what it should be; the real edges of a jet are not. */
import { readTraverse, traverseSlips } from '@core/airflow'
import { describe, expect, it } from 'vitest'
import { chassis } from './bench'

const traverse = (shown: readonly (readonly number[])[]) => ({
  anemometerId: 'cups',
  points: shown.map((each, i) => ({ id: `p${i + 1}`, yMm: 40 * i, zMm: 20, weight: null, shownMs: [...each] })),
})
const slips = (shown: readonly (readonly number[])[]) =>
  traverseSlips(traverse(shown)).map(({ point, repeat, suggestedMs }) => [point, repeat, suggestedMs])

describe('a speed ten times its neighbours', () => {
  it('is named, with a tenth of it', () => {
    expect(slips([[19.1], [18.7], [190], [19.2], [18.8], [19.4]])).toEqual([[3, 1, 19]])
  })

  it('is found at the slow edge as well', () => {
    expect(slips([[11.4], [18.7], [114], [11.2], [19.8], [11.6]])).toEqual([[3, 1, 11.4]])
  })

  it('is found among the readings of one point, and with two of them', () => {
    expect(slips([[19.1, 190, 19]])).toEqual([[1, 2, 19]])
    expect(slips([[19.1], [190]])).toEqual([[2, 1, 19]])
  })

  it('is not what stands next to nothing: no slip of the mark makes a billionth', () => {
    expect(slips([[19.1, 5e-324, 19], [18.7, 19], [19.2, 18.9]])).toEqual([])
    expect(slips([[19.1, 0.19, 19], [18.7, 19], [19.2, 18.9]])).toEqual([[1, 2, 19]])
  })

  it('is found twice', () => {
    const read = [[19.1, 19], [187, 18.7], [19, 19.2], [19, 192], [18.8, 18], [19.4, 19]]
    expect(slips(read)).toEqual([[2, 1, 18.7], [4, 2, 19.2]])
  })

  it('stops the run that it stands in, and not the other', () => {
    const remarks = (last: number) => readTraverse(traverse([[19.1], [18.7], [last]]), chassis(), 's', '')!.remarks
    expect(remarks(190).find(({ code }) => code === 'traverseSlip')).toMatchObject({
      severity: 'stop', values: { point: 3, repeat: 1, shownMs: 190, suggestedMs: 19, othersMs: 18.9 },
    })
    expect(remarks(19).some(({ code }) => code === 'traverseSlip')).toBe(false)
  })
})

describe('a speed a tenth of its neighbours', () => {
  it('is named where the same point was read faster', () => {
    expect(slips([[19.1, 1.9, 19], [18.7], [19]])).toEqual([[1, 2, 19]])
  })

  it('may be the edge of the jet where it was not', () => {
    expect(slips([[19.1], [1.9], [18.7], [19]])).toEqual([])
  })
})

describe('a real jet', () => {
  it('may have edges at 0.6 of its middle, 3 x 3', () => {
    expect(slips([12, 14, 12, 14, 20, 14, 12, 14, 12].map((each) => [each]))).toEqual([])
  })

  it('may be narrow on a wide grid: its core goes over into its edge', () => {
    expect(slips([1.5, 2, 8, 20, 8, 2, 1.5, 1, 1].map((each) => [each]))).toEqual([])
  })

  it('may be still, or not read yet', () => {
    expect(slips([[0], [0], [0.2]])).toEqual([])
    expect(slips([[], [], []])).toEqual([])
    expect(slips([[19]])).toEqual([])
  })
})
