/** Scale and loads: what is shared stays shared. */
import { loadMass, scaleGain, shownMean } from '@core/chassis'
import { covariance, standardUncertainty, type Uncertain } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { car, loadOf, MADE, scaleOf } from './car'

const check = (known: number, u: number, shownKg: number[], id = 'check') =>
  ({ id, at: MADE, name: 'Check', knownMassKg: { value: known, u }, shownKg })

const massOf = (result: ReturnType<typeof loadMass>): Uncertain => {
  if (!('massKg' in result)) throw new Error(result.trouble)
  return result.massKg
}

describe('the gain of a scale', () => {
  it('is as assumed without a check', () => {
    const { gain, from } = scaleGain(scaleOf({ gainU: 0.01 }))
    expect(from).toBe('assumed')
    expect(gain).toMatchObject({ value: 1, parts: [{ contribution: 0.01, source: { id: 'scale:scale:gain', dof: Infinity } }] })
  })

  it('comes from a check: known over shown, with rounding and the check mass in its uncertainty', () => {
    const { gain, from } = scaleGain(scaleOf({ checks: [check(0.5, 0.0002, [0.495, 0.495, 0.495])] }))
    expect(from).toBe('checks')
    expect(gain.value).toBeCloseTo(0.5 / 0.495, 12)
    // All three rounded alike: rounding does not average down.
    const rounding = ((0.5 / 0.495) * 0.001) / Math.sqrt(12) / 0.495
    expect(standardUncertainty(gain)).toBeCloseTo(Math.hypot(0.0002 / 0.495, rounding), 9)
    expect(gain.parts[0]!.source).toMatchObject({ shape: 'normal', dof: Infinity })
  })

  it('has few degrees of freedom where scatter of few readings is what it rests on', () => {
    const { gain } = scaleGain(scaleOf({ resolutionKg: 0.0001, checks: [check(0.5, 1e-6, [0.495, 0.499, 0.502])] }))
    expect(gain.parts[0]!.source.shape).toBe('t')
    expect(gain.parts[0]!.source.dof).toBeCloseTo(2, 2)
  })

  it('weighs several checks, and grows where they disagree', () => {
    const agreeing = scaleGain(scaleOf({ checks: [check(0.5, 1e-4, [0.5], 'a'), check(1, 1e-4, [1], 'b')] }))
    const apart = scaleGain(scaleOf({ checks: [check(0.5, 1e-4, [0.49], 'a'), check(1, 1e-4, [1], 'b')] }))
    expect(agreeing.gain.value).toBeCloseTo(1, 12)
    expect(apart.pValue).toBeLessThan(1e-6)
    expect(standardUncertainty(apart.gain)).toBeGreaterThan(5 * standardUncertainty(agreeing.gain))
  })

  it('leaves out a check that showed nothing', () => {
    expect(scaleGain(scaleOf({ checks: [check(0.5, 1e-4, [0, 0])] })).from).toBe('assumed')
  })
})

describe('the mass of a load', () => {
  it('is the mean of its weighings times the gain', () => {
    const chassis = car({ scales: [scaleOf({ checks: [check(1, 0, [0.98])] })], loads: [loadOf('bag', [0.2, 0.202])] })
    expect(massOf(loadMass(chassis, 'bag')).value).toBeCloseTo(0.201 / 0.98, 12)
  })

  it('shares the gain with other loads of the scale, and nothing else', () => {
    const chassis = car({ loads: [loadOf('a', [0.2]), loadOf('b', [0.3])] })
    const [a, b] = ['a', 'b'].map((id) => massOf(loadMass(chassis, id)))
    expect(covariance(a!, b!)).toBeCloseTo(0.2 * 0.3 * 0.005 ** 2, 15)
    const shared = a!.parts.filter(({ source }) => b!.parts.some((each) => each.source.id === source.id))
    expect(shared.map(({ source }) => source.role)).toEqual(['scaleGain'])
  })

  it('pools the scatter of everything weighed twice', () => {
    const chassis = car({ loads: [loadOf('a', [0.2, 0.21]), loadOf('b', [0.3, 0.31]), loadOf('c', [0.4])] })
    const repeats = massOf(loadMass(chassis, 'c')).parts.find(({ source }) => source.id === 'load:c:repeats')!
    expect(repeats.source.dof).toBe(2)
    expect(repeats.contribution).toBeCloseTo(Math.sqrt(5e-5 - 1e-6 / 12), 12)
  })

  it('ignores a weighing that was set aside', () => {
    const load = loadOf('a', [0.2, 0.3])
    const [first, second] = load.weighings
    const aside = { ...load, weighings: [first!, { ...second!, setAside: { at: MADE, why: '' } }] }
    expect(massOf(loadMass(car({ loads: [aside] }), 'a')).value).toBe(0.2)
  })

  it.each([
    ['an unknown load', car(), 'x', 'unknownLoad'],
    ['a load never weighed', car({ loads: [loadOf('x', [])] }), 'x', 'notWeighed'],
    ['a scale that is not in the profile', car({ loads: [loadOf('x', [1], 'lost')] }), 'x', 'unknownScale'],
  ])('refuses %s', (_, chassis, id, trouble) => expect(loadMass(chassis, id)).toEqual({ trouble }))
})

describe('the mean of indications', () => {
  it('keeps the rounding where all read alike, and leaves it to the scatter where they do not', () => {
    expect(shownMean([5, 5, 5], 0.1)).toMatchObject({ mean: 5, uRepeat: 0, uRounding: 0.1 / Math.sqrt(12) })
    expect(shownMean([5, 5.2, 5.1], 0.1)).toMatchObject({ uRounding: 0, dof: 2 })
  })
})
