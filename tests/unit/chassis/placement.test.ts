/** Loads on axles and corners by the lever, and how their uncertainties go through it. */
import { coordinate, localGravity, normalGravity, placedForces } from '@core/chassis'
import { covariance, exact, fromSource, known, plus, standardUncertainty, type Source } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { car } from './car'

const source = (id: string): Source =>
  known('scaleGain', id)

describe('one load off the middle', () => {
  const mass = fromSource(0.5, 0.002, source('scale:gain'))
  const load = { massKg: mass, xMm: coordinate(65, 2, 'x'), yMm: coordinate(40, 1, 'y') }
  const { axles, corners } = placedForces(car(), exact(9.81), [load])
  const weightN = 0.5 * 9.81

  it('splits by the levers of x over the wheelbase and of y over the track', () => {
    expect(axles.front.value).toBeCloseTo(weightN * 0.75, 12)
    expect(axles.rear.value).toBeCloseTo(weightN * 0.25, 12)
    expect(corners.frontLeft.value).toBeCloseTo(weightN * 0.75 * (0.5 - 40 / 160), 12)
    expect(corners.frontRight.value).toBeCloseTo(weightN * 0.75 * (0.5 + 40 / 160), 12)
    expect(corners.rearLeft.value).toBeCloseTo(weightN * 0.25 * (0.5 - 40 / 150), 12)
    expect(corners.rearRight.value).toBeCloseTo(weightN * 0.25 * (0.5 + 40 / 150), 12)
  })

  it('carries mass, place and wheelbase, each with its own sign', () => {
    const part = (id: string) => axles.rear.parts.find((each) => each.source.id === id)?.contribution
    expect(part('scale:gain')).toBeCloseTo(0.25 * 9.81 * 0.002, 12)
    expect(part('x')).toBeCloseTo((weightN / 260) * 2, 12)
    expect(part('chassis:wheelbase')).toBeCloseTo(-weightN * (65 / 260 ** 2) * 0.5, 12)
    const front = (id: string) => axles.front.parts.find((each) => each.source.id === id)?.contribution
    expect(front('x')).toBeCloseTo(-(weightN / 260) * 2, 12)
    expect(front('chassis:wheelbase')).toBeCloseTo(weightN * (65 / 260 ** 2) * 0.5, 12)
  })

  it('what the place takes from one end it gives to the other: the sum knows nothing of it', () => {
    const whole = plus(axles.front, axles.rear)
    expect(standardUncertainty(whole)).toBeCloseTo(0.002 * 9.81, 12)
    const left = corners.frontLeft.parts.find((each) => each.source.id === 'y')?.contribution ?? 0
    expect(left).toBeCloseTo(-weightN * 0.75 / 160, 12)
    expect(covariance(corners.frontLeft, corners.frontRight)).toBeLessThan(
      standardUncertainty(corners.frontLeft) * standardUncertainty(corners.frontRight),
    )
  })

  it('no load presses with nothing', () => {
    expect(placedForces(car(), exact(9.81), [])).toMatchObject({ axles: { front: exact(0), rear: exact(0) } })
  })
})

describe('gravity', () => {
  it('has one source, shared by all that is weighed', () => {
    const { ms2 } = localGravity({ latitudeDeg: 48, heightM: 300 })
    expect(ms2.parts).toMatchObject([{
      contribution: 5e-4, source: { id: 'gravity', group: 'chassis', evaluation: 'fromKnowledge', dof: Infinity },
    }])
    // A rectangular spread from equator to pole: half its width over the root of three.
    expect(standardUncertainty(localGravity(null).ms2)).toBeCloseTo(0.0263 / Math.sqrt(3), 12)
  })

  // Somigliana's formula with its second-order height term (NIMA TR8350.2, eq. 4-3), evaluated a second time in Python.
  it('falls by the second-order term high up', () => {
    expect(normalGravity(45, 9000)).toBeCloseTo(9.7784864044866, 11)
  })
})
