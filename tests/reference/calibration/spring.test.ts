/**
 * A helical spring by two routes: the handbook formula, and Castigliano's theorem on the wire itself
 * (torsion energy of a round bar, any strength-of-materials text), integrated numerically.
 */
import { springTheory } from '@core/calibration'
import type { Spring } from '@core/schema'
import { describe, expect, it } from 'vitest'

const spring: Spring = {
  id: 'case', name: 'Worked case', axle: 'front', fitted: true, wireMm: { value: 1.5, u: 0 },
  meanCoilMm: { value: 12, u: 0 }, activeCoils: { value: 6, u: 0 }, shearModulusPa: { value: 79.3e9, u: 0 },
  rateNPerMm: null, motionRatio: { value: 0.7, u: 0 },
}

/** Deflection of a force along the axis: the wire is a bar in torsion by force x coil radius. m, N, Pa. */
function deflection(forceN: number, wireM: number, coilM: number, coils: number, modulusPa: number): number {
  const polar = (Math.PI * wireM ** 4) / 32
  const torque = (forceN * coilM) / 2
  const pieces = 6000
  const length = (Math.PI * coilM * coils) / pieces
  let energyByForce = 0
  // dU/dF with U the integral of torque^2/(2 G J) along the wire.
  for (let i = 0; i < pieces; i++) energyByForce += (torque * (coilM / 2) * length) / (modulusPa * polar)
  return energyByForce
}

describe('a spring', () => {
  const theory = springTheory(spring)!

  it('has the rate that the energy of its wire gives', () => {
    const rate = 10 / (deflection(10, 1.5e-3, 12e-3, 6, 79.3e9) * 1000)
    expect(theory.springRateNPerMm.value).toBeCloseTo(rate, 9)
  })

  it('has the rate of the worked case by hand: 79 300 x 1.5^4 / (8 x 12^3 x 6) = 4.840 N/mm', () => {
    expect(theory.springRateNPerMm.value).toBeCloseTo(4.84, 3)
    // Wheel rate by the square of the motion ratio, twice for the axle.
    expect(theory.wheelRateNPerMm.value).toBeCloseTo(4.84 * 0.49, 3)
    expect(theory.axleRateNPerMm.value).toBeCloseTo(2 * 4.84 * 0.49, 3)
  })

  it('keeps the work: a wheel travel moves the spring by its share, force times travel is equal', () => {
    const wheelMm = 2
    const springMm = wheelMm * 0.7
    const springWork = 0.5 * theory.springRateNPerMm.value * springMm ** 2
    expect(0.5 * theory.wheelRateNPerMm.value * wheelMm ** 2).toBeCloseTo(springWork, 12)
  })
})
