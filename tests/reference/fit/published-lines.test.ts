/** Straight lines with uncertainties in one or both variables, against published worked examples. */
import { combine, covariance, effectiveDof, fromData, fromSource, known, standardUncertainty } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { deviationsOf, expectDigits } from './agree'
import { denseObservations } from '../../unit/fit/dense'
import { fitted, LINE, uncertainOf } from './lines'

/** Half a unit of the last printed digit, and a little. */
const printed = (decimals: number) => 0.51 * 10 ** -decimals

function expectPrinted(value: number, figure: number, decimals: number) {
  expect(Math.abs(value - figure), `${value} against the printed ${figure}`).toBeLessThanOrEqual(printed(decimals))
}

describe('Pearson\'s data with York\'s weights', () => {
  // Pearson 1901; York 1966; values as in York et al., Am. J. Phys. 72 (2004) 367, Table II.
  const weightX = [1000, 1000, 500, 800, 200, 80, 60, 20, 1.8, 1]
  const weightY = [1, 1.8, 4, 8, 20, 20, 70, 70, 100, 500]
  const result = fitted(LINE, {
    x: Float64Array.of(0, 0.9, 1.8, 2.6, 3.3, 4.4, 5.2, 6.1, 6.5, 7.4),
    y: Float64Array.of(5.9, 5.4, 4.4, 4.6, 3.5, 3.7, 2.8, 2.8, 2.4, 1.5),
    ux: Float64Array.from(weightX, (w) => 1 / Math.sqrt(w)),
    uy: Float64Array.from(weightY, (w) => 1 / Math.sqrt(w)),
    factors: [],
  }, { start: [5, 0] })

  it('intercept and slope', () => expectDigits(result.theta, [5.47991022403, -0.48053340745], 9))
  it('standard deviations from the weights alone', () =>
    expectDigits(deviationsOf(result.covariance), [0.294970735, 0.0579850090], 8))
  it('sum of squares over degrees of freedom', () => expectDigits([result.birge ** 2], [1.483294149], 9))
})

describe('ISO/TS 28037:2010, clause 6, first example: weighted line, and reading it backwards', () => {
  const result = fitted(LINE, {
    x: Float64Array.of(1, 2, 3, 4, 5, 6), y: Float64Array.of(3.3, 5.6, 7.1, 9.3, 10.7, 12.1),
    ux: new Float64Array(6), uy: new Float64Array(6).fill(0.5), factors: [],
  }, { start: [0, 0] })

  it('parameters and their covariance', () => {
    expectDigits(result.theta, [1.866666667, 1.757142857], 9)
    expectDigits(deviationsOf(result.covariance), [0.4654747, 0.1195229], 6)
    expectPrinted(result.covariance[1]!, -0.050, 3)
  })

  it('x at a measured y of 10.5 with u 0.5', () => {
    const [a, b] = uncertainOf(result)
    const y = fromSource(10.5, 0.5, known('readingRounding', 'reading'))
    const slope = b!.value
    const x = (y.value - a!.value) / slope
    const read = combine(x, [[y, 1 / slope], [a!, -1 / slope], [b!, -x / slope]])
    expectPrinted(read.value, 4.913, 3)
    expectPrinted(standardUncertainty(read), 0.322, 3)
  })
})

describe('ISO/TS 28037:2010, clause 7 example: uncertainties in both variables', () => {
  const result = fitted(LINE, {
    x: Float64Array.of(1.2, 1.9, 2.9, 4.0, 4.7, 5.9), y: Float64Array.of(3.4, 4.4, 7.2, 8.5, 10.8, 13.5),
    ux: new Float64Array(6).fill(0.2), uy: Float64Array.of(0.2, 0.2, 0.2, 0.4, 0.4, 0.4), factors: [],
  }, { start: [0, 1] })

  it('parameters, covariance and chi-square', () => {
    expectPrinted(result.theta[0]!, 0.5788, 4)
    expectPrinted(result.theta[1]!, 2.1597, 4)
    const [ua, ub] = deviationsOf(result.covariance)
    expectPrinted(ua!, 0.4764, 4)
    expectPrinted(ub!, 0.1355, 4)
    expectPrinted(result.covariance[1]!, -0.0577, 4)
    expectPrinted(result.chiSquare, 2.743, 3)
    expect(result.dof).toBe(4)
  })
})

describe('ISO/TS 28037:2010, clause 10 example: both variables with full covariance', () => {
  // Figures from memory; recomputed with scipy and agreeing.
  const ux = [
    [0.5, 0, 0.25, 0, 0.25, 0, 0.25],
    [0, 1.25, 1, 0, 0, 1, 1],
    [0.25, 1, 1.5, 0, 0.25, 1, 1.25],
    [0, 0, 0, 1.25, 1, 1, 1],
    [0.25, 0, 0.25, 1, 1.5, 1, 1.25],
    [0, 1, 1, 1, 1, 2.25, 2],
    [0.25, 1, 1.25, 1, 1.25, 2, 2.5],
  ]
  const uy = ux.map((row, i) => row.map((_, j) => (i === j ? 5 : 1)))
  const observations = denseObservations(
    [50.4, 99.0, 149.9, 200.4, 248.5, 299.7, 349.1], [52.3, 97.8, 149.7, 200.1, 250.4, 300.9, 349.2], ux, uy,
  )!
  const result = fitted(LINE, observations, { start: [0, 1] })

  it('parameters, covariance and chi-square', () => {
    expectPrinted(result.theta[0]!, 0.3424, 4)
    expectPrinted(result.theta[1]!, 1.0012, 4)
    const [ua, ub] = uncertainOf(result)
    expectPrinted(standardUncertainty(ua!), 2.0569, 4)
    expectPrinted(standardUncertainty(ub!), 0.0090, 4)
    expectPrinted(covariance(ua!, ub!), -0.0129, 4)
    expectPrinted(result.chiSquare, 1.772, 3)
  })
})

describe('JCGM 100:2008 (GUM), H.3: calibration of a thermometer', () => {
  // Figures from memory; recomputed with scipy and agreeing.
  const readings = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511]
  const corrections = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160]
  const result = fitted(LINE, {
    x: Float64Array.from(readings, (t) => t - 20), y: Float64Array.from(corrections),
    ux: new Float64Array(11), uy: new Float64Array(11).fill(1), factors: [],
  }, { start: [0, 0] })
  const [y1, y2] = uncertainOf(result, result.birge)

  it('parameters, standard deviations, correlation and scatter', () => {
    expectPrinted(y1!.value, -0.1712, 4)
    expectPrinted(y2!.value, 0.00218, 5)
    expectPrinted(standardUncertainty(y1!), 0.0029, 4)
    expectPrinted(standardUncertainty(y2!), 0.00067, 5)
    expectPrinted(covariance(y1!, y2!) / (standardUncertainty(y1!) * standardUncertainty(y2!)), -0.930, 3)
    expectPrinted(result.birge, 0.0035, 4)
  })

  it('predicted correction at 30 degrees', () => {
    const predicted = combine(y1!.value + 10 * y2!.value, [[y1!, 1], [y2!, 10]])
    expectPrinted(predicted.value, -0.1494, 4)
    expectPrinted(standardUncertainty(predicted), 0.0041, 4)
  })

  it('keeps its 9 degrees of freedom through a prediction that mixes both parameters', () => {
    const [a, b] = uncertainOf(result, result.birge, (r) => fromData('readingRepeats', `noise:${r}`, 9, 'scatter'))
    expect(effectiveDof(combine(0, [[a!, 1], [b!, 10]]))).toBeCloseTo(9, 10)
  })
})
