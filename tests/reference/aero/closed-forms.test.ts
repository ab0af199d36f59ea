/** Ride height, touch-down and springs against exact closed forms; ratios and means against published figures. */
import {
  axleModels, clearanceOf, compare, comparisonMatrix, configurationAero, forceOn,
  heightAt, holm, neededRate, predict, ratioStatement, springOutcome,
  touchDowns, touchedEarlier, type AxleModel, type SpeedLaw,
} from '@core/aero'
import {
  exact, fromSource, ratioInterval, standardUncertainty, told, valueClaim, type Claim, type Statement, type Uncertain,
} from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { chassis, straightCurve } from '../../unit/airflow/bench'
import { atLeast, load, made, pressure, source, uncertain } from '../../unit/aero/runs'
import figures from '../uncertainty/library-figures.json'

const RHO = 1.2
const law = (cla: Uncertain, height: SpeedLaw['height'] = null): SpeedLaw => ({
  claM2: told(valueClaim(cla)), points: [], chiSquare: 0, dof: 0, pValue: 1, birge: 1,
  exponent: { exponent: { kind: 'untold', reason: 'missing', because: { code: 'oneSpeed' } }, verdict: 'untold' }, height, lowMs: 0, highMs: 100,
})
const plain = (statement: Statement) => {
  if (statement.kind !== 'interval') throw new Error(JSON.stringify(statement))
  return statement
}
const q = (speedMs: number): Uncertain => exact(0.5 * RHO * speedMs ** 2)

