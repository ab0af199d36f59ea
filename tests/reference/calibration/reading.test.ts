/**
 * A whole squat test to forces against SciPy (Debian's python3-scipy; figures frozen by
 * `scipy_reading.py`, which can be run again): curve parameters, their standard uncertainties, forces
 * read from drops and theirs, with every shared error in play.
 */
import { calibrate, readForce, type Calibration } from '@core/calibration'
import { fromSource, known, plus, standardUncertainty } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import frozen from './scipy-reading.json'
import { FIGURES, writtenSession } from './session'

/** Forces are linear in their errors to this share (products of two errors are left out). */
const ESTIMATES = 5e-5
const UNCERTAINTIES = 1e-3

function curveOf(shape: 'linear' | 'progressive'): Calibration {
  const { session, chassis } = writtenSession(shape)
  const result = calibrate(session, chassis, { kind: 'axle', axle: 'front' }, { shapes: [shape] })
  if (result.refused) throw new Error(result.code)
  return result
}

describe.each(['linear', 'progressive'] as const)('a whole squat test, %s', (shape) => {
  const curve = curveOf(shape)
  const candidate = curve.candidates.find((each) => each.shape === shape)!
  if (!candidate.fitted) throw new Error(candidate.code)
  // Chi-square here is below its degrees of freedom: nothing is enlarged.
  const expected = frozen[shape]

  it('has the parameters and their uncertainties', () => {
    expect(candidate.birge).toBeLessThan(1)
    expect(candidate.chiSquare / expected.chiSquare).toBeCloseTo(1, 3)
    for (const { name, estimate } of candidate.parameters) {
      const figure = (expected.parameters as Record<string, { value: number; u: number }>)[name]!
      expect(Math.abs(estimate.value / figure.value - 1), name).toBeLessThan(ESTIMATES)
      expect(Math.abs(standardUncertainty(estimate) / figure.u - 1), name).toBeLessThan(UNCERTAINTIES)
    }
  })

  it('reads drops as forces, with the gauge\'s scale cancelling as far as it is shared', () => {
    const scale = curve.sources.find(({ id }) => id === 'gauge:gauge:scale')!
    for (const { dropMm, forceN, uN } of expected.readings) {
      const drop = plus(
        fromSource(dropMm, FIGURES.readingU, known('readingRounding', 'reading')),
        fromSource(0, dropMm * FIGURES.gaugeScaleU, scale),
      )
      const read = readForce(curve, { dropMm: drop, branch: 'mid', touched: false }).forceN!
      expect(Math.abs(read.value / forceN - 1), `${dropMm} mm`).toBeLessThan(ESTIMATES)
      expect(Math.abs(standardUncertainty(read) / uN - 1), `u at ${dropMm} mm`).toBeLessThan(UNCERTAINTIES)
    }
  })
})
