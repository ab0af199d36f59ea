/** The random draws: reproducible, apart from stream to stream, and of the right distribution out to the tails. */
import { chiSquareUpper, normalCdf, normalUpper, Stream, studentUpper } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'

const normals = (seed: number, stream: number, count: number) => {
  const values = new Float64Array(count)
  new Stream(seed, stream).fillNormal(values, 0, count)
  return values
}

/** p-value of counts against expected counts. */
function chiSquareOf(counts: ArrayLike<number>, expected: (cell: number) => number): number {
  let square = 0
  for (let cell = 0; cell < counts.length; cell++) square += (counts[cell]! - expected(cell)) ** 2 / expected(cell)
  return chiSquareUpper(square, counts.length - 1)
}

describe('a stream', () => {
  it('gives the same draws for the same seed and stream, others otherwise', () => {
    expect(normals(7, 3, 50)).toEqual(normals(7, 3, 50))
    expect(normals(7, 3, 50)).not.toEqual(normals(7, 4, 50))
    expect(normals(7, 3, 50)).not.toEqual(normals(8, 3, 50))
  })

  it('gives the same normals one by one as in bulk', () => {
    const one = new Stream(11, 2)
    expect(Float64Array.from({ length: 20_000 }, () => one.normal())).toEqual(normals(11, 2, 20_000))
  })

  it('gives the same draws however a fill is divided', () => {
    const stream = new Stream(5, 5)
    const values = new Float64Array(3000)
    stream.fillNormal(values, 0, 1234)
    stream.fillNormal(values, 1234, 3000 - 1234)
    expect(values).toEqual(normals(5, 5, 3000))
  })

  it('spreads its bits evenly, high and low', () => {
    const stream = new Stream(1, 1)
    const high = new Float64Array(256)
    const low = new Float64Array(256)
    for (let i = 0; i < 512_000; i++) {
      const bits = stream.next()
      high[bits >>> 24]!++
      low[bits & 255]!++
    }
    expect(chiSquareOf(high, () => 2000)).toBeGreaterThan(1e-3)
    expect(chiSquareOf(low, () => 2000)).toBeGreaterThan(1e-3)
  })

  it('is uncorrelated with its neighbours: next streams, next seeds, next draws', () => {
    const n = 200_000
    const base = normals(100, 0, n)
    const correlation = (other: Float64Array) => base.reduce((sum, each, i) => sum + each * other[i]!, 0) / n
    const limit = 4.5 / Math.sqrt(n)
    for (let k = 1; k <= 8; k++) {
      expect(Math.abs(correlation(normals(100, k, n)))).toBeLessThan(limit)
      expect(Math.abs(correlation(normals(100 + k, 0, n)))).toBeLessThan(limit)
      expect(Math.abs(correlation(Float64Array.from(base, (_, i) => base[(i + k) % n]!)))).toBeLessThan(limit)
    }
  })
})

describe('normal draws', () => {
  const n = 4_000_000
  const values = normals(2024, 9, n)
  const moment = (power: number) => values.reduce((sum, each) => sum + each ** power, 0) / n

  it('have the moments of a normal up to the sixth', () => {
    // Variance of the mean of x^k is (E x^2k - (E x^k)^2)/n.
    const expected = [[1, 0, 1], [2, 1, 2], [3, 0, 15], [4, 3, 96], [6, 15, 10_170]] as const
    for (const [power, value, spread] of expected) {
      expect(Math.abs(moment(power) - value)).toBeLessThan(4.5 * Math.sqrt(spread / n))
    }
  })

  it('fill the whole line as a normal does', () => {
    // 80 cells of 0.1 from -4 to 4, and the rest on each side.
    const counts = new Float64Array(82)
    for (const x of values) counts[Math.min(81, Math.max(0, Math.floor((x + 4) * 10) + 1))]!++
    const below = (cell: number) => normalCdf(-4 + cell / 10)
    const share = (cell: number) => {
      if (cell === 0) return below(0)
      return cell === 81 ? normalUpper(4) : below(cell) - below(cell - 1)
    }
    expect(chiSquareOf(counts, (cell) => n * share(cell))).toBeGreaterThan(1e-3)
  })

  it.each([3, 3.6, 3.7, 4.2, 4.8])('reach beyond %d as often as a normal', (limit) => {
    const expected = 2 * n * normalUpper(limit)
    const seen = values.reduce((count, x) => count + (Math.abs(x) > limit ? 1 : 0), 0)
    expect(Math.abs(seen - expected)).toBeLessThan(4.5 * Math.sqrt(expected) + 1)
  })
})

describe('other draws', () => {
  it('rectangular: variance 1, within +-sqrt 3', () => {
    const values = new Float64Array(400_000)
    new Stream(3, 1).fillRectangular(values, 0, values.length)
    const square = values.reduce((sum, each) => sum + each * each, 0) / values.length
    expect(Math.abs(square - 1)).toBeLessThan(4.5 * Math.sqrt(0.8 / values.length))
    expect(values.every((each) => Math.abs(each) < Math.sqrt(3))).toBe(true)
  })

  it.each([1, 3, 4.5, 30])('Student t of %d degrees of freedom: its tails', (dof) => {
    const n = 400_000
    const values = new Float64Array(n)
    const scales = new Float64Array(n)
    const stream = new Stream(17, dof * 2)
    stream.fillNormal(values, 0, n)
    stream.fillScale(scales, 0, n, dof)
    for (const limit of [0.5, 2, 5]) {
      const expected = 2 * n * studentUpper(limit, dof)
      const seen = values.reduce((count, x, i) => count + (Math.abs(x * scales[i]!) > limit ? 1 : 0), 0)
      expect(Math.abs(seen - expected)).toBeLessThan(4.5 * Math.sqrt(expected) + 2)
    }
  })
})
