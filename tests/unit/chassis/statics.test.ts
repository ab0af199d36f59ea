/** One mass and one gravity: the entered mass carries every weight, the corners tell the shares. */
import { describe, expect, it } from 'vitest'
import { staticLoads } from '@core/chassis'
import { standardUncertainty } from '@core/uncertainty'
import { weightOf } from '../../../shared-core/analysis/trackContext'
import { chassis } from '../airflow/bench'

const corners = { frontLeft: 0.3, frontRight: 0.3, rearLeft: 0.45, rearRight: 0.45 }

describe('the car at rest', () => {
  it('weighs what was entered, shared as the corners say', () => {
    const loads = staticLoads(chassis({ massKg: { value: 1.6, u: 0 }, cornerMassesKg: corners }))!
    expect(loads.massKg.value).toBe(1.6)
    // 1.6 kg at 9.80665 m/s2 (CGPM 1901), two fifths of it in front.
    expect(loads.totalN.value).toBeCloseTo(1.6 * 9.80665, 12)
    expect(loads.axles.front.value).toBeCloseTo(0.4 * 1.6 * 9.80665, 12)
    expect(loads.frontShare.value).toBeCloseTo(0.4, 12)
  })

  it('weighs what the corners add up to where no mass was entered', () => {
    expect(staticLoads(chassis({ massKg: null, cornerMassesKg: corners }))!.massKg.value).toBeCloseTo(1.5, 12)
  })

  it('is weighed by the scale that was named, the first one where none was', () => {
    const scales = [{ id: 'kitchen', gainU: 0.02 }, { id: 'fine', gainU: 0.001 }]
      .map((each) => ({ ...each, name: each.id, resolutionKg: 0.001, checks: [] }))
    const share = (cornerScaleId?: string) => {
      const named = cornerScaleId === undefined ? {} : { cornerScaleId }
      const { massKg } = staticLoads(chassis({ massKg: null, cornerMassesKg: corners, scales, ...named }))!
      return standardUncertainty(massKg) / massKg.value
    }
    expect(share('fine')).toBeLessThan(0.0015)
    expect(share('kitchen')).toBeGreaterThan(0.019)
    expect(share()).toBe(share('kitchen'))
    expect(share('sold')).toBe(share('kitchen'))
  })

  it('hands the gravity of its place on, for ballast', () => {
    // Normal gravity on the equator at sea level (WGS 84, NIMA TR8350.2).
    const weight = weightOf(chassis({ cornerMassesKg: corners, place: { latitudeDeg: 0, heightM: 0 } }))!
    expect(weight.gravityMs2).toBeCloseTo(9.7803253359, 9)
    expect(weight.totalN.value).toBeCloseTo(1.5 * 9.7803253359, 9)
  })
})