describe('straight spring, constant ClA: h(V) = touch - rho V^2 ClA / (2 k), V_touch = sqrt(2 k touch / (rho ClA))', () => {
  const cla = uncertain(0.02, 0.001, 'cla')
  const rate = uncertain(2.5, 0.05, 'rate')
  const touch = uncertain(4, 0.1, 'touch')
  const model: AxleModel = { curve: straightCurve('front', rate, { touchMm: touch }), law: law(cla) }

  it.each([5, 12.5, 20, 28])('drop and load at %d m/s, with their uncertainties', (speed) => {
    const { dropMm, forceN, state } = heightAt(model, q(speed))
    if (dropMm.kind !== 'value' || forceN.kind !== 'value') throw new Error(state)
    const drop = (0.5 * RHO * speed ** 2 * 0.02) / 2.5
    expect(dropMm.value.value).toBeCloseTo(drop, 9)
    expect(forceN.value.value).toBeCloseTo(2.5 * drop, 9)
    expect(standardUncertainty(dropMm.value) / drop).toBeCloseTo(Math.hypot(0.05, 0.02), 6)
  })

  it('touch-down speed: exact, with half the relative variance of force over ClA', () => {
    const light = { ...model, law: law(exact(0.001)) }
    const { axles, firstMs, frontFirst } = touchDowns({ front: model, rear: light }, exact(RHO))
    const speed = Math.sqrt((2 * 2.5 * 4) / (RHO * 0.02))
    const { value, u, method } = plain(axles.front.speedMs)
    expect(value).toBeCloseTo(speed, 9)
    expect(u / value).toBeCloseTo(0.5 * Math.hypot(0.05, 0.02, 0.025), 6)
    expect(method).toBe('fieller')
    expect(plain(firstMs).value).toBeCloseTo(speed, 9)
    expect(frontFirst).toBeGreaterThan(0.999)
  })

  it('past it the car is down: the load is "at least" what brought it there, the clearance "at most" none', () => {
    const { state, forceN } = heightAt(model, q(40))
    expect(state).toBe('touching')
    expect(forceN).toMatchObject({ kind: 'atLeast', reason: 'touchedGround' })
    expect(forceN.kind === 'atLeast' && forceN.low.value).toBeCloseTo(10, 9)
  })

  it('a lifting axle never touches', () => {
    const { axles } = touchDowns({ front: { ...model, law: law(uncertain(-0.02, 0.001, 'c')) }, rear: model }, exact(RHO))
    expect(axles.front.kind).toBe('never')
  })

  it('a ClA that may be nothing gives "at least" as the touch-down speed', () => {
    const { axles } = touchDowns({ front: { ...model, law: law(uncertain(0.002, 0.0015, 'c')) }, rear: model }, exact(RHO))
    expect(axles.front.speedMs).toMatchObject({ kind: 'atLeast', reason: 'denominatorNearZero' })
  })

  it('both ends alike: the first of two is earlier than either', () => {
    const end = (id: string): AxleModel =>
      ({ curve: straightCurve(id === 'f' ? 'front' : 'rear', 2.5), law: law(uncertain(0.02, 0.001, id)) })
    const { axles, firstMs, frontFirst } = touchDowns({ front: end('f'), rear: end('r') }, exact(RHO))
    const one = plain(axles.front.speedMs)
    // Mean of the smaller of two normals: mu - u / sqrt(pi) (H. A. David, Order Statistics, 2nd ed. 1981, 3.2).
    expect(plain(firstMs).value).toBeCloseTo(one.value - one.u / Math.sqrt(Math.PI), 1)
    expect(frontFirst).toBeCloseTo(0.5, 9)
  })

  it('needed rate and spring outcome are each other\'s inverse', () => {
    const rate1 = neededRate(model, 'front', 1, 25, exact(RHO))
    const k = (0.5 * RHO * 625 * 0.02) / 3
    expect(plain(rate1.axleRateNPerMm).value).toBeCloseTo(k, 9)
    expect(plain(rate1.wheelRateNPerMm).value).toBeCloseTo(k / 2, 9)
    expect(plain(rate1.presentRateNPerMm).value).toBeCloseTo(2.5, 6)
    const outcome = springOutcome(model, 'front', { id: 's' }, { own: exact(k / 2), fitted: null }, 1, 25, exact(RHO))
    expect(plain(outcome.clearanceMm).value).toBeCloseTo(1, 9)
    expect(plain(outcome.touchDownMs).value).toBeCloseTo(Math.sqrt((2 * k * 4) / (RHO * 0.02)), 9)
    expect(outcome.probabilityHolds).toBeCloseTo(0.5, 6)
    expect(plain(rate1.timesPresent).value).toBeCloseTo(k / 2.5, 9)
  })

  it('a load between nothing and some touches at no speed above one: "at least" of that of the most', () => {
    const bounded: Claim = { kind: 'between', low: exact(0), high: exact(0.02), reason: 'belowThreshold' }
    const held: AxleModel = { ...model, law: { ...law(exact(0.02)), claM2: told(bounded) } }
    const rates = { own: exact(1.25), fitted: null }
    const { touchDownMs } = springOutcome(held, 'front', { id: 's' }, rates, 1, 25, exact(RHO))
    expect(touchDownMs).toMatchObject({ kind: 'atLeast' })
    const bound = touchDownMs.kind === 'atLeast' ? touchDownMs.bound : NaN
    const closed = Math.sqrt((2 * 2.5 * 4) / (RHO * 0.02))
    // Less by 1.645 of its standard uncertainty: half of the touching drop's 2.5 %.
    expect(bound).toBeCloseTo(closed * (1 - 1.645 * 0.0125), 2)
  })
})

