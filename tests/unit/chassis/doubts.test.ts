/** Weights that can hardly be right are asked about, and usual ones are not. Limits: common practice, no source. */
import { weightDoubts } from '@core/chassis'
import { swappedDigits } from '@core/chassis/swappedDigits'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { car, loadOf, scaleOf } from './car'

const corners = (frontLeft: number, frontRight: number, rearLeft: number, rearRight: number) =>
  ({ frontLeft, frontRight, rearLeft, rearRight })
const USUAL = corners(0.34, 0.345, 0.36, 0.355)
const codes = (of: ReturnType<typeof weightDoubts>): string[] => of.map((each) => each.code)

describe('the corners', () => {
  it('are held against the mass of the car within their uncertainties', () => {
    expect(weightDoubts(car({ cornerMassesKg: USUAL, massKg: { value: 1.4, u: 0.002 } }))).toEqual([])
    // 0.5 % of 1.4 kg is 7 g, shared by the corners; with 2 g of the mass and the steps 2 u is about 15 g.
    expect(weightDoubts(car({ cornerMassesKg: USUAL, massKg: { value: 1.412, u: 0.002 } }))).toEqual([])
    const [sumKg, uKg] = [expect.closeTo(1.4, 9), expect.closeTo(0.0073, 4)]
    expect(weightDoubts(car({ cornerMassesKg: USUAL, massKg: { value: 1.42, u: 0.002 } })))
      .toMatchObject([{ code: 'cornersAgainstMass', massKg: 1.42, sumKg, uKg }])
    const checked = scaleOf({ gainU: 0 })
    expect(codes(weightDoubts(car({ cornerMassesKg: USUAL, massKg: { value: 1.412, u: 0.002 }, scales: [checked] }))))
      .toEqual(['cornersAgainstMass'])
  })

  it('are not added up before all four are read', () => {
    const cornerMassesKg = { ...USUAL, rearRight: 0 }
    expect(weightDoubts(car({ cornerMassesKg, massKg: { value: 1.4, u: 0.002 } }))).toEqual([])
  })

  it('are asked about where one carries more than half the car, or several times the others', () => {
    const slipped = { ...USUAL, rearLeft: 3.6 }
    expect(codes(weightDoubts(car({ cornerMassesKg: slipped, massKg: { value: 1.4, u: 0.002 } }))))
      .toEqual(['cornersAgainstMass', 'cornerBeyondCar'])
    expect(weightDoubts(car({ cornerMassesKg: slipped })))
      .toMatchObject([{ code: 'cornerBeyondOthers', corner: 'rearLeft', othersKg: 0.345 }])
    expect(weightDoubts(car({ cornerMassesKg: USUAL }))).toEqual([])
  })
})

describe('a load', () => {
  it('is asked about where it is heavier than the car, however the car’s mass is known', () => {
    const loads = [loadOf('a', [2.5]), loadOf('b', [0.25])]
    const doubt = [{ code: 'loadBeyondCar', loadId: 'a', loadKg: 2.5 }]
    expect(weightDoubts(car({ loads, massKg: { value: 1.4, u: 0.002 } }))).toMatchObject(doubt)
    expect(weightDoubts(car({ loads, cornerMassesKg: USUAL }))).toMatchObject(doubt)
    expect(weightDoubts(car({ loads: loads.slice(1), massKg: { value: 1.4, u: 0.002 } }))).toEqual([])
  })

  it('is held against the other loads where nothing is known of the car', () => {
    expect(weightDoubts(car({ loads: [loadOf('a', [2.5]), loadOf('b', [0.25]), loadOf('c', [0.3])] })))
      .toMatchObject([{ code: 'loadBeyondOthers', loadId: 'a', othersKg: 0.275 }])
    expect(weightDoubts(car({ loads: [loadOf('a', [2.5]), loadOf('b', [0.25])] }))).toEqual([])
  })
})

