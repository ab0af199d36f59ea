import { describe, expect, it } from 'vitest'
import { speedStretches } from '@core/drag'
import { coastDown, normals, uniforms, type CoastWorld } from '../../worlds/coast'

const world: CoastWorld = {
  massKg: 1.5, turningKg: 0.075, rollingCoefficient: 0.05, dragAreaM2: 0.012, liftAreaM2: 0, airKgM3: 1.2,
  windMs: 0, gustMs: 0, rise: 0,
}

/** A log of ten readings a second: standing, speeding up, coasting, braking, standing. */
function log(noise: number): { tS: number[]; vMs: number[] } {
  const random = normals(uniforms(5))
  const coast = coastDown(world, 1, 0, 15, 8).filter((_, i) => i % 10 === 0).map(({ v }) => v)
  const speeds = [
    ...Array.from({ length: 20 }, () => 0), ...Array.from({ length: 30 }, (_, i) => 0.5 * (i + 1)), ...coast,
    ...Array.from({ length: 12 }, (_, i) => Math.max(0, 8 - 0.7 * (i + 1))), ...Array.from({ length: 20 }, () => 0),
  ]
  return { tS: speeds.map((_, i) => i / 10), vMs: speeds.map((v) => v + (v > 0 ? noise * random() : 0)) }
}

describe('stretches of a speed log', () => {
  it.each([0, 0.1])('finds the one coast, and not the braking after it, with a noise of %s m/s', (noise) => {
    const { tS, vMs } = log(noise)
    const found = speedStretches(tS, vMs, 'coast')
    expect(found).toHaveLength(1)
    expect(found[0]!.fromS).toBeGreaterThan(4.5)
    expect(found[0]!.startMs).toBeGreaterThan(13.5)
    expect(found[0]!.endMs).toBeGreaterThan(7.5)
    expect(found[0]!.endMs).toBeLessThan(9.5)
  })

  it('finds the run at full throttle', () => {
    const { tS, vMs } = log(0)
    const [run] = speedStretches(tS, vMs, 'fullThrottle')
    expect(run!.startMs).toBeLessThan(1.5)
    expect(run!.endMs).toBeGreaterThan(13)
  })

  it('finds none in a log at rest or without readings', () => {
    expect(speedStretches([0, 1, 2, 3], [0, 0, 0, 0], 'coast')).toEqual([])
    expect(speedStretches([], [], 'coast')).toEqual([])
  })
})
