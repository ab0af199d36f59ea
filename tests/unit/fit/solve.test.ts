/** The solver's behaviour beyond published cases: sources, knowledge, bounds, structure, refusals. */
import { fit } from '@core/calibration/fit/solve'
import type { Curve, Observations } from '@core/calibration/fit/types'
import { standardUncertainty, Stream } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { deviationsOf } from '../../reference/fit/agree'
import { fitted, LINE, uncertainOf } from '../../reference/fit/lines'
import { denseObservations, structured } from './dense'

const PARABOLA: Curve = {
  parameterCount: 3,
  evaluate(x, b, out) {
    out[0] = b[0]! + x * (b[1]! + x * b[2]!)
    out[1] = b[1]! + 2 * x * b[2]!
    out[2] = 1
    out[3] = x
    out[4] = x * x
  },
}

function readings(n = 12, seed = 4): Observations {
  const stream = new Stream(seed, 0)
  const x = Float64Array.from({ length: n }, (_, i) => i / 2)
  return {
    x: x.map((each) => each + 0.02 * stream.normal()),
    y: x.map((each) => 0.3 + 2 * each + 0.1 * each * each + 0.05 * stream.normal()),
    ux: new Float64Array(n).fill(0.02), uy: new Float64Array(n).fill(0.05),
    factors: [
      { id: 'gain', onX: x.map((each) => 0.01 * each), onY: null },
      { id: 'zero', onX: null, onY: new Float64Array(n).fill(0.04) },
    ],
  }
}

const START = { start: [0, 1, 0] }

describe('what the parameters depend on', () => {
  const base = readings()
  const result = fitted(PARABOLA, base, START)

  it.each([0, 1])('factor %d moves the estimates as a refit with that error in the readings shows', (j) => {
    const h = 1e-3
    const { onX, onY } = base.factors[j]!
    const moved = (by: number) => fitted(PARABOLA, {
      ...base,
      x: base.x.map((each, i) => each + by * (onX?.[i] ?? 0)),
      y: base.y.map((each, i) => each + by * (onY?.[i] ?? 0)),
    }, START)
    const up = moved(h)
    const down = moved(-h)
    const sensitivity = result.factorSensitivity[j]!
    result.theta.forEach((_, row) => {
      // First order: the refit also feels the curvature that goes with the residuals.
      expect((up.theta[row]! - down.theta[row]!) / (2 * h)).toBeCloseTo(sensitivity[row]!, 3)
    })
    // z is estimate minus true, and the true factor moved by h as well.
    expect((up.z[j]! - down.z[j]!) / (2 * h) - 1).toBeCloseTo(sensitivity[3 + j]!, 3)
  })

  it('all sources together are the covariance, for parameters and factors', () => {
    const sources = [...result.factorSensitivity, ...result.noiseSensitivity]
    const sum = (i: number, j: number) => sources.reduce((total, each) => total + each[i]! * each[j]!, 0)
    for (let i = 0; i < 5; i++) {
      for (let j = 0; j < 5; j++) {
        const size = Math.sqrt(sum(i, i) * sum(j, j))
        expect(Math.abs(sum(i, j) - result.covariance[i * 5 + j]!)).toBeLessThan(1e-10 * size)
      }
    }
  })

  it('parameters depend on as many noise sources as there are parameters', () => {
    result.noiseSensitivity.forEach((each, r) => {
      for (let row = 0; row < r; row++) expect(each[row]).toBe(0)
    })
  })
})

