/** A step of the path is done by what was entered and what came of it, not by what came along. */
import type { Analysis } from '@core/analysis'
import type { Chassis } from '@core/schema'
import { describe, expect, it } from 'vitest'
import { curvesOf, missingInChassis, missingInLoads } from '@renderer/paths/missing'
import { addGuess, isGuess, settle } from '@renderer/screens/chassis/guesses'
import { newChassis } from '@renderer/screens/library/newChassis'
import { sampleChassis } from '../../harness/sample'

const fresh = (): Chassis =>
  newChassis('New', { scale: 'Scale', gauge: 'Gauge', anemometer: 'Anemometer', configuration: 'As it stands' })
const keys = (car: Chassis): string[] => missingInChassis(car).map((each) => each.key)

const settled = { working: false, wholeSquat: true }

describe('the car', () => {
  it('is not described by what a new one comes with', () => {
    expect(missingInChassis(fresh())).toEqual([
      { key: 'lengths', count: 1, at: 'lengths' }, { key: 'masses', count: 1, at: 'masses' },
      { key: 'trayTouch', count: 1, at: 'tray' }, { key: 'instruments', count: 1, at: 'instruments' },
    ])
  })

  it('is described once guesses are confirmed, a mass is there, and the tray is known or said not to be', () => {
    const car = fresh()
    settle(car, ['wheelbase', 'trackFront'])
    expect(keys(car)).toContain('lengths')
    settle(car, ['trackRear', 'gauges', 'scales'])
    expect(keys(car)).toEqual(['masses', 'trayTouch'])
    car.cornerMassesKg = { frontLeft: 0.3, frontRight: 0.3, rearLeft: 0.35, rearRight: 0 }
    expect(keys(car)).toContain('masses')
    car.cornerMassesKg.rearRight = 0.35
    expect(keys(car)).toEqual(['trayTouch'])
    expect(keys({ ...car, notKnown: ['trayTouch'] })).toEqual([])
    expect(keys({ ...car, trayTouchMm: { front: { value: 5, u: 0.1 }, rear: { value: 6, u: 0.1 } } })).toEqual([])
    expect(keys({ ...car, cornerMassesKg: null, massKg: { value: 1.4, u: 0.002 } })).toEqual(['trayTouch'])
  })

  it('from before there were guesses has none, and an instrument added later brings its own', () => {
    const car = { ...sampleChassis('old') }
    expect(keys(car)).not.toContain('lengths')
    expect(isGuess(car, 'gauges')).toBe(false)
    addGuess(car, 'gauges')
    expect(keys(car)).toContain('instruments')
  })
})

it('loads count by weighings that were not put aside', () => {
  const car = fresh()
  expect(missingInLoads(car)).toEqual([{ key: 'loads', count: 2 }])
})

describe('the curves', () => {
  const curve = (refused: boolean) => ({ refused, remarks: [] })
  const squat = (front: boolean, rear: boolean) => ({ axles: { front: curve(front), rear: curve(rear) } })
  const analysis = (...squats: ReturnType<typeof squat>[]): Analysis => ({ squats }) as unknown as Analysis

  it('are usable only where one test gave both axles', () => {
    expect(curvesOf(analysis(squat(false, false)), settled).usable).toBe(true)
    expect(curvesOf(analysis(squat(true, false), squat(false, true)), settled)).toEqual({
      usable: false, missing: [{ key: 'curveRear', count: 1 }],
    })
    expect(curvesOf(analysis(squat(false, false), squat(true, true)), settled).usable).toBe(true)
  })

  it('miss both before anything was worked out', () => {
    for (const at of [settled, { working: true, wholeSquat: false }]) {
      expect(curvesOf(null, at).missing.map((each) => each.key)).toEqual(['curveFront', 'curveRear'])
    }
    expect(curvesOf(null, { working: true, wholeSquat: true })).toEqual({ usable: true, missing: [] })
  })
})
