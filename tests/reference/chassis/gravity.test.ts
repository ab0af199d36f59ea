/** Normal gravity against published figures of the WGS 84 ellipsoid. */
import { localGravity, normalGravity } from '@core/chassis'
import { STANDARD_GRAVITY_MS2 } from '@core/units'
import { standardUncertainty } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'

describe('normal gravity', () => {
  it('meets the defining values at equator and pole (NIMA TR8350.2, table 3.4)', () => {
    expect(normalGravity(0, 0)).toBeCloseTo(9.7803253359, 10)
    expect(normalGravity(90, 0)).toBeCloseTo(9.8321849378, 8)
    expect(normalGravity(-90, 0)).toBe(normalGravity(90, 0))
  })

  it('is 9.8062 m/s2 at 45 degrees (GRS 80 gives 9.806199203, Moritz 1980, from memory)', () => {
    expect(normalGravity(45, 0)).toBeCloseTo(9.806199, 5)
  })

  it('falls by 0.3086 mGal for each metre near the ground (free-air gradient, any geodesy text)', () => {
    const perMetre = normalGravity(45, 0) - normalGravity(45, 1)
    expect(perMetre * 1e5).toBeCloseTo(0.3086, 3)
  })

  it('falls less fast higher up, by the inverse square of the distance (Newton)', () => {
    const radius = 6_371_000
    const ratio = normalGravity(45, 8000) / normalGravity(45, 0)
    expect(ratio).toBeCloseTo((radius / (radius + 8000)) ** 2, 4)
  })
})

describe('local gravity', () => {
  it('takes 9.80665 (CGPM 1901) where the place is not told, and says so', () => {
    const { ms2, from } = localGravity(null)
    expect(from).toBe('standard')
    expect(ms2.value).toBe(STANDARD_GRAVITY_MS2)
    // All places at sea level lie within three standard uncertainties: 9.780 to 9.832.
    expect(3 * standardUncertainty(ms2)).toBeGreaterThan(9.8322 - 9.80665)
  })

  it('is known thirty times better where the place is told', () => {
    const told = localGravity({ latitudeDeg: 47.5, heightM: 420 })
    expect(told.from).toBe('place')
    expect(told.ms2.value).toBe(normalGravity(47.5, 420))
    expect(standardUncertainty(told.ms2) * 30).toBeLessThan(standardUncertainty(localGravity(null).ms2) * 1.01)
  })
})