describe('straight spring on tyres that grow by g V^2: h(V) = touch + g V^2 - rho V^2 ClA / (2 k)', () => {
  const [cla, rate, touch, growth] = [0.02, 2.5, 4, 0.002] as const
  const grown = (of: { cla?: number; rate?: number; touch?: number; growth?: number } = {}): AxleModel => ({
    curve: straightCurve('front', uncertain(of.rate ?? rate, 0.05, 'rate'), { touchMm: uncertain(of.touch ?? touch, 0.1, 'touch') }),
    law: law(uncertain(of.cla ?? cla, 0.001, 'cla')),
    growthMmPerPa: uncertain((2 * (of.growth ?? growth)) / RHO, (2 * 0.0003) / RHO, 'growth'),
  })
  /** V^2 = touch / (rho ClA / (2 k) - g). */
  const speedOf = (c: number, k: number, t: number, g: number): number => Math.sqrt(t / ((RHO * c) / (2 * k) - g))

  it.each([5, 15, 25, 37])('leaves that room at %d m/s', (speed) => {
    const height = heightAt(grown(), q(speed))
    const room = clearanceOf(grown(), height)
    if (room?.kind !== 'value') throw new Error(height.state)
    expect(room.value.value).toBeCloseTo(touch + growth * speed ** 2 - (RHO * speed ** 2 * cla) / (2 * rate), 9)
  })

  it('touches later by it, with every part of its uncertainty', () => {
    const { axles } = touchDowns({ front: grown(), rear: null }, exact(RHO))
    const speed = speedOf(cla, rate, touch, growth)
    const { value, u } = plain(axles.front.speedMs)
    expect(value).toBeCloseTo(speed, 6)
    expect(value).toBeGreaterThan(1.2 * speedOf(cla, rate, touch, 0))
    const by = (c: number, k: number, t: number, g: number) => speedOf(cla + c, rate + k, touch + t, growth + g) - speed
    const step = 1e-5
    const parts = [
      0.001 * by(step, 0, 0, 0), 0.05 * by(0, step, 0, 0), 0.1 * by(0, 0, step, 0), 0.0003 * by(0, 0, 0, step),
    ]
    expect(u / (Math.hypot(...parts) / step)).toBeCloseTo(1, 1)
  })

  it('is down from there on, floats before', () => {
    const speed = speedOf(cla, rate, touch, growth)
    expect(heightAt(grown(), q(0.99 * speed)).state).toBe('free')
    const down = heightAt(grown(), q(1.01 * speed))
    expect(down.state).toBe('touching')
    expect(down.downAtPa!.value).toBeCloseTo(0.5 * RHO * speed ** 2, 6)
    expect(down.forceN.kind === 'atLeast' && down.forceN.low.value).toBeCloseTo(0.5 * RHO * speed ** 2 * cla, 6)
  })

  it('never comes down where the tyres outgrow the drop', () => {
    const { axles } = touchDowns({ front: grown({ growth: 0.006 }), rear: null }, exact(RHO))
    expect(axles.front).toMatchObject({ kind: 'never', speedMs: { kind: 'untold', because: { code: 'tyresOutgrow' } } })
    expect(heightAt(grown({ growth: 0.006 }), q(40)).state).toBe('free')
  })

  it('leaves the first touch to the end that comes down: a plain speed, no "at most"', () => {
    const { firstMs, frontFirst, axles } = touchDowns({ front: grown({ growth: 0.006 }), rear: grown() }, exact(RHO))
    expect(firstMs).toEqual(axles.rear.speedMs)
    expect(plain(firstMs).value).toBeCloseTo(speedOf(cla, rate, touch, growth), 6)
    expect(frontFirst).toBe(0)
  })

  it('counts in the rate that holds it off', () => {
    const allowed = touch + growth * 625 - 1
    expect(plain(neededRate(grown(), 'front', 1, 25, exact(RHO)).axleRateNPerMm).value)
      .toBeCloseTo((0.5 * RHO * 625 * cla) / allowed, 9)
  })
})

