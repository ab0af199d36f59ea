/** The inverse reading: plain where it may be, a bound where it must be. */
import {
  calibrate, calibrateCorners, curveBand, dropAt, evenForces, forceTrials, readForce, readForceByMonteCarlo,
  stiffnessAt, type Calibration, type CurveOf, type DropReading,
} from '@core/calibration'
import { covariance, fromSource, known, minus, plus, standardUncertainty, type Uncertain } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import type { TrueAxle } from '../../../seeds/simulator'
import { squat, stated as statedNow, type SquatSpec } from './squats'

const FRONT: CurveOf = { kind: 'axle', axle: 'front' }

function curveOf(spec: SquatSpec): Calibration {
  const { session, chassis } = squat(spec)
  const result = calibrate(session, chassis, FRONT)
  if (result.refused) throw new Error(result.code)
  return result
}

const own = (value: number, u = 0.005): Uncertain => fromSource(value, u, known('readingRounding', 'reading'))
const read = (dropMm: number, changes: Partial<DropReading> = {}, u = 0.005): DropReading =>
  ({ dropMm: own(dropMm, u), branch: 'mid', touched: false, ...changes })

const straight: TrueAxle = { curve: { kind: 'linear', rateNPerMm: 2.5 }, frictionN: 0, touchMm: null }
const plain = curveOf({ noiseMm: 0.005, front: straight })

describe('a plain reading', () => {
  it('is rate times drop, with an interval that holds the truth', () => {
    const { statement, forceN, boundN } = readForce(plain, read(1.2))
    if (statement.kind !== 'interval') throw new Error(statement.kind)
    expect(statement.interval.low).toBeLessThan(3)
    expect(statement.interval.high).toBeGreaterThan(3)
    expect(statement.extrapolated).toBe(false)
    expect(forceN!.value).toBe(statement.value)
    expect(boundN).toBeNull()
  })

  it('has a budget whose squares add up', () => {
    const { statement } = readForce(plain, read(1.2))
    if (statement.kind !== 'interval') throw new Error(statement.kind)
    expect(Math.hypot(...statement.budget.map(({ u }) => u))).toBeCloseTo(statement.u, 12)
    expect(statement.budget.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12)
  })

  it('loses the gauge scale where the same gauge read the drop', () => {
    const scale = plain.sources.find(({ id }) => id === 'gauge:gauge:scale')!
    const sameGauge = read(1.2, { dropMm: plus(own(1.2), fromSource(0, 1.2 * 0.002, scale)) })
    const [same, other] = [readForce(plain, sameGauge), readForce(plain, read(1.2))]
    const part = (of: Uncertain) => of.parts.find(({ source }) => source.id === scale.id)?.contribution ?? 0
    expect(Math.abs(part(same.forceN!))).toBeLessThan(0.03 * Math.abs(part(other.forceN!)))
    expect(Math.abs(part(other.forceN!))).toBeCloseTo(3 * 0.002, 3)
  })

  it('keeps the scale gain: two forces are correlated by it', () => {
    const [one, other] = [readForce(plain, read(1)).forceN!, readForce(plain, read(1.5)).forceN!]
    expect(covariance(one, other)).toBeGreaterThan(one.value * other.value * 0.005 ** 2 * 0.99)
    // In their difference only the difference is left of it.
    const left = minus(other, one).parts.find(({ source }) => source.group === 'scaleGain')!.contribution
    expect(left).toBeCloseTo((other.value - one.value) * 0.005, 4)
  })
})

