import { describe, expect, it } from 'vitest'
import { solveSquare } from '@core/linear'

describe('a small square system', () => {
  // Hilbert's matrix of order 4 has an inverse of whole numbers: D. E. Knuth, The Art of Computer
  // Programming 1, 1.2.3, exercise 45 (from memory; exact, and checked here by multiplying back).
  const hilbert = [0, 1, 2, 3].map((i) => [0, 1, 2, 3].map((j) => 1 / (i + j + 1)))

  it('is solved, also where it is badly conditioned', () => {
    const x = solveSquare(hilbert, [1, 0, 0, 0])!
    const first = [16, -120, 240, -140]
    x.forEach((each, i) => expect(each).toBeCloseTo(first[i]!, 8))
    const back = hilbert.map((row) => row.reduce((sum, each, j) => sum + each * x[j]!, 0))
    back.forEach((each, i) => expect(each).toBeCloseTo(i === 0 ? 1 : 0, 12))
  })

  it('exchanges rows where the first pivot is zero, and leaves its input as it was', () => {
    const a = [[0, 2], [3, 1]]
    expect(solveSquare(a, [4, 5])).toEqual([1, 2])
    expect(a).toEqual([[0, 2], [3, 1]])
  })

  it('has no answer where it is singular, in any unit, or not finite', () => {
    for (const unit of [1e-9, 1, 1e9]) {
      expect(solveSquare([[unit, 2 * unit], [2 * unit, 4 * unit]], [1, 2])).toBeNull()
      expect(solveSquare([[unit, 0], [0, unit]], [unit, unit])).toEqual([1, 1])
    }
    expect(solveSquare([[NaN, 1], [1, 1]], [1, 1])).toBeNull()
    expect(solveSquare([[0, 0], [0, 0]], [0, 0])).toBeNull()
  })
})