describe('other springs: the measured curve by the ratio of the rates, the collars re-set to the same ride height', () => {
  // A preload of 3 N, then 2.5 N/mm measured where the wire says 2 x 1.1: the difference is the car's, and stays.
  const model: AxleModel = { curve: straightCurve('front', 2.5, { thresholdN: 3 }), law: law(exact(0.02)) }
  const spring = (own: number, speed = 25) =>
    springOutcome(model, 'front', { id: 's' }, { own: exact(own), fitted: exact(1.1) }, 1, speed, exact(RHO))
  const force = 0.5 * RHO * 625 * 0.02

  it.each([1.1, 1.8, 3])('a wheel rate of %d N/mm', (own) => {
    expect(plain(spring(own).clearanceMm).value).toBeCloseTo(4 - (force - 3) / (2.5 * (own / 1.1)), 9)
    expect(plain(spring(own).touchDownMs).value)
      .toBeCloseTo(Math.sqrt((3 + 4 * 2.5 * (own / 1.1)) / (0.5 * RHO * 0.02)), 6)
  })

  it('the fitted one leaves what the measured curve leaves', () => {
    const now = clearanceOf(model, heightAt(model, q(25)))
    expect(plain(spring(1.1).clearanceMm).value).toBe(now?.kind === 'value' && now.value.value)
  })

  it('below the preload nothing moves, whatever the spring', () => {
    expect(spring(3, 10).clearanceMm).toMatchObject({ kind: 'between' })
    expect(spring(3, 10).probabilityHolds).toBe(1)
  })
})

describe('straight spring, ClA rising with the drop: d = q a / (k - q b), unstable from q = k/b', () => {
  const k = 2
  const [a, b] = [0.01, 0.004]
  const height = { atDropMm: 0, claM2: exact(a), slopeM2PerMm: exact(b), lowMm: 0, highMm: 10 }
  const model: AxleModel = { curve: straightCurve('front', k, { touchMm: 4 }), law: law(exact(a), height) }

  it.each([10, 15, 18])('fixed point at %d m/s', (speed) => {
    const pressureAt = 0.5 * RHO * speed ** 2
    const { dropMm } = heightAt(model, q(speed))
    expect(dropMm.kind === 'value' && dropMm.value.value).toBeCloseTo((pressureAt * a) / (k - pressureAt * b), 6)
  })

  it('touch-down: V^2 = 2 k t / (rho (a + b t))', () => {
    const { axles } = touchDowns({ front: model, rear: model }, exact(RHO))
    expect(plain(axles.front.speedMs).value).toBeCloseTo(Math.sqrt((2 * k * 4) / (RHO * (a + b * 4))), 9)
  })

  it('the feedback multiplies uncertainties by 1/(1 - q b / k)', () => {
    const uncertainA: AxleModel = { ...model, law: law(exact(a), { ...height, claM2: uncertain(a, 0.0005, 'a') }) }
    const pressureAt = 0.5 * RHO * 225
    const { dropMm } = heightAt(uncertainA, q(15))
    if (dropMm.kind !== 'value') throw new Error(dropMm.kind)
    expect(standardUncertainty(dropMm.value)).toBeCloseTo((pressureAt * 0.0005) / (k - pressureAt * b), 6)
  })

  it('a car pulled down ever faster (threshold spring): no height holds past the turn, and it is said', () => {
    // F = 1 + d; ClA = 0.001 + 0.01 d: q(F) = (1 + d)/(0.001 + 0.01 d) falls from the start.
    const runaway: AxleModel = {
      curve: straightCurve('front', 1, { touchMm: 4, thresholdN: 1 }),
      law: law(exact(0.001), { atDropMm: 0, claM2: exact(0.001), slopeM2PerMm: exact(0.01), lowMm: 0, highMm: 10 }),
    }
    const { axles } = touchDowns({ front: runaway, rear: runaway }, exact(RHO))
    expect(axles.front.kind).toBe('diverges')
    // It lets go where the load reaches the threshold: q = 1/0.001.
    expect(axles.front.divergesMs).toBeCloseTo(Math.sqrt((2 * 1000) / RHO), 0)
    expect(heightAt(runaway, q(45)).state).toBe('unstable')
    expect(heightAt(runaway, q(45)).forceN.kind).toBe('atLeast')
  })
})