describe('a tray on the ground', () => {
  const touching: TrueAxle = { ...straight, touchMm: 1.5 }
  const chassis = { trayTouchMm: { front: { value: 1.5, u: 0.02 }, rear: null } }
  const curve = curveOf({ noiseMm: 0.005, front: touching, chassis })

  it('takes its touch-down from the steps that touched', () => {
    expect(curve.touchMm!.value).toBeCloseTo(1.5, 1)
    expect(curve.points.some(({ touched }) => touched)).toBe(true)
    expect(curve.rangeMm).toBeLessThan(1.5)
  })

  it('gives "at least", one-sided, below the force at touch-down', () => {
    const { statement, boundN, forceN, claim } = readForce(curve, read(1.5, { touched: true }))
    if (statement.kind !== 'atLeast') throw new Error(statement.kind)
    expect(statement).toMatchObject({ reason: 'touchedGround', probability: 0.95 })
    expect(forceN).toBeNull()
    expect(claim.kind).toBe('atLeast')
    expect(statement.bound).toBeLessThan(boundN!.value)
    // One-sided 95 %: 1.645 standard uncertainties below.
    expect((boundN!.value - statement.bound) / standardUncertainty(boundN!)).toBeCloseTo(1.645, 1)
  })

  it('is found even where nobody saw it', () => {
    for (const drop of [1.49, 1.5, 1.6, 3]) {
      expect(readForce(curve, read(drop)).statement).toMatchObject({ kind: 'atLeast', reason: 'touchedGround' })
    }
    expect(readForce(curve, read(1.2)).statement.kind).toBe('interval')
  })

  it('called so for what it read, says no more than that it was not clear of the ground', () => {
    // Two alike on either side of that: the one that reads more must not bound what the other states.
    const low = { ...plain, touchMm: fromSource(1, 0.02, known('trayTouch', 'touch')) }
    const clear = [0.8, 0.85, 0.9, 0.95].flatMap((drop) => readForce(low, read(drop)).forceN ?? [])
    const unseen = readForce(low, read(0.99)).boundN!.value
    expect(clear.length).toBeGreaterThan(1)
    expect(unseen).toBeLessThan(clear[clear.length - 1]!.value + 0.05 * 2.5)
    expect(unseen).toBeLessThan(readForce(low, read(0.99, { touched: true })).boundN!.value - 0.05 * 2.5 / 2)
  })

  it('claims nothing for an end that is still held while the other is down', () => {
    const preload: TrueAxle = { curve: { kind: 'threshold', thresholdN: 1.2, rateNPerMm: 2.5 }, frictionN: 0, touchMm: null }
    const held = curveOf({ noiseMm: 0.005, front: preload })
    expect(readForce(held, read(0.002, { touched: true })).statement).toMatchObject({ kind: 'atLeast', bound: 0 })
    const moved = readForce(held, read(0.3, { touched: true })).statement
    expect(moved.kind === 'atLeast' && moved.bound).toBeGreaterThan(1.5)
  })

  it('stays a bound in Monte Carlo', () => {
    expect(forceTrials(curve, read(1.5, { touched: true }))).toBeNull()
    const stated = statedNow(curve, read(1.5, { touched: true }), { seed: 1 })
    expect(stated.statement.kind).toBe('atLeast')
    expect(stated.validation).toBeNull()
  })
})

describe('beyond the calibrated range', () => {
  it('says at least the force at its end, never more', () => {
    const { statement, boundN } = readForce(plain, read(plain.rangeMm + 1))
    expect(statement).toMatchObject({ kind: 'atLeast', reason: 'beyondCalibratedRange' })
    expect(boundN!.value).toBeCloseTo(plain.rangeN, 1)
  })

  it('says extrapolated where the reading only just may lie beyond', () => {
    expect(readForce(plain, read(plain.rangeMm + 0.004)).statement).toMatchObject({ kind: 'interval', extrapolated: true })
  })
})

