/**
 * The low-pass against scipy.signal (butter, sosfreqz, sosfiltfilt), figures frozen by
 * `scipy_signal_figures.py`, which can be run again.
 */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { butterworth, magnitude, zeroPhase } from '@core/track'

interface Case {
  order: number; cutoffHz: number; rateHz: number; responseHz: number[]; response: number[]
  input: number[]; filtered: number[]
}
const figures = JSON.parse(readFileSync(new URL('scipy_signal_figures.json', import.meta.url), 'utf8')) as {
  scipy: string; cases: Case[]
}

/** The script's closed formula. */
function series(count: number, rateHz: number): Float64Array {
  return Float64Array.from({ length: count }, (_, i) => {
    const t = i / rateHz
    const noise = (Math.sin(i * 12.9898) * 43758.5453) % 1
    return 0.5 * t + Math.sin(2 * Math.PI * 0.7 * t) + 0.4 * Math.sin(2 * Math.PI * 7 * t + 1)
      + 0.2 * Math.sin(2 * Math.PI * 19 * t) + (t > count / rateHz / 2 ? 1.5 : 0) + 0.3 * noise
  })
}

const largest = (a: ArrayLike<number>, b: ArrayLike<number>) =>
  Array.from(a).reduce((most, value, i) => Math.max(most, Math.abs(value - b[i]!)), 0)

describe(`low-pass against scipy.signal ${figures.scipy}`, () => {
  it.each(figures.cases.map((each) => [`order ${each.order}, ${each.cutoffHz} Hz of ${each.rateHz} Hz`, each] as const))(
    'has the response and the output of %s', (_title, { order, cutoffHz, rateHz, responseHz, response, input, filtered }) => {
      const sections = butterworth(order, cutoffHz, rateHz)
      expect(largest(responseHz.map((f) => magnitude(sections, f, rateHz)), response)).toBeLessThan(1e-9)
      const signal = series(240, rateHz)
      expect(largest(input, signal)).toBeLessThan(1e-9)
      expect(zeroPhase(sections, signal)).toHaveLength(filtered.length)
      expect(largest(zeroPhase(sections, signal), filtered)).toBeLessThan(1e-8)
    })

  it('halves the power at the cutoff in one pass, and the amplitude in both (definition of Butterworth)', () => {
    const sections = butterworth(4, 3, 200)
    expect(magnitude(sections, 3, 200)).toBeCloseTo(Math.SQRT1_2, 12)
  })

  it('refuses a cutoff at half the rate, an odd order, a signal shorter than its padding', () => {
    expect(() => butterworth(4, 100, 200)).toThrow(RangeError)
    expect(() => butterworth(2.5, 3, 200)).toThrow(RangeError)
    expect(() => butterworth(9, 3, 200)).toThrow(RangeError)
    expect(() => zeroPhase(butterworth(4, 3, 200), new Float64Array(15))).toThrow(RangeError)
    expect(zeroPhase(butterworth(4, 3, 200), new Float64Array(16).fill(2))[7]).toBeCloseTo(2, 12)
  })
})
