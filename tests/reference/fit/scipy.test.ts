/**
 * The solver against scipy on the product's own curves: `scipy_figures.py` beside this file writes
 * the frozen figures. Estimates agree to 1e-6 relative, standard deviations to 1e-4.
 */
import type { Factor, Fitted } from '@core/calibration/fit/types'
import { branchedCurve, shapeCurve, startsFor, type BranchOf } from '@core/calibration/shapes'
import { standardUncertainty } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { deviationsOf } from './agree'
import { fitted, uncertainOf } from './lines'
import figures from './scipy-figures.json'

const SHAPES = ['linear', 'threshold', 'progressive', 'stop', 'thresholdStop'] as const
const NONE: BranchOf = { sign: new Int8Array(60), turnN: new Float64Array(60).fill(NaN) }

function agree(values: ArrayLike<number>, wanted: readonly number[], relative: number, what: string) {
  wanted.forEach((each, i) => {
    expect(Math.abs(values[i]! / each - 1), `${what} ${i}: ${values[i]} against ${each}`).toBeLessThan(relative)
  })
}

/** Where the code itself would start: no tuning. */
const start = (shape: (typeof SHAPES)[number], x: number[], y: number[]) => startsFor(shape, {
  elasticN: Float64Array.from(x), dropMm: Float64Array.from(y), weight: new Float64Array(x.length).fill(1),
}, figures.span)[0]!

function expectSame(result: Fitted, wanted: { theta: number[]; sd: number[]; chiSquare: number }) {
  agree(result.theta, wanted.theta, 1e-6, 'estimate')
  agree(deviationsOf(result.covariance), wanted.sd, 1e-4, 'standard deviation')
  agree([result.chiSquare], [wanted.chiSquare], 1e-6, 'chi-square')
}

describe.each(SHAPES)('%s', (shape) => {
  const curve = shapeCurve(shape, figures.span)
  const zeros = new Float64Array(60)

  it('independent errors in both variables: scipy.odr', () => {
    const { x, y, ux, uy, ...wanted } = figures.odr[shape]
    const observations = {
      x: Float64Array.from(x), y: Float64Array.from(y), ux: Float64Array.from(ux), uy: Float64Array.from(uy),
      factors: [],
    }
    expectSame(fitted(branchedCurve(curve, NONE, false), observations, { start: start(shape, x, y) }), wanted)
  })

  it('exact force, drops with full covariance: scipy.optimize.curve_fit', () => {
    const { x, y, uy, zero, scale, ...wanted } = figures.curveFit[shape]
    const factors: Factor[] = [['zero', zero] as const, ['scale', scale] as const]
      .map(([id, onY]) => ({ id, onX: null, onY: Float64Array.from(onY) }))
    const observations = {
      x: Float64Array.from(x), y: Float64Array.from(y), ux: zeros, uy: Float64Array.from(uy), factors,
    }
    const result = fitted(branchedCurve(curve, NONE, false), observations, { start: start(shape, x, y) })
    expectSame(result, wanted)
    agree(uncertainOf(result).map(standardUncertainty), wanted.sd, 1e-4, 'root of the summed sources')
  })

  it('both variables, shared gain and zero, friction: the whole problem by scipy.optimize.least_squares', () => {
    const { x, y, ux, uy, sign, gain, zero, z, ...wanted } = figures.everything[shape]
    const branch = { sign: Int8Array.from(sign), turnN: new Float64Array(60).fill(NaN) }
    const observations = {
      x: Float64Array.from(x), y: Float64Array.from(y), ux: Float64Array.from(ux), uy: Float64Array.from(uy),
      factors: [
        { id: 'gain', onX: Float64Array.from(gain), onY: null }, { id: 'zero', onX: null, onY: Float64Array.from(zero) },
      ],
    }
    const first = start(shape, x.map((each, i) => each - 0.2 * sign[i]!), y)
    const result = fitted(branchedCurve(curve, branch, true), observations, { start: [...first, 0.2] })
    expectSame(result, wanted)
    z.forEach((each, j) => expect(Math.abs(result.z[j]! - each), `factor ${j}`).toBeLessThan(1e-6))
    const own = uncertainOf(result)
    agree(own.map(standardUncertainty), wanted.sd.slice(0, own.length), 1e-4, 'root of the summed sources')
  })
})
