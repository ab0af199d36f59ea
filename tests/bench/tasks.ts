/** The data that both sides of the benchmark work on: made once, from a seed, and sent to the other side as text. */
import type { Curve, Observations } from '@core/calibration/fit/types'
import { branchedCurve, shapeCurve, type BranchOf } from '@core/calibration/shapes'
import type { FitData } from '@core/calibration/select/types'
import type { Shape } from '@core/calibration/types'
import { Stream } from '@core/uncertainty'

export const SPAN = { rangeN: 12, rangeMm: 6, roundN: 0.12 }
export const U_FORCE = 0.03
export const U_DROP = 0.05

/** Polynomials in the parameter order of scipy's own models: unilinear (slope, intercept) and quadratic. */
export const STRAIGHT: Curve = {
  parameterCount: 2,
  evaluate(x, b, out) {
    out[0] = b[0]! * x + b[1]!
    out[1] = b[0]!
    out[2] = x
    out[3] = 1
  },
}
export const QUADRATIC: Curve = {
  parameterCount: 3,
  evaluate(x, b, out) {
    out[0] = x * (b[0]! * x + b[1]!) + b[2]!
    out[1] = 2 * b[0]! * x + b[1]!
    out[2] = x * x
    out[3] = x
    out[4] = 1
  },
}

export interface FitTask {
  readonly name: 'straight' | 'quadratic' | 'knee'
  readonly x: number[]
  readonly y: number[]
  readonly start: number[]
}

const KNEE = [1.5, 3, 5]
const knee = shapeCurve('stop', SPAN)
const unbranched: BranchOf = { sign: new Int8Array(0), turnN: new Float64Array(0) }

export const curveOf = (name: FitTask['name']): Curve =>
  name === 'straight' ? STRAIGHT : name === 'quadratic' ? QUADRATIC : branchedCurve(knee, unbranched, false)

/** Forces evenly over the range and drops along a curve, both with independent errors. */
export function fitTask(name: FitTask['name'], n = 60): FitTask {
  const stream = new Stream(n, 7)
  const out = new Float64Array(8)
  const curve = curveOf(name)
  const truth = { straight: [0.5, 0.1], quadratic: [-0.01, 0.6, 0.05], knee: KNEE }[name]
  const start = { straight: [0.4, 0], quadratic: [0, 0.5, 0], knee: [2, 2, 4] }[name]
  const force = Array.from({ length: n }, (_, i) => 0.2 + (11.8 * i) / (n - 1))
  return {
    name, start,
    x: force.map((each) => each + U_FORCE * stream.normal()),
    y: force.map((each) => {
      curve.evaluate(each, Float64Array.from(truth), out, 0)
      return out[0]! + U_DROP * stream.normal()
    }),
  }
}

export const observationsOf = ({ x, y }: FitTask): Observations => ({
  x: Float64Array.from(x), y: Float64Array.from(y), ux: new Float64Array(x.length).fill(U_FORCE),
  uy: new Float64Array(x.length).fill(U_DROP), factors: [],
})

/** A session of `n` readings on both branches, with gain, gauge scale, zero and four bags shared by readings. */
export function sessionOf(n: number, shape: Shape = 'progressive'): FitData & { forceN: number[]; dropMm: number[] } {
  const stream = new Stream(n, 11)
  const out = new Float64Array(8)
  const curve = shapeCurve(shape, SPAN)
  const theta: Record<string, number[]> = { progressive: [1.5, 2.8], stop: KNEE, linear: [2] }
  const half = n / 2
  const force = Array.from({ length: n }, (_, i) => (i < half ? (12 * i) / half : 12 - (11 * (i - half + 1)) / half))
  const sign = force.map((_, i) => (i < half ? 1 : -1))
  const dropMm = force.map((each, i) => {
    curve.drop(Math.max(0, each - 0.3 * sign[i]!), theta[shape]!, out)
    return out[0]! + U_DROP * stream.normal()
  })
  const bag = (b: number) => force.map((each) => (Math.floor(each / 3) >= b ? 0.01 : 0))
  return {
    forceN: force.map((each) => each + 0.005 * stream.normal()), dropMm,
    uForceN: force.map(() => 0.005), uDropMm: force.map(() => U_DROP), branchSign: sign,
    turnForceN: sign.map((each) => (each < 0 ? 12 : NaN)), touched: force.map(() => false),
    factors: [
      { id: 'scale:gain', onForceN: force.map((each) => 0.002 * each), onDropMm: null },
      { id: 'gauge:scale', onForceN: null, onDropMm: dropMm.map((each) => 0.003 * each) },
      { id: 'zero', onForceN: null, onDropMm: force.map(() => 0.03) },
      ...[0, 1, 2, 3].map((b) => ({ id: `bag:${b}`, onForceN: bag(b), onDropMm: null })),
    ],
    friction: { kind: 'fit' },
  }
}
