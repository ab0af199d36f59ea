/** Two squat tests written out by hand, in `session.json`, which `scipy_reading.py` reads as well. */
import type { Chassis, SquatSession } from '@core/schema'
import { SCHEMA_VERSION } from '@core/schema'
import { car, loadOf, MADE } from '../../unit/chassis/car'
import figures from './session.json'

/**
 * Bags, kg as shown; bags on the car at each step after the zero; heights, mm as shown, of both front
 * corners: zero, the nine steps, zero again, on a straight and on a stiffening axle; drops to be read.
 */
export const FIGURES = figures

export function writtenSession(shape: keyof typeof FIGURES.heightsMm): { session: SquatSession; chassis: Chassis } {
  const f = FIGURES
  const chassis = car({
    place: null, wheelbaseMm: { value: f.wheelbaseMm, u: f.wheelbaseU },
    scales: [{ id: 'scale', name: 'Scale', resolutionKg: f.resolutionKg, gainU: f.gainU, checks: [] }],
    loads: f.bagsKg.map((kg, i) => loadOf(`bag-${i + 1}`, [kg])),
    gauges: [{
      id: 'gauge', name: 'Gauge', reads: 'height', resolutionMm: f.resolutionMm, scaleU: f.gaugeScaleU, zeroUMm: 0.1,
      repeatabilityUMm: f.repeatMm,
    }],
  })
  const heaps = [0, ...f.heaps, 0]
  const steps: SquatSession['steps'] = heaps.map((count, i) => ({
    id: `step-${i}`, branch: count === 0 ? 'zero' : i <= 5 ? 'loading' : 'unloading', ramp: 1,
    placed: f.bagsKg.slice(0, count).map((_, bag) =>
      ({ loadId: `bag-${bag + 1}`, xMm: f.xMm, yMm: 0, uPlaceMm: f.placeU })),
    touched: { front: false, rear: false }, note: '', setAside: null,
  }))
  const corners = ['frontLeft', 'frontRight'] as const
  const readings: SquatSession['readings'] = heaps.flatMap((_, i) => corners.map((corner) => ({
    id: `${i}-${corner.toLowerCase()}`, stepId: `step-${i}`, corner, at: MADE,
    shownMm: f.heightsMm[shape][corner === 'frontLeft' ? 'left' : 'right'][i]!, from: { kind: 'gauge' as const }, corrections: [],
    setAside: null,
  })))
  return {
    chassis,
    session: {
      schemaVersion: SCHEMA_VERSION, id: 'written', chassisId: 'car', revision: 1, name: 'Written', note: '',
      createdAt: MADE, kind: 'squat', steps, readings, pictures: [],
      setup: { gaugeId: 'gauge', settle: 'tap', order: 'upDown', assumedFrictionN: null, wished: null },
    },
  }
}
