/**
 * The closed form of a coast against an integration of the equation of motion by a general-purpose
 * library (scipy 1.17 solve_ivp, DOP853, tolerances 1e-13), and its slopes against differences.
 * Equation: SAE J1263 and ISO 10521-1, road load A + C V^2 without a linear term.
 */
import { describe, expect, it } from 'vitest'
import { airDistanceAt, airSpeedAt, speedSlopes, type Coast } from '@core/drag/motion'

const level: Coast = { massKg: 1.62, steadyN: 0.83, squareNPerMs2: (1.19 * 0.0131) / 2, startMs: 16 }
/** Downhill so steep that rolling is more than paid for. */
const downhill: Coast = { ...level, steadyN: -0.25 }

const integrated: readonly [string, Coast, number, number, number][] = [
  ['level', level, 1, 14.379360212681181, 15.169967153138145],
  ['level', level, 3, 11.72372013277495, 41.162363773762884],
  ['level', level, 5, 9.608125383430957, 62.42207644398436],
  ['level', level, 8, 7.07157256209719, 87.28983532745862],
  ['downhill', downhill, 1, 14.999840085879361, 15.487501184583689],
  ['downhill', downhill, 3, 13.378954094936011, 43.792766078382115],
  ['downhill', downhill, 5, 12.12749790537088, 69.24815730529438],
  ['downhill', downhill, 8, 10.717488404859541, 103.39992134547339],
]

describe('a coast in closed form', () => {
  it.each(integrated)('%s: speed and distance as integrated', (_, coast, t, speed, distance) => {
    expect(airSpeedAt(coast, t)).toBeCloseTo(speed, 10)
    expect(airDistanceAt(coast, t)).toBeCloseTo(distance, 9)
  })

  it('passes smoothly through no rolling and no air', () => {
    const bare = { ...level, steadyN: 0, squareNPerMs2: 0.01 }
    expect(airSpeedAt(bare, 2)).toBeCloseTo(16 / (1 + (0.01 * 16 * 2) / 1.62), 12)
    const airless = { ...level, squareNPerMs2: 0 }
    expect(airSpeedAt(airless, 2)).toBeCloseTo(16 - (0.83 / 1.62) * 2, 12)
    expect(airDistanceAt(airless, 2)).toBeCloseTo(32 - (0.83 / 1.62) * 2, 12)
  })

  it('knows that a car at rest has no speed', () => {
    expect(airSpeedAt(level, 60)).toBeNaN()
  })

  it.each([
    ['level', level], ['downhill', downhill],
  ] as const)('%s: slopes as by differences', (_, coast) => {
    const t = 4
    const u = airSpeedAt(coast, t)
    const slopes = speedSlopes(coast, t, u)
    const by = (key: 'steadyN' | 'squareNPerMs2' | 'startMs', h: number): number =>
      (airSpeedAt({ ...coast, [key]: coast[key] + h }, t) -
        airSpeedAt({ ...coast, [key]: coast[key] - h }, t)) / (2 * h)
    expect(slopes.steady).toBeCloseTo(by('steadyN', 1e-5), 7)
    expect(slopes.square / by('squareNPerMs2', 1e-7)).toBeCloseTo(1, 6)
    expect(slopes.start).toBeCloseTo(by('startMs', 1e-5), 8)
  })
})
