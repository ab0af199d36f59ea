/** The run around the trials: selection, adaptivity, sharing out, cancelling, pools and mixtures. */
import {
  blockSize, bothEnds, Collector, fromData, fromSource, known, monteCarlo, monteCarloNow, monteCarloStatement,
  numericalTolerance, selectNth, Stream, studentQuantile, symmetricEnds, trialsOf, type Source,
} from '@core/uncertainty'
import { describe, expect, it } from 'vitest'

const source = (id: string, more: Partial<Source> = {}): Source =>
  ({ ...known('readingRounding', id), ...more })

const plain = (id: string, u = 1) => trialsOf(
  [{ weight: 1, inputs: [fromSource(0, u, source(id))], model: (inputs, out) => { out[0] = inputs[0]! } }], 1,
)

describe('selection', () => {
  const draw = (n: number, round = false) => {
    const stream = new Stream(n, 1)
    return Float64Array.from({ length: n }, () => (round ? Math.round(stream.normal() * 3) : stream.normal()))
  }

  it.each([[1, 0], [2, 1], [100, 40], [5000, 4999], [50_000, 1250], [50_000, 48_749]])(
    'of %d values finds rank %d where a sort puts it', (n, k) => {
      for (const round of [false, true]) {
        const values = draw(n, round)
        const sorted = values.slice().sort()
        selectNth(values, k)
        expect(values[k]).toBe(sorted[k])
        expect(Math.max(...values.slice(0, k).slice(-1000), -Infinity)).toBeLessThanOrEqual(values[k]!)
        expect(values.slice().sort()).toEqual(sorted)
      }
    },
  )

  it.each([[10_000, 0.95], [9999, 0.95], [40, 0.95], [10_001, 0.6], [1000, 0.3]])(
    'both intervals of %d values at %d are those of the sorted values', (n, p) => {
      const values = draw(n).map(Math.exp)
      const sorted = values.slice().sort()
      const span = Math.floor(p * n + 0.5)
      const first = Math.floor((n - span + 1) / 2) - 1
      let best = 0
      for (let r = 0; r + span < n; r++) {
        if (sorted[r + span]! - sorted[r]! < sorted[best + span]! - sorted[best]!) best = r
      }
      const ends = bothEnds(values.slice(), p)
      expect(ends.symmetric).toEqual({ low: sorted[first], high: sorted[first + span] })
      expect(ends.shortest).toEqual({ low: sorted[best], high: sorted[best + span] })
      expect(symmetricEnds(values, p)).toEqual(ends.symmetric)
    },
  )
})

describe('numerical tolerance: half a unit in the second digit of u (JCGM 101:2008, 7.9.2)', () => {
  it.each([[0.000_35, 0.000_005], [35, 0.5], [1, 0.05], [0.0996, 0.005], [2.5e-8, 5e-10], [0, 0]])('u %d: %d', (u, tolerance) => {
    expect(numericalTolerance(u)).toBeCloseTo(tolerance, 14)
  })
  it('one digit', () => expect(numericalTolerance(0.03, 1)).toBeCloseTo(0.005, 14))
})

describe('a run', () => {
  it('takes blocks of at least 10 000 trials, more for high probabilities (7.9.4)', () => {
    expect(blockSize()).toBe(10_000)
    expect(blockSize(0.999)).toBeGreaterThanOrEqual(99_999)
  })

  it('stops once two digits of u stand, and no sooner', () => {
    const result = monteCarloNow(plain('a'), { seed: 1 })
    expect(result.stable).toBe(true)
    expect(result.trials).toBeGreaterThanOrEqual(20_000)
    expect(result.trials).toBeLessThan(200_000)
    expect(Math.abs(result.outputs[0]!.u - 1)).toBeLessThan(0.05)
    const finer = monteCarloNow(plain('a'), { seed: 1, toleranceShare: 0.2 })
    expect(finer.trials).toBeGreaterThan(result.trials)
  })

  it('ends at its limit and says that it is not stable', () => {
    const result = monteCarloNow(plain('a', 0.7), { seed: 1, maxTrials: 30_000 })
    expect(result.trials).toBe(30_000)
    expect(result.stable).toBe(false)
  })

  it('is stable at once where nothing is uncertain', () => {
    const result = monteCarloNow(plain('a', 0), { seed: 1 })
    expect(result.outputs[0]).toMatchObject({ value: 0, u: 0, symmetric: { low: 0, high: 0 } })
    expect(result.stable).toBe(true)
  })

  it('gives the same figures however its blocks are shared out', () => {
    const trials = plain('a')
    const whole = monteCarloNow(trials, { seed: 42, fixedTrials: 40_000 })
    const shared = [1, 3, 0, 2].map((index) => ({ index, block: trials.block(42, index, 10_000) }))
    const collector = new Collector(1, { seed: 42, fixedTrials: 40_000 })
    shared.sort((a, b) => a.index - b.index).forEach(({ block }) => collector.add(block))
    expect(collector.result().outputs[0]!.symmetric).toEqual(whole.outputs[0]!.symmetric)
    expect(collector.result().outputs[0]!.u).toBe(whole.outputs[0]!.u)
  })

  it('tells how far it is, and stops when its driver stops', () => {
    const run = monteCarlo(plain('a', 0.7), { seed: 3, maxTrials: 1e6 })
    const shares = [run.next(), run.next(), run.next()].map(({ value }) => ('share' in value ? value.share : NaN))
    expect(shares[0]).toBeGreaterThanOrEqual(0)
    expect(shares.every((each) => each >= 0 && each <= 1)).toBe(true)
    run.return(undefined as never)
    expect(run.next().done).toBe(true)
  })

  it('leaves trials without a result out, and says their share', () => {
    const trials = trialsOf([{
      weight: 1, inputs: [fromSource(0, 1, source('a'))],
      model: (inputs, out) => { out[0] = inputs[0]! > 0 ? inputs[0]! : NaN },
    }], 1)
    const [output] = monteCarloNow(trials, { seed: 1, fixedTrials: 50_000 }).outputs
    expect(output!.undefinedShare).toBeCloseTo(0.5, 1)
    expect(output!.symmetric.low).toBeGreaterThan(0)
  })
})

