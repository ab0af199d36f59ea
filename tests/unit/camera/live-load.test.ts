/** The number on the wall: plain while the tray is free, "at least" as soon as it is down, seen or told by the drop. */
import { readFileSync } from 'node:fs'
import { liveLoads, type WindowHeight } from '@core/camera'
import { analyse } from '@core/analysis'
import { exchange as exchangeSchema, AXLES, type Corner } from '@core/schema'
import { fromData, fromSource, standardUncertainty } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'

const demo = exchangeSchema.parse(
  JSON.parse(readFileSync(new URL('../../../seeds/demo.json', import.meta.url), 'utf8')))
const [squat] = analyse(demo).squats
const curves = { front: curveOf('front'), rear: curveOf('rear') }
const U_MM = 0.02

function curveOf(axle: 'front' | 'rear') {
  const curve = squat!.axles[axle]
  if (curve.refused) throw new Error('the demo has its curves')
  return curve
}

function windowAt(mm: number, name: string): WindowHeight {
  const mean = {
    mean: mm, u: U_MM, effectiveCount: 20, dof: 19, count: 30, slope: 0, slopeU: 0,
  }
  return { heightMm: fromSource(mm, U_MM, fromData('windowScatter', name, 19)), atS: 0, mean, lost: 0 }
}
const both = (mm: number, name: string) => Object.fromEntries(
  (['frontLeft', 'rearLeft'] as Corner[]).map((corner) => [corner, windowAt(mm, `${name}:${corner}`)]))

const loadsAt = (dropMm: number, touched = { front: false, rear: false }) => liveLoads(
  demo.chassis, curves, 'loading', { rest: both(30, 'rest'), now: both(30 - dropMm, 'now') }, { farSideUMm: 0.1, touched })

describe('the load on the wall', () => {
  it('is an interval while the tray is free, its drop as uncertain as both heights and the far side make it', () => {
    const loads = loadsAt(2)
    for (const axle of AXLES) {
      expect(loads[axle].load?.kind).toBe('interval')
      expect(loads[axle].dropMm?.value).toBeCloseTo(2, 9)
      // The near side counts in full with both its heights, the far side has half of 0.1 mm of its own.
      expect(standardUncertainty(loads[axle].dropMm!)).toBeCloseTo(Math.hypot(U_MM, U_MM, 0.05), 3)
    }
  })

  it('is "at least" on both axles as soon as somebody saw either end of the tray down', () => {
    const loads = loadsAt(2, { front: true, rear: false })
    for (const axle of AXLES) expect(loads[axle].load?.kind).toBe('atLeast')
  })

  it('is "at least" by itself where the drop says that the tray is down', () => {
    const loads = loadsAt(1.2 * Math.max(...AXLES.map((axle) => demo.chassis.trayTouchMm[axle]!.value)))
    for (const axle of AXLES) expect(loads[axle].load?.kind).toBe('atLeast')
  })

  it('is none without a curve', () => {
    const loads = liveLoads(demo.chassis, { front: null, rear: curves.rear }, 'loading',
      { rest: both(30, 'rest'), now: both(29, 'now') }, { farSideUMm: 0.1, touched: { front: false, rear: false } })
    expect([loads.front.load, loads.rear.load?.kind]).toEqual([null, 'interval'])
  })
})
