/**
 * The solver against certified results. Ordinary least squares is the same solver with an exact x
 * and a unit u(y); NIST scales its standard deviations by the residual standard deviation, which
 * is then the Birge ratio.
 */
import { fit } from '@core/calibration/fit/solve'
import type { Curve } from '@core/calibration/fit/types'
import { describe, expect, it } from 'vitest'
import { deviationsOf, expectDigits } from './agree'
import { CERTIFIED_SETS } from './nist-data'

function ordinary(curve: Curve, x: readonly number[], y: readonly number[], start: readonly number[]) {
  const result = fit(curve, {
    x: Float64Array.from(x), y: Float64Array.from(y), ux: new Float64Array(x.length),
    uy: new Float64Array(x.length).fill(1), factors: [],
  }, { start })
  if (!result.fitted) throw new Error(result.code)
  return { ...result, deviations: deviationsOf(result.covariance).map((each) => each * result.birge) }
}

describe('NIST StRD nonlinear regression', () => {
  for (const set of CERTIFIED_SETS) {
    set.starts.forEach((start, index) => {
      it(`${set.name} from start ${index + 1}: parameters and standard deviations to 6 digits`, () => {
        const result = ordinary(set.curve, set.x, set.y, start)
        expectDigits(result.theta, set.parameters, 6)
        expectDigits(result.deviations, set.deviations, 6)
        expectDigits([result.chiSquare], [set.residualSumOfSquares], 9)
        expect(result.convergence.gradient).toBeLessThan(1e-6)
      })
    })
  }
})

describe('NIST StRD linear regression, Pontius: a load cell\'s deflection against load', () => {
  // https://www.itl.nist.gov/div898/strd/lls/data/Pontius.shtml
  const load = Array.from({ length: 40 }, (_, i) => 150_000 * ((i % 20) + 1))
  const deflection = [
    0.11019, 0.21956, 0.32949, 0.43899, 0.54803, 0.65694, 0.76562, 0.87487, 0.98292, 1.09146,
    1.20001, 1.30822, 1.41599, 1.52399, 1.63194, 1.73947, 1.84646, 1.95392, 2.06128, 2.16844,
    0.11052, 0.22018, 0.32939, 0.43886, 0.54798, 0.65739, 0.76596, 0.87474, 0.98300, 1.09150,
    1.20004, 1.30818, 1.41613, 1.52408, 1.63159, 1.73965, 1.84696, 1.95445, 2.06177, 2.16829,
  ]
  const parabola: Curve = {
    parameterCount: 3,
    evaluate(x, b, out) {
      out[0] = b[0]! + x * (b[1]! + x * b[2]!)
      out[1] = b[1]! + 2 * x * b[2]!
      out[2] = 1
      out[3] = x
      out[4] = x * x
    },
  }

  it('parameters, standard deviations and residual standard deviation to 9 digits', () => {
    const result = ordinary(parabola, load, deflection, [0, 0, 0])
    expectDigits(result.theta, [0.673565789473684e-3, 0.732059160401003e-6, -0.316081871345029e-14], 9)
    expectDigits(result.deviations, [0.107938612033077e-3, 0.157817399981659e-9, 0.486652849992036e-16], 9)
    expectDigits([result.birge], [0.205177424076185e-3], 9)
  })
})