describe('structure', () => {
  it('a full covariance gives the same fit as the errors it was made of', () => {
    const base = readings()
    const matrix = (u: Float64Array, shared: Float64Array) => Array.from(u, (ui, i) =>
      Array.from(u, (_, j) => (i === j ? ui * ui : 0) + shared[i]! * shared[j]!))
    const dense = denseObservations([...base.x], [...base.y], matrix(base.ux, base.factors[0]!.onX!),
      matrix(base.uy, base.factors[1]!.onY!))!
    const one = fitted(PARABOLA, base, START)
    const other = fitted(PARABOLA, dense, START)
    one.theta.forEach((each, j) => expect(other.theta[j]! / each).toBeCloseTo(1, 6))
    deviationsOf(one.covariance).slice(0, 3).forEach((each, j) =>
      expect(deviationsOf(other.covariance)[j]! / each).toBeCloseTo(1, 6))
    expect(other.chiSquare).toBeCloseTo(one.chiSquare, 8)
  })

  it('a singular covariance is taken, an indefinite one refused', () => {
    expect(structured([[1, 1], [1, 1]])).not.toBeNull()
    expect(structured([[1, 2], [2, 1]])).toBeNull()
    expect(structured([[1, 0.5], [0.4, 1]])).toBeNull()
  })

  it('exact drops and uncertain forces, or the reverse, or any mixture', () => {
    const base = { ...readings(), factors: [] }
    const exactY = { ...base, uy: base.uy.map(() => 0) }
    const exactX = { ...base, ux: base.ux.map(() => 0) }
    const mixed = { ...base, ux: base.ux.map((u, i) => (i % 2 ? u : 0)), uy: base.uy.map((u, i) => (i % 2 ? 0 : u)) }
    for (const each of [exactY, exactX, mixed]) {
      const { theta, convergence } = fitted(PARABOLA, each, START)
      expect(theta[1]).toBeCloseTo(2, 0)
      expect(convergence.gradient).toBeLessThan(1e-5)
    }
  })
})

describe('knowledge of a parameter from elsewhere', () => {
  const base = { ...readings(), factors: [] }

  it('held fixed: as if it were no parameter', () => {
    const result = fitted(PARABOLA, base, { ...START, priors: [{ id: 'bend', parameter: 2, value: 0, u: 0 }] })
    const line = fitted(LINE, base, { start: [0, 1] })
    expect(result.theta[2]).toBe(0)
    expect(result.theta[0]).toBeCloseTo(line.theta[0]!, 8)
    expect(result.dof).toBe(line.dof)
    expect(deviationsOf(result.covariance)[2]).toBe(0)
    expect(deviationsOf(result.covariance)[1]! / deviationsOf(line.covariance)[1]!).toBeCloseTo(1, 8)
  })

  it('uncertain: its error moves the estimates as a refit shows, and adds to the sum', () => {
    const known = (value: number) =>
      fitted(PARABOLA, base, { ...START, priors: [{ id: 'bend', parameter: 2, value, u: 0.02 }] })
    const result = known(0.1)
    const slope = (known(0.1 + 1e-4).theta[0]! - known(0.1 - 1e-4).theta[0]!) / 2e-4
    expect(result.priorSensitivity[0]![0]! / (slope * 0.02)).toBeCloseTo(1, 1)
    const total = uncertainOf(result).map(standardUncertainty)
    deviationsOf(result.covariance).forEach((each, j) => expect(total[j]! / each).toBeCloseTo(1, 9))
    expect(result.dof).toBe(base.x.length + 1 - 3)
  })
})

describe('readings that only bound the curve', () => {
  const base = { ...readings(), factors: [] }
  const flagged = (y: number): Observations => ({
    ...base, x: Float64Array.of(...base.x, 7), y: Float64Array.of(...base.y, y), ux: Float64Array.of(...base.ux, 0.02),
    uy: Float64Array.of(...base.uy, 0.05), atLeast: Uint8Array.of(...base.x.map(() => 0), 1),
  })
  const free = fitted(PARABOLA, base, START)

  it('take no part where the curve is above', () => {
    const result = fitted(PARABOLA, flagged(10), START)
    result.theta.forEach((each, j) => expect(each).toBeCloseTo(free.theta[j]!, 8))
    expect(result).toMatchObject({ pointCount: 12, dof: free.dof, activeBounds: [] })
  })

  it('pull the curve up where it would be below', () => {
    const result = fitted(PARABOLA, flagged(25), START)
    const at7 = (b: Float64Array) => b[0]! + 7 * b[1]! + 49 * b[2]!
    expect(at7(result.theta)).toBeGreaterThan(at7(free.theta))
    expect(result.activeBounds).toEqual([12])
    expect(result.pointCount).toBe(12)
  })
})