describe('prediction', () => {
  it('adds up, is marked where no run supports it, and is a share of the weight', () => {
    const run = made({ id: 'a', pressurePa: pressure(15), front: load(1.35, 0.02, 'f'), rear: load(2.7, 0.02, 'r') })
    const aero = configurationAero([run], 'plain', chassis())!
    const curves = { front: straightCurve('front', 2), rear: straightCurve('rear', 3) }
    const at = predict(aero, curves, chassis(), 20)
    expect(plain(at.totalN).value).toBeCloseTo((4.05 * 400) / 225, 9)
    expect(at.extrapolated).toBe(true)
    expect(plain(at.totalN).extrapolated).toBe(true)
    expect(plain(at.weightShare).value).toBeCloseTo((4.05 * 400) / 225 / (1.5 * 9.80665), 9)
    expect(plain(at.clearanceMm.front).value).toBeCloseTo(4 - (1.35 * 400) / 225 / 2, 9)
    expect(predict(aero, curves, chassis(), 40).totalN.kind).toBe('atLeast')
    expect([14, 14.9, 15.1, 16].map((speedMs) => predict(aero, curves, chassis(), speedMs).extrapolated))
      .toEqual([true, false, false, true])
  })
})

describe('the load of the bodywork', () => {
  // Straight springs, a tray 4 mm up: touch-down where (device + bodywork) = rate x 4 mm, both going with V squared.
  const run = made({
    id: 'a', pressurePa: pressure(15), front: load(1.35, 0.02, 'f'), rear: load(2.7, 0.02, 'r'), bareN: 0.6,
  })
  const curves = { front: straightCurve('front', 2), rear: straightCurve('rear', 3) }
  const aero = configurationAero([run], 'plain', chassis())!

  it('presses the springs, though ClA is the device’s alone', () => {
    const { axles, firstMs } = touchDowns(axleModels(aero, curves, chassis()), exact(RHO))
    expect(plain(axles.front.speedMs).value).toBeCloseTo(15 * Math.sqrt(8 / 1.95), 6)
    expect(plain(axles.rear.speedMs).value).toBeCloseTo(15 * Math.sqrt(12 / 3.3), 6)
    expect(firstMs.kind).toBe('interval')
    expect(plain(aero.axles.front.claM2.statement).value).toBeCloseTo(1.35 / pressure(15).value, 9)
    const at = predict(aero, curves, chassis(), 20)
    expect(plain(at.clearanceMm.front).value).toBeCloseTo(4 - (1.95 * 400) / 225 / 2, 9)
    expect(plain(at.forceN.front).value).toBeCloseTo((1.35 * 400) / 225, 9)
  })

  it('with either end down both loads are bounds: what they were when the first came down', () => {
    const down = 15 * Math.sqrt(12 / 3.3)
    const at = predict(aero, curves, chassis(), down + 0.5)
    expect(at.state).toEqual({ front: 'free', rear: 'touching' })
    for (const [axle, n] of [['front', 1.35], ['rear', 2.7]] as const) {
      const said = at.forceN[axle]
      if (said.kind !== 'atLeast') throw new Error(said.kind)
      const atTouch = (n * down ** 2) / 225
      expect(said.bound).toBeLessThan(atTouch)
      expect(said.bound).toBeGreaterThan(0.9 * atTouch)
    }
    expect(at.totalN.kind).toBe('atLeast')
  })

  it('an end seen on the ground well below its touch-down is said', () => {
    const touch = touchDowns(axleModels(aero, curves, chassis()), exact(RHO))
    const seen = (speedMs: number) => made({
      id: 'seen', pressurePa: pressure(speedMs), front: load(4, 0.02, 'x'), rear: atLeast(9, 0.1, 'y'),
    })
    expect(touchedEarlier(touch, [seen(20)])).toEqual([expect.objectContaining({
      code: 'touchedEarlier', about: { kind: 'run', runId: 'seen' }, values: expect.objectContaining({ axle: 'rear', seenMs: expect.closeTo(20, 9) }),
    })])
    expect(touchedEarlier(touch, [seen(40)])).toEqual([])
  })

  it('a set-up with a control run and one without are ranked and compared as read', () => {
    const bare = made({
      id: 'b', configurationId: 'other', pressurePa: pressure(15), front: load(1.7, 0.02, 'g'), rear: load(2.9, 0.02, 's'),
      measured: 'asRead',
    })
    const other = configurationAero([bare], 'other', chassis())!
    const { ranked, measure, remarks } = comparisonMatrix([aero, other])
    expect(measure).toBe('asRead')
    expect(ranked.map(({ configurationId }) => configurationId)).toEqual(['plain', 'other'])
    expect(remarks).toContainEqual(expect.objectContaining({ code: 'comparedAsRead' }))
    const { total } = compare(aero, other)
    expect(plain(total.differenceM2.statement).value).toBeCloseTo((5.25 - 4.6) / pressure(15).value, 9)
  })
})

