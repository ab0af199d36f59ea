/** Straight line and a fit that must succeed, for the published examples. */
import { estimatesOf } from '@core/calibration/fit/estimates'
import { fit } from '@core/calibration/fit/solve'
import type { Curve, FitOptions, Fitted, Observations } from '@core/calibration/fit/types'
import { fromData, known, type Source, type Uncertain } from '@core/uncertainty'

/** y = theta0 + theta1 x. */
export const LINE: Curve = {
  parameterCount: 2,
  evaluate(x, theta, out) {
    out[0] = theta[0]! + theta[1]! * x
    out[1] = theta[1]!
    out[2] = 1
    out[3] = x
  },
}

export function fitted(curve: Curve, observations: Observations, options: FitOptions): Fitted {
  const result = fit(curve, observations, options)
  if (!result.fitted) throw new Error(result.code)
  return result
}

type NoiseSource = (r: number) => Source
const freshNoise: NoiseSource = (r) => fromData('readingRepeats', `noise:${r}`, Infinity)

/** Parameters as uncertain values with invented source names, and no scaling unless asked for. */
export const uncertainOf = (result: Fitted, noiseScale = 1, noise = freshNoise): Uncertain[] =>
  estimatesOf(result, noiseScale).map(({ value, ...by }) => ({
    value,
    parts: [
      ...by.factors.map((contribution, j) => ({ source: known('gaugeScale', `factor:${j}`), contribution })),
      ...by.priors.map((contribution, j) => ({ source: known('assumedFriction', `prior:${j}`), contribution })),
      ...by.noise.map((contribution, r) => ({ source: noise(r), contribution })),
    ],
  }))
