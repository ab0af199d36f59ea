/**
 * Steady circles in the manner of ISO 4138, with a worked car: wheelbase 0.26 m, understeer gradient 0.004
 * rad per m/s2 by construction, K = W_f/(g C_f) - W_r/(g C_r) from the tyres' cornering stiffness (T. D. Gillespie,
 * Fundamentals of Vehicle Dynamics, chapter 6).
 */
import { describe, expect, it } from 'vitest'
import { SCHEMA_VERSION, type SteadyRun } from '@core/schema'
import { cornerBalance, understeerGradient, type BenchLoads, type Sensitivity } from '@core/track'
import { exact, valueClaim } from '@core/uncertainty'

const LENGTH_M = 0.26
const CAR = { wheelbaseMm: { value: LENGTH_M * 1000, u: 0 } }
/** Front and rear weight N, cornering stiffness N/rad of each axle: K = 7/(9.80665 x 70) - 8/(9.80665 x 131.71...). */
const [WF, WR, G] = [7, 8, 9.80665]
const CF = 70
const K = 0.004
const CR = WR / G / (WF / G / CF - K)

/** Points of a car with this gradient: logged angle on one radius, or the path that a held angle takes. */
function runOf(steering: SteadyRun['steering'], speeds: readonly number[]): SteadyRun {
  const held = 0.05
  return {
    kind: 'steady', id: 'steady', name: 'steady', configurationId: 'base', order: 1, surfaceTemperatureK: null, tyreNote: '',
    note: '', setAside: null, steering, uRadiusM: 0, uTimeS: 0, uSteerDeg: 0,
    points: speeds.map((speed, i) => {
      const k = WF / G / CF - WR / G / CR
      // held: L/R + K v^2/R = held angle.
      const radiusM = steering === 'logged' ? 5 : (LENGTH_M + k * speed ** 2) / held
      const angle = LENGTH_M / radiusM + (k * speed ** 2) / radiusM
      return {
        id: `p-${i}`, radiusM, lapS: (2 * Math.PI * radiusM) / speed, setAside: null,
        steerDeg: steering === 'logged' ? (angle * 180) / Math.PI : null,
      }
    }),
  }
}

describe('understeer gradient', () => {
  it.each(['logged', 'held'] as const)('steering %s: K of the worked car comes back, understeering', (steering) => {
    const found = understeerGradient(runOf(steering, [2, 2.8, 3.4, 4, 4.6]), CAR)!
    expect(found.value.value).toBeCloseTo(K, 9)
    expect(found.tendency).toBe('understeer')
  })

  it('covers K in 93 to 97 of 100 with a tape good to 20 mm', () => {
    let inside = 0
    let state = 7
    const uniform = () => (state = (state * 48271) % 2147483647) / 2147483647
    const gauss = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
    for (let i = 0; i < 1000; i++) {
      const run = runOf('held', [2, 2.6, 3.2, 3.8, 4.4, 5])
      const read = { ...run, points: run.points.map((each) => ({ ...each, radiusM: each.radiusM + 0.02 * gauss() })) }
      const { statement } = understeerGradient(read, CAR)!
      if (statement.kind === 'interval' && statement.interval.low <= K && K <= statement.interval.high) inside++
    }
    console.log(`understeer gradient covered: ${inside} of 1000`)
    expect(inside).toBeGreaterThanOrEqual(930)
    expect(inside).toBeLessThanOrEqual(970)
  })

  it('tells nothing from two circles, or from one speed', () => {
    expect(understeerGradient(runOf('held', [2, 3]), CAR)).toBeNull()
    expect(understeerGradient(runOf('logged', [3, 3, 3]), CAR)).toBeNull()
    expect(SCHEMA_VERSION).toBe(2)
  })
})

describe('a corner', () => {
  const weight = { gravityMs2: G, totalN: exact(15), axlesN: { front: exact(7), rear: exact(8) } }
  const sensitivity: Sensitivity = {
    sensitivity: exact(0.2), from: 'entered', points: [], chiSquare: null, dof: null, remarks: [],
  }
  const bench = (front: number, rear: number): BenchLoads => ({
    loadAt: () => ({
      axles: { front: valueClaim(exact(front)), rear: valueClaim(exact(rear)) }, total: valueClaim(exact(front + rear)),
    }),
  })

  it('with load on the rear alone understeers: (1 + F_f/W_f)/(1 + F_r/W_r) to the 1 - s (closed form)', () => {
    const found = cornerBalance(bench(0, 4), weight, sensitivity, 'a', { speedMs: 12, radiusM: null }, null)!
    expect(found.tendency).toBe('understeer')
    expect(found.frontOverRear).toMatchObject({ kind: 'interval', value: 1.5 ** -0.8 })
    expect(found.carried.front.kind).toBe('untold')
  })

  it('carries all it needs at the level held itself', () => {
    const held = { levelMs2: exact(9), loadN: valueClaim(exact(3)) }
    const radiusM = 12 ** 2 / 9
    const { carried } = cornerBalance(bench(1.4, 1.6), weight, sensitivity, 'a', { speedMs: 12, radiusM }, held)!
    expect(carried.front).toMatchObject({ value: expect.closeTo(1, 12) as number })
    expect(carried.rear).toMatchObject({ value: expect.closeTo(1, 12) as number })
  })
})