describe('what is drawn', () => {
  it('draws a shared source once: a difference of values that share everything has no spread', () => {
    const shared = source('gain')
    const trials = trialsOf([{
      weight: 1, inputs: [fromSource(5, 0.3, shared), fromSource(3, 0.3, shared)],
      model: (inputs, out) => { out[0] = inputs[0]! - inputs[1]! },
    }], 1)
    const [output] = monteCarloNow(trials, { seed: 1, fixedTrials: 10_000 }).outputs
    expect(output!.u).toBeLessThan(1e-12)
    expect(output!.value).toBeCloseTo(2, 12)
  })

  it('draws a pool as one multivariate t: a sum over it keeps the pool\'s degrees of freedom', () => {
    const of = (id: string) => source(id, { shape: 't', dof: 4, pool: 'scatter' })
    const half = Math.SQRT1_2
    const trials = trialsOf([{
      weight: 1, inputs: [fromSource(0, half, of('a')), fromSource(0, half, of('b'))],
      model: (inputs, out) => { out[0] = inputs[0]! + inputs[1]! },
    }], 1)
    const [output] = monteCarloNow(trials, { seed: 5, fixedTrials: 400_000 }).outputs
    // Standard error of this end is near 0.013.
    expect(Math.abs(output!.symmetric.high - studentQuantile(0.975, 4))).toBeLessThan(0.06)
  })

  it('draws a mixture by its weights', () => {
    const at = (value: number, weight: number) => ({
      weight, inputs: [fromSource(value, 0.1, source('a'))],
      model: (inputs: Float64Array, out: Float64Array) => { out[0] = inputs[0]! },
    })
    const [output] = monteCarloNow(trialsOf([at(0, 0.3), at(10, 0.7)], 1), { seed: 2, fixedTrials: 100_000 }).outputs
    expect(output!.value).toBeCloseTo(7, 1)
    expect(output!.u).toBeCloseTo(Math.sqrt(0.21 * 100 + 0.01), 1)
  })
})

describe('a source without a variance: Student’s t of one or two degrees of freedom', () => {
  it.each([1, 2])('is stated by median and interval, %d', (dof) => {
    const input = fromSource(10, 0.5, fromData('runsScatter', 'few', dof))
    const trials = trialsOf([{ weight: 1, inputs: [input], model: (inputs, out) => { out[0] = inputs[0]! } }], 1)
    expect(trials.hasMoments).toBe(false)
    const { outputs } = monteCarloNow(trials, { seed: 3 })
    const { value, u, interval } = monteCarloStatement(outputs[0]!, input)
    // Quantiles of t in closed form: tan(pi (p - 1/2)) for 1, (2p - 1)/sqrt(2p(1 - p)) for 2 degrees of freedom.
    const factor = dof === 1 ? Math.tan(0.475 * Math.PI) : 0.95 / Math.sqrt(2 * 0.975 * 0.025)
    expect(value).toBeCloseTo(10, 1)
    expect(interval.high - interval.low).toBeGreaterThan(factor * 0.95)
    expect(interval.high - interval.low).toBeLessThan(factor * 1.05)
    expect(u).toBeGreaterThan(0.5 * 0.95)
    expect(u).toBeLessThan(0.5 * 1.05)
  })
})
