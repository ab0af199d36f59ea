/** The shapes' derivatives against differences, their inverses, and friction against a walked play model. */
import { elasticForce, shapeCurve } from '@core/calibration/shapes'
import { SHAPES } from '@core/calibration/types'
import { describe, expect, it } from 'vitest'
import { TRUTH, walk } from './simulated'

const SPAN = { rangeN: 12, rangeMm: 6, roundN: 0.2 }
const H = 1e-6

describe.each(SHAPES)('%s', (shape) => {
  const curve = shapeCurve(shape, SPAN)
  const theta = TRUTH[shape]
  const at = (what: 'drop' | 'force', x: number, parameters: readonly number[]) => {
    const out = new Float64Array(2 + parameters.length)
    curve[what](x, parameters, out)
    return out
  }

  it.each([['drop', 0.013, 16], ['force', 0.013, 8]] as const)('%s: derivatives by difference', (what, from, to) => {
    for (let x = from; x < to; x += (to - from) / 211) {
      const here = at(what, x, theta)
      const slope = (at(what, x + H, theta)[0]! - at(what, x - H, theta)[0]!) / (2 * H)
      expect(Math.abs(slope - here[1]!)).toBeLessThan(1e-6 * Math.max(1, Math.abs(slope)))
      theta.forEach((_, j) => {
        const by = (h: number) => at(what, x, theta.map((each, k) => (k === j ? each + h : each)))[0]!
        const difference = (by(H) - by(-H)) / (2 * H)
        expect(Math.abs(difference - here[2 + j]!)).toBeLessThan(1e-6 * Math.max(1, Math.abs(difference)))
      })
    }
  })

  it('no load, no drop', () => expect(at('drop', 0, theta)[0]).toBe(0))
})

describe('a threshold narrower than the rounding still starts at nothing', () => {
  const curve = shapeCurve('threshold', SPAN)
  it.each([0.05, 0.001, 1e-9])('threshold %d', (thresholdN) => {
    const out = new Float64Array(4)
    curve.drop(0, [thresholdN, 2], out)
    expect(out[0]).toBe(0)
    curve.drop(5, [thresholdN, 2], out)
    expect(out[0]).toBeCloseTo((5 - thresholdN) / 2, 12)
  })
})

describe('friction', () => {
  const elastic = (force: number, sign: number, turn: number, friction: number) => {
    const out = new Float64Array(3)
    elasticForce(force, sign, turn, friction, 0.1, out)
    return out
  }

  it('is the play model walked step by step: up from rest, down from the top, up again from the bottom', () => {
    const up = Array.from({ length: 61 }, (_, i) => i / 5)
    const down = up.slice(15, -1).reverse()
    const again = up.slice(16)
    const walked = walk([...up, ...down, ...again], 0.7)
    const branches = [...up.map((f) => [f, 1, NaN]), ...down.map((f) => [f, -1, 12]), ...again.map((f) => [f, 1, 3])]
    // The rounding of the two corners of a branch takes at most a quarter of its half-width.
    branches.forEach(([force, sign, turn], i) =>
      expect(Math.abs(elastic(force!, sign!, turn!, 0.7)[0]! - walked[i]!)).toBeLessThanOrEqual(0.1 / 4 + 1e-12))
    const away = branches.map(([force, sign, turn], i) => Math.abs(elastic(force!, sign!, turn!, 0.7)[0]! - walked[i]!))
    expect(away.filter((each) => each < 1e-12).length).toBeGreaterThan(0.9 * away.length)
  })

  it('is the force itself after a settle routine', () => expect(elastic(4, 0, NaN, 0.7)[0]).toBe(4))

  it.each([[1, NaN], [-1, NaN], [-1, 10], [1, 2]])('derivatives by difference, sign %d, turn %d', (sign, turn) => {
    for (const friction of [0.5, 0.03, -0.5]) {
      for (let force = 0.05; force < 10; force += 0.0731) {
        const here = elastic(force, sign, turn, friction)
        const at = (f: number, fr: number) => elastic(f, sign, turn, fr)[0]!
        expect(here[1]).toBeCloseTo((at(force + H, friction) - at(force - H, friction)) / (2 * H), 4)
        expect(here[2]).toBeCloseTo((at(force, friction + H) - at(force, friction - H)) / (2 * H), 4)
      }
    }
  })

  it.each([[5, 1, NaN], [5, -1, NaN], [5, -1, 12], [12, -1, 12], [0, 1, NaN], [2, 1, 2]])(
    'passes smoothly through zero: force %d, sign %d, turn %d', (force, sign, turn) => {
      const slope = (elastic(force, sign, turn, H)[0]! - elastic(force, sign, turn, -H)[0]!) / (2 * H)
      expect(elastic(force, sign, turn, 0)[2]).toBeCloseTo(slope, 6)
      expect(elastic(force, sign, turn, 0)[0]).toBe(force)
    },
  )
})
