/** What must hold for claims, laws and comparisons whatever the numbers. */
import { compare, configurationAero, heightAt, holm, touchDowns } from '@core/aero'
import {
  addClaims, exact, highEnd, lowEnd, mapClaim, minus, overPositive, plus, scaleClaim, standardUncertainty, statementOf,
  subtractClaims, told, valueClaim, type Claim,
} from '@core/uncertainty'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { chassis, straightCurve } from '../unit/airflow/bench'
import { load, made, pressure, uncertain } from '../unit/aero/runs'

const number = fc.double({ min: -10, max: 10, noNaN: true })
const interval = fc.tuple(number, number).map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const)

/** A claim about a true value: bounds (exact) on the right side of it. */
const claimAbout = fc.tuple(interval, fc.constantFrom('value', 'atLeast', 'atMost', 'between'), fc.double({ min: 0, max: 1, noNaN: true }))
  .map(([[low, high], kind, share]): { claim: Claim; truth: number } => {
    const truth = low + share * (high - low)
    if (kind === 'value') return { claim: valueClaim(exact(truth)), truth }
    if (kind === 'atLeast') return { claim: { kind, low: exact(low), reason: 'touchedGround' }, truth }
    if (kind === 'atMost') return { claim: { kind, high: exact(high), reason: 'rising' }, truth }
    return { claim: { kind: 'between', low: exact(low), high: exact(high), reason: 'belowThreshold' }, truth }
  })

const allows = (claim: Claim, truth: number): boolean => {
  const slack = 1e-9 * (1 + Math.abs(truth))
  return (lowEnd(claim)?.value ?? -Infinity) <= truth + slack && (highEnd(claim)?.value ?? Infinity) >= truth - slack
}
const isPlain = (claim: Claim) => claim.kind === 'value'

describe('claims', () => {
  it('a sum, a difference, a multiple and a monotone function never shut the truth out', () => {
    fc.assert(fc.property(claimAbout, claimAbout, number, (a, b, factor) => {
      expect(allows(addClaims(a.claim, b.claim), a.truth + b.truth)).toBe(true)
      expect(allows(subtractClaims(a.claim, b.claim), a.truth - b.truth)).toBe(true)
      expect(allows(scaleClaim(a.claim, factor), a.truth * factor)).toBe(true)
      expect(allows(mapClaim(a.claim, 'falls', (x) => exact(-(x.value ** 3))), -(a.truth ** 3))).toBe(true)
      expect(allows(overPositive(a.claim, exact(2)), a.truth / 2)).toBe(true)
    }))
  })

  it('a censored member never makes a plain result', () => {
    fc.assert(fc.property(claimAbout, claimAbout, (a, b) => {
      const plain = isPlain(a.claim) && isPlain(b.claim)
      expect(isPlain(addClaims(a.claim, b.claim))).toBe(plain)
      expect(statementOf(subtractClaims(a.claim, b.claim)).kind === 'interval').toBe(plain)
    }))
  })

  it('what two bounds share cancels in their difference', () => {
    fc.assert(fc.property(number, number, fc.double({ min: 0.01, max: 1, noNaN: true }), (a, b, u) => {
      const shared = uncertain(0, u, 'shared')
      const low: Claim = { kind: 'atLeast', low: plus(exact(a), shared), reason: 'touchedGround' }
      const difference = subtractClaims(low, valueClaim(plus(exact(b), shared)))
      expect(difference.kind === 'atLeast' && standardUncertainty(difference.low)).toBe(0)
      expect(told(difference).statement).toMatchObject({ kind: 'atLeast' })
    }))
  })
})

const speed = fc.double({ min: 8, max: 25, noNaN: true })
const cla = fc.double({ min: 0.005, max: 0.03, noNaN: true })
const runAt = (id: string, configurationId: string, speedMs: number, front: number, rear: number) => {
  const q = pressure(speedMs, 0.02)
  return made({ id, configurationId, pressurePa: q, front: load(front * q.value, 0.05, `${id}f`), rear: load(rear * q.value, 0.05, `${id}r`) })
}

