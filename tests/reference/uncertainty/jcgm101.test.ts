/**
 * JCGM 101:2008, 9.2: additive models. Printed figures from memory; the first two are also exact by
 * the normal quantile and by the distribution of a sum of four rectangulars (Irwin-Hall), and the
 * third, 17.0 of 9.2.4, has no second route but our own trials.
 */
import {
  fromSource, intervalStatement, known, monteCarloNow, normalQuantile, sum, trialsOf, validate, type Source, type
  Uncertain,
} from '@core/uncertainty'
import { describe, expect, it } from 'vitest'

const input = (i: number, shape: Source['shape'], u = 1): Uncertain => fromSource(0, u, { ...known('ballast', `x${i}`), shape })

function run(inputs: Uncertain[], digits = 2) {
  const trials = trialsOf([{
    weight: 1, inputs, model: (x, out) => { out[0] = x[0]! + x[1]! + x[2]! + x[3]! },
  }], 1)
  const result = monteCarloNow(trials, { seed: 1, digits, toleranceShare: 0.2, maxTrials: 2e6 })
  return { ...result.outputs[0]!, stable: result.stable, trials: result.trials }
}

/** Standard error of an interval's end from this many trials. */
const endError = (trials: number, density: number) => Math.sqrt((0.025 * 0.975) / trials) / density

describe('9.2.2 four standard normals', () => {
  const inputs = [0, 1, 2, 3].map((i) => input(i, 'normal'))
  const result = run(inputs)
  it('u 2.00, interval [-3.92, 3.92], symmetric and shortest alike', () => {
    const exact = 2 * -normalQuantile(0.025)
    const limit = 4.5 * endError(result.trials, 0.0292)
    expect(result.stable).toBe(true)
    expect(result.u).toBeCloseTo(2, 1)
    expect(Math.abs(result.symmetric.high - exact)).toBeLessThan(limit)
    expect(Math.abs(result.symmetric.low + exact)).toBeLessThan(limit)
    expect(result.symmetric.high).toBeCloseTo(3.92, 1)
    expect(result.shortest.high - result.shortest.low).toBeLessThanOrEqual(result.symmetric.high - result.symmetric.low)
  })
  it('propagation is validated', () => expect(validate(sum(inputs), result).agrees).toBe(true))
  it('and gives 3.92 itself', () => expect(intervalStatement(sum(inputs)).interval.high).toBeCloseTo(3.92, 3))
})

describe('9.2.3 four rectangulars of the same width', () => {
  const inputs = [0, 1, 2, 3].map((i) => input(i, 'rectangular'))
  const result = run(inputs)
  // The sum of four uniforms exceeds 4 - s with probability s^4/24.
  const exact = (2 - 0.6 ** 0.25) * Math.sqrt(12)
  it('interval [-3.88, 3.88]', () => {
    expect(exact).toBeCloseTo(3.88, 2)
    const density = (0.6 ** 0.75 / 6) / Math.sqrt(12)
    const limit = 4.5 * endError(result.trials, density)
    expect(Math.abs(result.symmetric.high - exact)).toBeLessThan(limit)
    expect(Math.abs(result.symmetric.low + exact)).toBeLessThan(limit)
  })
  it('u is the exact 2.00', () => expect(result.u).toBeCloseTo(2, 1))
})

describe('9.2.4 three rectangulars of unit and one of tenfold standard deviation', () => {
  const inputs = [input(0, 'rectangular'), input(1, 'rectangular'), input(2, 'rectangular'), input(3, 'rectangular', 10)]
  const result = run(inputs)
  it('Monte Carlo gives [-17.0, 17.0], propagation [-19.9, 19.9]', () => {
    expect(result.symmetric.high).toBeCloseTo(17.0, 0)
    expect(Math.abs(result.symmetric.high - 17.0)).toBeLessThan(0.06)
    expect(intervalStatement(sum(inputs)).interval.high).toBeCloseTo(19.9, 1)
  })
  it('so propagation is not validated', () => expect(validate(sum(inputs), result).agrees).toBe(false))
})