describe('weighings of one load', () => {
  it('agree within the steps of the scale and what is usual on it', () => {
    expect(weightDoubts(car({ loads: [loadOf('a', [0.25, 0.251]), loadOf('b', [0.5, 0.503])] }))).toEqual([])
    const rough = [[0.25, 0.256], [0.3, 0.306], [0.4, 0.394], [0.2, 0.208]].map((shown, i) => loadOf(`l${i}`, shown))
    expect(weightDoubts(car({ loads: rough }))).toEqual([])
  })

  it('that disagree are named, with two swapped digits where those explain it', () => {
    const loads = [loadOf('a', [0.251, 0.521]), loadOf('b', [0.3, 0.301]), loadOf('c', [0.4, 0.4])]
    const swappedKg = expect.closeTo(0.251, 12)
    expect(weightDoubts(car({ loads }))).toEqual([
      { code: 'weighingsDisagree', loadId: 'a', weighingId: null, oneKg: 0.521, otherKg: 0.251, swappedKg },
    ])
    expect(weightDoubts(car({ loads: [loadOf('a', [0.251, 0.333])] }))).toMatchObject([{ swappedKg: null }])
  })

  it('name the one that stands apart from two', () => {
    expect(weightDoubts(car({ loads: [loadOf('a', [0.251, 0.521, 0.25])] })))
      .toMatchObject([{ weighingId: 'a-1', oneKg: 0.521, otherKg: 0.251 }])
  })

  it('put aside are no part of it, nor are weighings on different scales', () => {
    const load = loadOf('a', [0.251, 0.521])
    load.weighings[1]!.setAside = { at: load.weighings[1]!.at, why: '' }
    expect(weightDoubts(car({ loads: [load] }))).toEqual([])
    const [one, other] = [loadOf('a', [0.251]), loadOf('a', [0.26], 'other')]
    const both = { ...one, weighings: [...one.weighings, { ...other.weighings[0]!, id: 'x' }] }
    expect(weightDoubts(car({ loads: [both], scales: [scaleOf(), scaleOf({ id: 'other' })] }))).toEqual([])
  })
})

describe('swapped digits', () => {
  const GRAM = { displayKg: 0.001, resolutionKg: 0.001 }

  it('are found for any mass and any two places, and give back what was meant', () => {
    fc.assert(fc.property(fc.integer({ min: 10, max: 99_999 }), fc.nat(4), fc.nat(4), (grams, i, j) => {
      const digits = [...String(grams)]
      fc.pre(i < digits.length && j < digits.length && digits[i] !== digits[j]);
      [digits[i], digits[j]] = [digits[j]!, digits[i]!]
      fc.pre(digits[0] !== '0')
      const found = swappedDigits(Number(digits.join('')) / 1000, { ...GRAM, near: grams / 1000, within: 1e-4 })
      expect(found).toBeCloseTo(grams / 1000, 9)
    }))
  })

  it('are taken in the unit of the display, with its decimals', () => {
    // 8.85 oz typed as 8.58 oz; 1 oz = 0.028349523125 kg (NIST SP 811, B.8).
    const ounceKg = 0.028349523125
    const wish = { near: 8.85 * ounceKg, within: 0.0005, displayKg: ounceKg, resolutionKg: 0.01 * ounceKg }
    expect(swappedDigits(8.58 * ounceKg, wish)).toBeCloseTo(8.85 * ounceKg, 9)
    const tenths = { ...GRAM, resolutionKg: 0.0001, near: 0.0215, within: 0.0002 }
    expect(swappedDigits(0.0251, tenths)).toBeCloseTo(0.0215, 9)
  })
})

it('no usual car with usual loads is asked about', () => {
  const share = fc.double({ min: 0.2, max: 0.3, noNaN: true })
  const slip = fc.double({ min: -0.0014, max: 0.0014, noNaN: true })
  const [four, eight] = [{ minLength: 4, maxLength: 4 }, { minLength: 8, maxLength: 8 }]
  const toGrams = (kg: number): number => Math.round(kg * 1000) / 1000
  fc.assert(fc.property(fc.array(share, four), fc.array(slip, eight), (shares, slips) => {
    const total = shares.reduce((sum, each) => sum + each, 0)
    const [a, b, c, d] = shares.map((each) => toGrams((1.5 * each) / total)) as [number, number, number, number]
    const loads = [0.15, 0.2, 0.3, 0.5].map((kg, i) =>
      loadOf(`l${i}`, [toGrams(kg + slips[i]!), toGrams(kg + slips[i + 4]!)]))
    const cornerMassesKg = corners(a, b, c, d)
    expect(weightDoubts(car({ cornerMassesKg, massKg: { value: 1.5, u: 0.002 }, loads }))).toEqual([])
  }))
})
