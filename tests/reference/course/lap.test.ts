/**
 * Laps, launches and top speeds against hand calculations and a general-purpose library (scipy 1.17:
 * quad, brentq, solve_ivp; numpy 2.4: roots), which integrate over speed where the lap steps along the
 * path. Method: quasi-steady lap with a point mass (Brayshaw and Harrison 2005).
 */
import { describe, expect, it } from 'vitest'
import { powerFrom, type Segment } from '@core/course'
import { cornerSpeed, gripAt, lapTime, launchTime, pathOf, segmentTimes, topSpeed, workFor } from '@core/course/lap'
import type { Car } from '@core/course/types'

const car: Car = {
  massKg: 1.62, movingMassKg: 1.62 * 1.05, weightN: 1.62 * 9.80665, gripMs2: 8.4, sensitivity: 0, loadNPerMs2: 0,
  mostLoadN: Infinity, steadyN: 0.83, squareNPerMs2: (1.19 * 0.0131) / 2, powerW: 70, drivenShare: 1,
}
const oval: Segment[] = [
  { id: 's1', kind: 'straight', lengthM: 38 }, { id: 'c1', kind: 'corner', radiusM: 6.5, turnDeg: 180 },
  { id: 's2', kind: 'straight', lengthM: 38 }, { id: 'c2', kind: 'corner', radiusM: 6.5, turnDeg: 180 },
]

function drive(of: Car, stepM?: number): { lap: number; most: number; segments: number[] } {
  const path = pathOf(oval, stepM)!
  const work = workFor(path)
  const lap = lapTime(of, path, work)
  return { lap, most: Math.max(...work.speed), segments: segmentTimes(path, work) }
}

describe('a lap of two straights and two corners', () => {
  it('by hand: constant grip, no resistance, power without end', () => {
    const free = { ...car, movingMassKg: car.massKg, steadyN: 1e-9, squareNPerMs2: 1e-12, powerW: 1e9 }
    // v_c = sqrt(a R); half a straight up and half down at a: v_p^2 = v_c^2 + a L.
    const corner = Math.sqrt(8.4 * 6.5)
    const peak = Math.sqrt(corner ** 2 + 8.4 * 38)
    const byHand = 2 * ((Math.PI * 6.5) / corner + (2 * (peak - corner)) / 8.4)
    expect(byHand).toBeCloseTo(11.215059795484347, 12)
    expect(drive(free, 0.02).lap).toBeCloseTo(byHand, 3)
    expect(Math.abs(drive(free).lap / byHand - 1)).toBeLessThan(2e-3)
  })

  it('with power, drag and rolling: as integrated over speed', () => {
    const fine = drive(car, 0.05)
    expect(fine.lap).toBeCloseTo(12.277524201817624, 2)
    expect(fine.most).toBeCloseTo(14.198196767688408, 1)
    expect(Math.abs(drive(car).lap / 12.277524201817624 - 1)).toBeLessThan(3e-3)
    const { lap, segments } = drive(car)
    expect(segments.reduce((sum, each) => sum + each, 0)).toBeCloseTo(lap, 9)
    expect(segments[0]).toBeCloseTo(segments[2]!, 2)
  })

  it('tells the same difference at its own step as at a fine one', () => {
    const draggy = { ...car, squareNPerMs2: 1.3 * car.squareNPerMs2, loadNPerMs2: 0.012 }
    const coarse = drive(draggy).lap - drive(car).lap
    const fine = drive(draggy, 0.05).lap - drive(car, 0.05).lap
    expect(Math.abs(coarse - fine)).toBeLessThan(0.02 * Math.abs(fine) + 0.003)
  })
})

describe('corner, top speed and launch', () => {
  it('corner speed where load and grip meet, as by a root finder', () => {
    const pressed = { ...car, loadNPerMs2: 0.018, sensitivity: 0.2 }
    const speed = cornerSpeed(pressed, 1 / 6.5, 30)
    expect(speed).toBeCloseTo(7.577855641318233, 6)
    expect(gripAt(pressed, speed)).toBeCloseTo(speed ** 2 / 6.5, 5)
  })

  it('a load that grows no further past touch-down', () => {
    const held = { ...car, loadNPerMs2: 0.018, mostLoadN: 2 }
    expect(gripAt(held, 30)).toBeCloseTo(8.4 * (1 + 2 / car.weightN), 12)
  })

  it('top speed is the real root of the cubic', () => {
    expect(topSpeed({ ...car, powerW: 95 })).toBeCloseTo(21.4733637, 6)
  })

  it('launch over 9 m from rest, as integrated over time', () => {
    expect(launchTime(car, 9)).toBeCloseTo(1.63019548, 3)
  })

  it('power from a run at full throttle', () => {
    // scipy solve_ivp of (P/v - A - C v^2)/m_e at 70 W from 6 m/s, every 0.2 s.
    const vMs = [
      6.0, 7.117009, 8.051309, 8.861036, 9.577912, 10.221586, 10.805296, 11.338507, 11.828298, 12.280159, 12.698466,
      13.08679, 13.448106, 13.784929, 14.099418, 14.393448, 14.668663, 14.926519, 15.168312, 15.39521, 15.608264,
    ]
    const found = powerFrom(vMs.map((_, i) => i * 0.2), vMs, car)!
    expect(found.powerW).toBeCloseTo(70, 1)
    expect(found.uW).toBeLessThan(0.05)
  })
})