describe('where nothing moves', () => {
  const preload: TrueAxle = { curve: { kind: 'threshold', thresholdN: 1.2, rateNPerMm: 2.5 }, frictionN: 0, touchMm: null }
  const held = curveOf({ noiseMm: 0.005, front: preload })

  it('says between 0 and the threshold below it', () => {
    const { statement } = readForce(held, read(0.002))
    if (statement.kind !== 'between') throw new Error(statement.kind)
    expect(statement).toMatchObject({ low: 0, reason: 'belowThreshold' })
    expect(statement.high).toBeGreaterThan(1.2)
    expect(statement.high).toBeLessThan(1.35)
    expect(readForce(held, read(0)).statement).toMatchObject({ kind: 'between', low: 0 })
    expect(readForce(held, read(-0.003)).statement).toMatchObject({ kind: 'between', low: 0 })
  })

  it('says so from whichever side the reading came', () => {
    for (const branch of ['loading', 'mid', 'unloading'] as const) {
      expect(readForce(held, read(0, { branch })).statement).toMatchObject({ kind: 'between', low: 0, reason: 'belowThreshold' })
    }
  })

  it('reads plainly once it clearly moves', () => {
    const { statement } = readForce(held, read(0.1))
    if (statement.kind !== 'interval') throw new Error(statement.kind)
    expect(statement.value).toBeCloseTo(1.45, 1)
  })

  const sticky = curveOf({
    noiseMm: 0.005, settle: 'none', ramps: 2, front: { ...straight, frictionN: 0.5 },
  })

  it('says between 0 and the friction on the loading branch', () => {
    const { statement } = readForce(sticky, read(0, { branch: 'loading' }))
    if (statement.kind !== 'between') throw new Error(statement.kind)
    expect(statement.reason).toBe('withinFriction')
    expect(statement.high).toBeGreaterThan(0.5)
    expect(statement.high).toBeLessThan(0.65)
  })

  it('adds the friction while loading, takes it off while unloading, and leaves it out when settled', () => {
    const value = (branch: DropReading['branch']) => readForce(sticky, read(1, { branch })).forceN!.value
    expect(value('loading') - value('mid')).toBeCloseTo(0.5, 1)
    expect(value('mid') - value('unloading')).toBeCloseTo(0.5, 1)
  })

  it('reads a settled car near zero plainly', () => {
    expect(readForce(sticky, read(0)).statement.kind).toBe('interval')
  })

  it('carries an assumed friction as wide as it is', () => {
    const assumed = curveOf({
      noiseMm: 0.005, settle: 'none', down: false, front: { ...straight, frictionN: 0.3 },
      assumedFrictionN: { front: 0.3, rear: 0.3 },
    })
    const chosen = assumed.candidates.find(({ shape }) => shape === assumed.chosen)!
    expect(chosen).toMatchObject({ fitted: true, frictionFrom: 'assumed' })
    expect(assumed.remarks.map(({ code }) => code)).toContain('frictionAssumed')
    const mid = readForce(assumed, read(1)).forceN!
    expect(mid.parts.some(({ source }) => source.group === 'friction')).toBe(true)
  })
})

describe('a car that rises', () => {
  it('is flagged, not read, without readings of a lifted axle', () => {
    expect(readForce(plain, read(-0.3)).statement).toMatchObject({ kind: 'untold', reason: 'rising' })
  })

  it('has to be surely up: a held axle that reads a little high by chance stays between nothing and its threshold', () => {
    const held = curveOf({
      noiseMm: 0.005,
      front: { curve: { kind: 'threshold', thresholdN: 1.2, rateNPerMm: 2.5 }, frictionN: 0, touchMm: null },
    })
    // One in twenty of many readings of nothing is this far up (1.645 standard uncertainties, one-sided).
    expect(readForce(held, read(-2.5 * 0.02, {}, 0.02)).statement.kind).toBe('between')
    expect(readForce(held, read(-3.5 * 0.02, {}, 0.02)).statement).toMatchObject({ kind: 'untold', reason: 'rising' })
  })

  it('is read with its sign where a load behind the rear axle lifted the front', () => {
    const lifted = curveOf({
      noiseMm: 0.005,
      steps: [
        { branch: 'zero', ramp: 1, placed: [] },
        ...['bag-1', 'bag-2', 'bag-3', 'bag-4', 'bag-5'].map((loadId) =>
          ({ branch: 'loading' as const, ramp: 1, placed: [{ loadId, xMm: 0, yMm: 0, uPlaceMm: 1 }] })),
        ...['bag-2', 'bag-3', 'bag-5'].map((loadId) =>
          ({ branch: 'loading' as const, ramp: 1, placed: [{ loadId, xMm: 350, yMm: 0, uPlaceMm: 1 }] })),
      ],
    })
    expect(lifted.leastN).toBeLessThan(-0.9)
    const { statement } = readForce(lifted, read(-0.2))
    if (statement.kind !== 'interval') throw new Error(statement.kind)
    expect(statement.value).toBeCloseTo(-0.5, 1)
    expect(readForce(lifted, read(-2)).statement).toMatchObject({ kind: 'atMost', reason: 'beyondCalibratedRange' })
  })
})