describe('the inverse of the curve as drawn', () => {
  it('force at a drop, with the rate\'s part', () => {
    const curve = straightCurve('front', uncertain(2, 0.1, 'rate'))
    const force = forceOn({ curve, law: law(exact(0.02)) }, exact(3))
    expect(force.value).toBeCloseTo(6, 9)
    expect(standardUncertainty(force)).toBeCloseTo(0.3, 6)
  })
})

describe('Fieller', () => {
  // Worked example printed in the README of DCSTATS (a statistics package for single-channel recordings): a 14,
  // b 7, their standard deviations 3 and 2, uncorrelated, 10 degrees of freedom, t = 1.812461 (90 %): 1.051413 to
  // 4.414296.
  it('published worked example', () => {
    const ends = ratioInterval({
      numerator: 14, denominator: 7, varianceNumerator: 9, varianceDenominator: 4, covariance: 0, dof: 10,
    }, 0.9)
    if (ends.kind !== 'bounded') throw new Error(ends.kind)
    expect(ends.low).toBeCloseTo(1.051413, 6)
    expect(ends.high).toBeCloseTo(4.414296, 6)
  })

  it('the statement of a ratio uses it, with the degrees of freedom of its sources', () => {
    const a = fromSource(14, 3, source('a', 20))
    const b = fromSource(7, 0.7, source('b', 20))
    const { interval, value, method } = plain(ratioStatement(a, b))
    expect(value).toBeCloseTo(2, 12)
    expect(method).toBe('fieller')
    expect(interval.high - value).toBeGreaterThan(value - interval.low)
  })
})

describe('Welch', () => {
  // Two samples and their Welch test by scipy.stats.ttest_ind(equal_var=False), frozen in library-figures.json.
  it('the comparison of two configurations is Welch\'s test where only their own scatter is uncertain', () => {
    const { first, second, pValue, dof, low, high } = figures.welch
    const run = (id: string, values: readonly number[]) => {
      const mean = values.reduce((sum, each) => sum + each, 0) / values.length
      const square = values.reduce((sum, each) => sum + (each - mean) ** 2, 0)
      const u = Math.sqrt(square / (values.length - 1) / values.length)
      const front = load(mean, u, id, values.length - 1)
      return made({ id, configurationId: id, pressurePa: exact(1), front, rear: valueClaim(exact(0)) })
    }
    const runs = [run('a', first), run('b', second)]
    const { total } = compare(configurationAero(runs, 'a', chassis())!, configurationAero(runs, 'b', chassis())!)
    const statement = plain(total.differenceM2.statement)
    expect(statement.dof).toBeCloseTo(dof, 9)
    expect(total.pValue).toBeCloseTo(pValue, 11)
    expect(statement.interval.low).toBeCloseTo(low, 10)
    expect(statement.interval.high).toBeCloseTo(high, 10)
  })
})

describe('Holm', () => {
  // The usual textbook example (from memory): p 0.01, 0.04, 0.03, 0.005 at level 0.05 rejects the first and the
  // fourth only, since 0.005 < 0.05/4 and 0.01 < 0.05/3, but 0.03 > 0.05/2.
  it('published example', () => {
    const corrected = holm([0.01, 0.04, 0.03, 0.005])
    expect(corrected.map((p) => p < 0.05)).toEqual([true, false, false, true])
  })
})
