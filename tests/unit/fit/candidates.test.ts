/** All shapes on simulated sessions: the true one is found, without tuning, and the choice is told. */
import { aiccOf, akaikeWeights } from '@core/calibration/select/weights'
import { bestOf, fitCandidates } from '@core/calibration/select/candidates'
import type { FitData } from '@core/calibration/select/types'
import { SHAPES } from '@core/calibration/types'
import { describe, expect, it } from 'vitest'
import { deviationsOf } from '../../reference/fit/agree'
import { simulate, TRUTH } from './simulated'

const get = (data: FitData, shape: (typeof SHAPES)[number]) => {
  const candidate = fitCandidates(data).find((each) => each.shape === shape)!
  if (!candidate.fitted) throw new Error(`${shape}: ${candidate.refusal.code}`)
  return candidate
}

describe.each(SHAPES)('a car whose curve is %s', (shape) => {
  it('is fitted from the code\'s own starts: parameters and friction within 4.5 standard uncertainties', () => {
    for (let seed = 1; seed <= 5; seed++) {
      const { fit, curve, frictionAt } = get(simulate({ shape, seed }), shape)
      const u = deviationsOf(fit.covariance)
      expect(frictionAt).toBe(curve.names.length)
      // A cubic's and a parabola's end rates belong to the range of the readings, which is not quite the truth's.
      const compared = shape === 'cubic' || shape === 'progressive' ? 1 : TRUTH[shape].length
      TRUTH[shape].slice(0, compared).forEach((each, j) =>
        expect(Math.abs(fit.theta[j]! - each), curve.names[j]).toBeLessThan(4.5 * u[j]!))
      expect(Math.abs(fit.theta[frictionAt]! - 0.3)).toBeLessThan(4.5 * u[frictionAt]!)
      expect(fit.pValue).toBeGreaterThan(1e-5)
      expect(fit.convergence.gradient).toBeLessThan(1e-5)
    }
  })

  it('is chosen, or a shape that says the same within the readings', () => {
    const candidates = fitCandidates(simulate({ shape, seed: 11 }))
    const weight = candidates.find((each) => each.shape === shape)!
    expect(weight.fitted && weight.weight).toBeGreaterThan(0.05)
    const total = candidates.reduce((sum, each) => sum + (each.fitted ? each.weight : 0), 0)
    expect(total).toBeCloseTo(1, 12)
  })
})

describe('friction', () => {
  it('near nothing is estimated without bias, on either side of zero', () => {
    const estimates = Array.from({ length: 12 }, (_, seed) =>
      get(simulate({ shape: 'linear', frictionN: 0, seed: seed + 1 }), 'linear'))
    const u = deviationsOf(estimates[0]!.fit.covariance)[1]!
    const values = estimates.map(({ fit }) => fit.theta[1]!)
    expect(values.some((each) => each < 0) && values.some((each) => each > 0)).toBe(true)
    expect(Math.abs(values.reduce((sum, each) => sum + each, 0) / 12)).toBeLessThan((4 * u) / Math.sqrt(12))
  })

  it('given from elsewhere enters as a source of its own', () => {
    const all = simulate({ shape: 'linear' })
    const loading = all.branchSign.length
    const data: FitData = { ...all, friction: { kind: 'given', valueN: 0.3, uN: 0.1 } }
    const { fit, frictionAt } = get(data, 'linear')
    expect(fit.priorSensitivity).toHaveLength(1)
    expect(fit.pointCount).toBe(loading)
    expect(deviationsOf(fit.covariance)[frictionAt]!).toBeLessThan(0.1)
  })

  it('cannot be fitted to one branch, and says so', () => {
    const data = simulate({ shape: 'linear' })
    const up = { ...data, branchSign: Array.from(data.branchSign, Math.abs) }
    expect(fitCandidates(up)[0]).toMatchObject({ fitted: false, refusal: { code: 'notIdentifiable' } })
  })

  it('large against the step: readings still held after the turn do not bend the curve', () => {
    for (let seed = 1; seed <= 4; seed++) {
      const { fit } = get(simulate({ shape: 'linear', frictionN: 1.5, seed }), 'linear')
      const u = deviationsOf(fit.covariance)
      expect(Math.abs(fit.theta[0]! - 2)).toBeLessThan(4.5 * u[0]!)
      expect(Math.abs(fit.theta[1]! - 1.5)).toBeLessThan(4.5 * u[1]!)
      expect(fit.pValue).toBeGreaterThan(1e-4)
    }
  })
})

describe('readings with the tray on the ground', () => {
  it('only bound the curve', () => {
    const data = simulate({ shape: 'linear' })
    const touched = Array.from(data.forceN, (force) => force > 9)
    const dropMm = data.dropMm.map((drop, i) => (touched[i] ? Math.min(drop, 4.4) : drop))
    const grounded = { ...data, touched, dropMm }
    const { fit, curve } = get(grounded, 'linear')
    expect(Math.abs(fit.theta[0]! - 2)).toBeLessThan(4.5 * deviationsOf(fit.covariance)[0]!)
    expect(curve.span.rangeN).toBeLessThan(9)
    expect(fit.activeBounds).toEqual([])
    expect(fit.pointCount).toBe(touched.filter((each) => !each).length)
  })
})

describe('too little to go on', () => {
  it('names how many readings or loads are missing', () => {
    const data = simulate({ shape: 'linear', ramps: 1 })
    const cut = (n: number): FitData => ({
      forceN: data.forceN.slice(0, n), dropMm: data.dropMm.slice(0, n), uForceN: new Array<number>(n).fill(0.005),
      uDropMm: new Array<number>(n).fill(0.05), branchSign: new Array<number>(n).fill(1),
      touched: new Array<boolean>(n).fill(false),
      factors: [], friction: { kind: 'none' },
    })
    const codes = fitCandidates(cut(5)).map((each) => (each.fitted ? 'fitted' : each.refusal.code))
    expect(codes[0]).toBe('fitted')
    expect(codes[5]).toBe('tooFewPoints')
    expect(fitCandidates(cut(1)).every((each) => !each.fitted)).toBe(true)
    expect(fitCandidates(cut(0)).every((each) => !each.fitted)).toBe(true)
  })
})

describe('choice', () => {
  it('AICc by its formula: chi-square 10, 3 parameters, 12 points', () => {
    // 10 + 2*3 + 2*3*4/(12 - 3 - 1)
    expect(aiccOf(10, 3, 12)).toBeCloseTo(19, 12)
    // Twice the scatter: 5 + 2*4 + 2*4*5/(12 - 4 - 1)
    expect(aiccOf(10, 3, 12, 2)).toBeCloseTo(13 + 40 / 7, 12)
    expect(aiccOf(10, 3, 4)).toBe(Infinity)
  })

  it('weights by their formula', () => {
    const [a, b, c] = akaikeWeights([100, 102, Infinity])
    expect(a! / b!).toBeCloseTo(Math.E, 12)
    expect(a! + b!).toBeCloseTo(1, 12)
    expect(c).toBe(0)
    expect(akaikeWeights([])).toEqual([])
  })

  it('takes a session whose scatter is larger than said for scatter, not for structure', () => {
    const wins = Array.from({ length: 10 }, (_, seed) => {
      const data = simulate({ shape: 'linear', seed: seed + 20 })
      const said = { uDropMm: data.dropMm.map(() => 0.012), uForceN: data.dropMm.map(() => 0.001) }
      return bestOf(fitCandidates({ ...data, ...said }))!.shape
    })
    expect(wins.filter((each) => each === 'linear').length).toBeGreaterThanOrEqual(6)
  })
})
