/**
 * Three loads up and nothing else: no shape with a bend can be told from a straight line, so a force is
 * stated by the loads next to it. What holds then is only that a suspension never rises under more load.
 */
import { calibrate, forceTrials, isThin, readForce, type Calibration } from '@core/calibration'
import { fromSource, known, type Statement } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { ladder, type TrueAxle } from '../../../seeds/simulator'
import { midwayRungs, squat } from './squats'

const AXLES: readonly (readonly [string, TrueAxle])[] = [
  ['a straight spring', { curve: { kind: 'linear', rateNPerMm: 2.5 }, frictionN: 0, touchMm: null }],
  ['a stiffening one', { curve: { kind: 'progressive', rateNPerMm: 1.2, growthNPerMm2: 0.6 }, frictionN: 0, touchMm: null }],
  ['a preload', { curve: { kind: 'threshold', thresholdN: 0.4, rateNPerMm: 2 }, frictionN: 0, touchMm: null }],
  ['friction', { curve: { kind: 'linear', rateNPerMm: 2.5 }, frictionN: 0.25, touchMm: null }],
]

const curveOf = (front: TrueAxle, loads: number, seed: number): Calibration => {
  const { session, chassis } = squat({
    front, settle: 'none', noiseMm: 0.005, steps: ladder(midwayRungs().slice(0, loads), 1, false), seed,
  })
  const result = calibrate(session, chassis, { kind: 'axle', axle: 'front' })
  if (result.refused) throw new Error(result.code)
  return result
}

const read = (curve: Calibration, dropMm: number) => readForce(curve, {
  branch: 'loading', touched: false,
  dropMm: fromSource(dropMm, 0.005, known('typedDrop', 'air')),
})

const holds = (said: Statement, forceN: number): boolean => {
  if (said.kind === 'between') return said.low <= forceN && forceN <= said.high
  return said.kind === 'atLeast' ? said.bound <= forceN : said.kind === 'atMost' && forceN <= said.bound
}

describe('three loads up, friction unknown', () => {
  it.each(AXLES)('give bounds that hold the force, and no plain number: %s', (_, axle) => {
    for (let seed = 1; seed <= 20; seed++) {
      const curve = curveOf(axle, 3, seed)
      expect(isThin(curve)).toBe(true)
      const points = curve.points.filter(({ forceN }) => forceN.value > 0)
      const middle = points[1]!
      const next = points[2]!
      // The true force at that drop lies between the two loads, whatever the shape.
      const { statement, forceN } = read(curve, (middle.dropMm.value + next.dropMm.value) / 2)
      expect(forceN).toBeNull()
      expect(statement).toMatchObject({ kind: 'between', reason: 'tooFewLoads' })
      const [low, high] = [middle.forceN.value, next.forceN.value]
      expect([0.05, 0.5, 0.95].every((share) => holds(statement, low + share * (high - low)))).toBe(true)
    }
  })

  it('say "at least" past the last load, and leave nothing to Monte Carlo', () => {
    const curve = curveOf(AXLES[0]![1], 3, 1)
    const last = curve.points.reduce((most, each) => (each.forceN.value > most.forceN.value ? each : most))
    const reading = { branch: 'loading' as const, touched: false, dropMm: last.dropMm }
    expect(read(curve, 1.1 * last.dropMm.value).statement).toMatchObject({ kind: 'atLeast', reason: 'tooFewLoads' })
    expect(forceTrials(curve, reading)).toBeNull()
  })

  it('five loads state a plain number again', () => {
    const curve = curveOf(AXLES[0]![1], 5, 1)
    expect(isThin(curve)).toBe(false)
    expect(read(curve, 0.6).statement.kind).toBe('interval')
  })
})
