/**
 * Coasts drawn by tests/worlds (Runge-Kutta, no formula of the fit) read back, and the worked case of a
 * coast from 15 to 7.7 m/s: a general-purpose least-squares library (scipy 1.17 curve_fit over 300 means
 * of six coasts with 0.1 m/s at 10 Hz) gives u(CdA) = 3.4e-4 m^2 with rolling and air free.
 */
import { describe, expect, it } from 'vitest'
import { fitCoasts, type CoastFit, type CoastInput, type CoastSettings } from '@core/drag'
import { coastDown, momentAt, normals, uniforms, type CoastWorld } from '../../worlds/coast'

const world: CoastWorld = {
  massKg: 1.5, turningKg: 0.075, rollingCoefficient: 0.06118, dragAreaM2: 0.012, liftAreaM2: 0.02, airKgM3: 1.2,
  windMs: 0.8, gustMs: 0, rise: 0.002,
}
const settings: CoastSettings = {
  gravityMs2: 9.80665, rotatingShare: 0.05, windMs: { value: 0, u: 3 }, slope: { value: 0, u: 0.02 },
}
const shown = world.dragAreaM2 + world.rollingCoefficient * world.liftAreaM2

function coasts(kind: 'speeds' | 'gates', noise: number, random = normals(uniforms(7))): CoastInput[] {
  return Array.from({ length: 6 }, (_, i) => {
    const sense = i % 2 === 0 ? 1 as const : -1 as const
    const points = coastDown(world, sense, world.windMs, 15 + 0.3 * (i % 3), kind === 'gates' ? 4 : 7.7)
    const common = {
      id: `coast-${i}`, configurationId: 'plain', sense, massKg: 1.5, densityKgM3: 1.2, uSpeedMs: null,
      uTimeS: kind === 'gates' ? Math.max(noise, 1e-4) : 0,
    }
    if (kind === 'speeds') {
      const kept = points.filter((__, j) => j % 10 === 0)
      return { ...common, data: { kind, tS: kept.map(({ t }) => t), vMs: kept.map(({ v }) => v + noise * random()) } }
    }
    const xM = [0, 12, 26, 42, 60]
    return { ...common, data: { kind, xM, tS: xM.map((x) => momentAt(points, x)! + noise * random()) } }
  })
}

function fitted(inputs: readonly CoastInput[]): CoastFit {
  const outcome = fitCoasts(inputs, settings)
  if ('refused' in outcome) throw new Error(outcome.refused)
  return outcome.fit
}

describe('a fit of coasts', () => {
  it.each([['speeds', 1e-6], ['gates', 0]] as const)('%s without noise: reads back what was driven', (kind, noise) => {
    const { values } = fitted(coasts(kind, noise))
    const tolerance = kind === 'gates' ? 2e-3 : 1e-5
    expect(Math.abs(values[0]! / world.rollingCoefficient - 1)).toBeLessThan(tolerance)
    expect(Math.abs(values[1]! - world.windMs)).toBeLessThan(0.01)
    expect(Math.abs(values[3]! / shown - 1)).toBeLessThan(tolerance)
  })

  it('reads two hundred pulses of a wheel as well as gates, though neighbours are mostly noise', () => {
    const random = normals(uniforms(3))
    const pulses = coasts('gates', 0).map((input, i): CoastInput => {
      const points = coastDown(world, input.sense, world.windMs, 15 + 0.3 * (i % 3), 6)
      const xM = Array.from({ length: 200 }, (_, k) => 0.25 * k)
      return { ...input, uTimeS: 0.002, data: { kind: 'gates', xM, tS: xM.map((x) => momentAt(points, x)! + 0.002 * random()) } }
    })
    const { values, covariance } = fitted(pulses)
    expect(Math.abs(values[3]! - shown)).toBeLessThan(3 * Math.sqrt(covariance[3]![3]!))
    expect(Math.sqrt(covariance[3]![3]!) / shown).toBeLessThan(0.05)
  })

  it('states about 3 % for the drag area in the worked case', () => {
    const { covariance, values } = fitted(coasts('speeds', 0.1))
    expect(Math.sqrt(covariance[3]![3]!)).toBeGreaterThan(2.6e-4)
    expect(Math.sqrt(covariance[3]![3]!)).toBeLessThan(4e-4)
    expect(Math.abs(values[3]! - shown)).toBeLessThan(3 * 3.4e-4)
  })

  it('finds a gust from coast to coast and widens by it', () => {
    const random = normals(uniforms(11))
    const gusty = Array.from({ length: 12 }, (_, i): CoastInput => {
      const sense = i % 2 === 0 ? 1 : -1
      const kept = coastDown(world, sense, world.windMs + 0.5 * random(), 15, 7.7).filter((__, j) => j % 10 === 0)
      return {
        id: `coast-${i}`, configurationId: 'plain', sense, massKg: 1.5, densityKgM3: 1.2, uSpeedMs: null, uTimeS: 0,
        data: { kind: 'speeds', tS: kept.map(({ t }) => t), vMs: kept.map(({ v }) => v + 0.05 * random()) },
      }
    })
    const fit = fitted(gusty)
    expect(fit.gustMs).toBeGreaterThan(0.25)
    expect(fit.gustMs).toBeLessThan(0.9)
    expect(fit.dofs[1]!).toBeLessThan(30)
  })

  it('tells no drag from cars that do not slow down, and from too few readings', () => {
    const [first] = coasts('speeds', 0)
    const steady = { ...first!, data: { kind: 'speeds' as const, tS: [0, 1, 2, 3], vMs: [5, 6, 7, 8] } }
    expect(fitCoasts([steady], settings)).toEqual({ refused: 'notSlowing' })
    const short = { ...first!, data: { kind: 'speeds' as const, tS: [0, 1], vMs: [8, 7] } }
    expect(fitCoasts([short], settings)).toEqual({ refused: 'tooFewReadings' })
  })
})
