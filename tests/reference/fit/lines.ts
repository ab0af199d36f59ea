/** Straight line and a fit that must succeed, for the published examples. */
import { estimatesOf, fit, type Curve, type Estimates, type FitOptions, type Fitted, type Observations } from '@core/calibration/fit'
import type { Source } from '@core/uncertainty'

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
  if (!result.fitted) throw new Error(`${result.code}: ${result.why}`)
  return result
}

export const source = (id: string, dof = Infinity): Source =>
  ({ id, group: 'repeatability', evaluation: 'fromData', shape: 'normal', dof })

/** Parameters as uncertain values with invented source names, and no scaling unless asked for. */
export const uncertainOf = (result: Fitted, noiseScale = 1): Estimates => estimatesOf(result, {
  factors: result.factorSensitivity.map((_, j) => source(`factor:${j}`)),
  priors: result.priorSensitivity.map((_, j) => source(`prior:${j}`)),
  noise: (r) => source(`noise:${r}`),
}, noiseScale)