describe('refusals say what is missing', () => {
  const base = { ...readings(), factors: [] }
  const code = (observations: Observations, start: number[], curve = PARABOLA) => {
    const result = fit(curve, observations, { start })
    return result.fitted ? 'fitted' : result.code
  }
  const first = (n: number): Observations => ({
    x: base.x.slice(0, n), y: base.y.slice(0, n), ux: base.ux.slice(0, n), uy: base.uy.slice(0, n), factors: [],
  })

  it('too few points', () => {
    expect(code(first(2), [0, 1, 0])).toBe('tooFewPoints')
    expect(code({ ...first(4), uy: Float64Array.of(1, 1, Infinity, Infinity) }, [0, 1, 0])).toBe('tooFewPoints')
  })
  it('a parameter that the readings do not tell, and which', () => {
    const same = { ...base, x: base.x.map(() => 2), ux: base.ux.map(() => 0) }
    const result = fit(PARABOLA, same, { start: [0, 1, 0] })
    expect(result).toMatchObject({ fitted: false, code: 'notIdentifiable' })
    if (!result.fitted) expect([0, 1, 2]).toContain(result.parameter)
  })
  it('a point without uncertainty', () => {
    expect(code({ ...base, ux: base.ux.map(() => 0), uy: base.uy.map(() => 0) }, [0, 1, 0])).toBe('exactPoint')
  })
  it('numbers that are none, negative uncertainties, lengths that differ', () => {
    expect(code({ ...base, y: base.y.map(() => NaN) }, [0, 1, 0])).toBe('badInput')
    expect(code({ ...base, uy: base.uy.map(() => -1) }, [0, 1, 0])).toBe('badInput')
    expect(code({ ...base, uy: new Float64Array(3) }, [0, 1, 0])).toBe('badInput')
    expect(code(base, [0, 1])).toBe('badInput')
  })
  it('a start that is no curve', () => {
    expect(code(base, [0, 1, 0], { ...PARABOLA, feasible: () => false })).toBe('infeasibleStart')
    expect(code(base, [NaN, 1, 0])).toBe('infeasibleStart')
  })
  it('a minimum outside the physical curves', () => {
    expect(code(base, [0, 1, -0.1], { ...PARABOLA, feasible: (theta) => theta[2]! < 0 })).toBe('atBound')
  })
  it('no certified minimum', () => {
    const result = fit(PARABOLA, readings(), { start: [0, 1, 0], maxIterations: 1 })
    expect(result).toMatchObject({ fitted: false, code: 'notConverged' })
  })
})

describe('diagnostics', () => {
  it('leverages add up to the parameters told, residuals have unit scatter', () => {
    let sum = 0
    let count = 0
    for (let seed = 0; seed < 40; seed++) {
      const result = fitted(PARABOLA, { ...readings(30, seed), factors: [] }, START)
      expect(result.leverage.reduce((total, each) => total + each, 0)).toBeCloseTo(3, 9)
      result.standardised.forEach((each) => {
        sum += each * each
        count++
      })
    }
    expect(sum / count).toBeGreaterThan(0.88)
    expect(sum / count).toBeLessThan(1.12)
  })

  it('fits points without scatter to rounding', () => {
    const x = Float64Array.from({ length: 8 }, (_, i) => i)
    const result = fitted(LINE, {
      x, y: x.map((each) => 1 + 3 * each), ux: x.map(() => 0.1), uy: x.map(() => 0.1), factors: [],
    }, { start: [0, 1] })
    expect(result.theta[0]).toBeCloseTo(1, 12)
    expect(result.theta[1]).toBeCloseTo(3, 12)
  })
})