describe('the stated result by Monte Carlo', () => {
  it('agrees with propagation on a straight curve, gives both intervals, and says so', () => {
    const stated = statedNow(plain, read(1.2, {}, 0.02), { seed: 7, toleranceShare: 0.2 })
    if (stated.statement.kind !== 'interval') throw new Error(stated.statement.kind)
    expect(stated.statement.method).toBe('monteCarlo')
    expect(stated.statement.shortest).not.toBeNull()
    expect(stated.validation!.agrees).toBe(true)
    expect(stated.statement.value).toBeCloseTo(readForce(plain, read(1.2, {}, 0.02)).forceN!.value, 2)
    expect(stated.histogram!.counts.reduce((sum, each) => sum + each, 0)).toBeGreaterThan(0.99 * stated.trials)
  })

  it('is the same for the same seed, and can be driven and stopped block by block', () => {
    const seeded = () => statedNow(plain, read(1.2), { seed: 3, fixedTrials: 20_000 }).statement
    expect(seeded()).toEqual(seeded())
    const run = readForceByMonteCarlo(plain, read(1.2), { seed: 3, fixedTrials: 50_000 })
    const first = run.next()
    if (first.done) throw new Error('ended at once')
    expect(first.value.share).toBeGreaterThan(0)
    expect(first.value.share).toBeLessThan(1)
  })

  it('disagrees, and stands, where the curve bends within the reading', () => {
    const knee: TrueAxle = {
      curve: { kind: 'stop', rateNPerMm: 1.5, kneeMm: 1.4, stopRateNPerMm: 15 }, frictionN: 0, touchMm: null,
    }
    const curve = curveOf({ noiseMm: 0.005, ramps: 2, front: knee })
    const stated = statedNow(curve, read(1.4, {}, 0.05), { seed: 5, fixedTrials: 100_000 })
    if (stated.statement.kind !== 'interval') throw new Error(stated.statement.kind)
    expect(stated.validation!.agrees).toBe(false)
    const { low, high } = stated.statement.interval
    // The stiff side reaches farther: the interval is not symmetric about the estimate.
    expect(high - stated.statement.value).toBeGreaterThan(1.3 * (stated.statement.value - low))
  })
})

describe('the curve as drawn', () => {
  it('is a band around the drop on each branch, and runs back through the reading', () => {
    const band = curveBand(plain, evenForces(plain, 11), 'mid')
    expect(band).toHaveLength(11)
    expect(band.every(({ lowMm, dropMm, highMm }) => lowMm <= dropMm && dropMm <= highMm)).toBe(true)
    const there = dropAt(plain, 2.3).value
    expect(readForce(plain, read(there)).forceN!.value).toBeCloseTo(2.3, 2)
  })

  it('has the spring rate as stiffness', () => {
    expect(stiffnessAt(plain, 1).value).toBeCloseTo(2.5, 1)
    expect(standardUncertainty(stiffnessAt(plain, 1))).toBeGreaterThan(0)
  })
})

describe('corner mode', () => {
  it('gives each corner half of its axle\'s rate under even loads, and half of its friction', () => {
    const { session, chassis } = squat({
      noiseMm: 0.003, settle: 'none', ramps: 2, front: { ...straight, frictionN: 0.4 }, rear: { ...straight, frictionN: 0.4 },
    })
    for (const corner of Object.values(calibrateCorners(session, chassis))) {
      if (corner.refused) throw new Error(corner.code)
      expect(stiffnessAt(corner, 1).value).toBeCloseTo(1.25, 1)
      const chosen = corner.candidates.find(({ shape }) => shape === corner.chosen)!
      expect(chosen.fitted && chosen.frictionN.value).toBeCloseTo(0.2, 1)
    }
  })
})