describe('laws and comparisons', () => {
  it('the order of the runs changes nothing', () => {
    fc.assert(fc.property(fc.array(fc.tuple(speed, cla, cla), { minLength: 2, maxLength: 6 }), (list) => {
      const runs = list.map(([v, f, r], i) => runAt(`run-${i}`, 'plain', v, f, r))
      const [a, b] = [runs, [...runs].reverse()].map((each) => configurationAero(each, 'plain', chassis())!.total.claM2.claim)
      if (a!.kind !== 'value' || b!.kind !== 'value') throw new Error('not plain')
      expect(b!.value.value).toBeCloseTo(a!.value.value, 10)
      expect(standardUncertainty(b!.value)).toBeCloseTo(standardUncertainty(a!.value), 10)
    }))
  })

  it('weights add to one and none is negative', () => {
    fc.assert(fc.property(fc.array(fc.tuple(speed, cla, cla), { minLength: 1, maxLength: 6 }), (list) => {
      const { points } = configurationAero(list.map(([v, f, r], i) => runAt(`run-${i}`, 'plain', v, f, r)), 'plain', chassis())!.axles.front
      expect(points.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 9)
      expect(points.every(({ weight }) => weight >= 0)).toBe(true)
    }))
  })

  it('a configuration against itself differs by nothing, exactly', () => {
    fc.assert(fc.property(speed, cla, cla, (v, f, r) => {
      const aero = configurationAero([runAt('run', 'plain', v, f, r)], 'plain', chassis())!
      const { claim } = compare(aero, aero).total.differenceM2
      expect(claim.kind === 'value' && [claim.value.value, standardUncertainty(claim.value)]).toEqual([0, 0])
    }))
  })

  it('Holm never falls below a p-value and keeps their order', () => {
    fc.assert(fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 12 }), (pValues) => {
      const corrected = holm(pValues)
      corrected.forEach((each, i) => expect(each).toBeGreaterThanOrEqual(pValues[i]!))
      pValues.forEach((one, i) => pValues.forEach((other, j) => {
        if (one < other) expect(corrected[i]!).toBeLessThanOrEqual(corrected[j]!)
      }))
    }))
  })

  it('faster is lower, until it touches', () => {
    fc.assert(fc.property(speed, speed, cla, fc.double({ min: 1, max: 5, noNaN: true }), (v1, v2, a, rate) => {
      const runs = [runAt('run', 'plain', 15, a, a)]
      const model = { curve: straightCurve('front', rate, { touchMm: 50 }), law: configurationAero(runs, 'plain', chassis())!.axles.front }
      const drop = (v: number) => {
        const { dropMm } = heightAt(model, pressure(v))
        return dropMm.kind === 'value' ? dropMm.value.value : Infinity
      }
      if (v1 < v2) expect(drop(v1)).toBeLessThanOrEqual(drop(v2) + 1e-9)
    }))
  })

  it('just below the touch-down speed it floats, just above it is down', () => {
    const rates = fc.double({ min: 1, max: 5, noNaN: true })
    const touches = fc.double({ min: 2, max: 9, noNaN: true })
    fc.assert(fc.property(cla, rates, touches, (a, rate, touchMm) => {
      const aero = configurationAero([runAt('run', 'plain', 15, a, a)], 'plain', chassis())!
      const model = { curve: straightCurve('front', rate, { touchMm }), law: aero.axles.front }
      const { speedMs } = touchDowns({ front: model, rear: null }, exact(1.2)).axles.front
      if (speedMs.kind !== 'interval') return
      expect(heightAt(model, pressure(speedMs.value * 0.999)).state).toBe('free')
      expect(heightAt(model, pressure(speedMs.value * 1.001)).state).toBe('touching')
    }))
  })

  it('the difference of two is the negative of the other way round', () => {
    fc.assert(fc.property(speed, cla, cla, cla, cla, (v, a, b, c, d) => {
      const runs = [runAt('one', 'a', v, a, b), runAt('two', 'b', v, c, d)]
      const [one, two] = ['a', 'b'].map((id) => configurationAero(runs, id, chassis())!)
      const [ab, ba] = [compare(one!, two!), compare(two!, one!)].map(({ total }) => total.differenceM2.claim)
      if (ab!.kind !== 'value' || ba!.kind !== 'value') throw new Error('not plain')
      expect(standardUncertainty(plus(ab!.value, ba!.value))).toBeLessThan(1e-12)
      expect(minus(ab!.value, exact(0)).value).toBeCloseTo(-ba!.value.value, 12)
    }))
  })
})
