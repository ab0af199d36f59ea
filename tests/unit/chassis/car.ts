/** A plain car for tests. */
import { SCHEMA_VERSION, type Chassis, type Load, type Scale } from '@core/schema'

export const MADE = '2031-01-01T00:00:00.000Z'

export const scaleOf = (changes: Partial<Scale> = {}): Scale =>
  ({ id: 'scale', name: 'Scale', resolutionKg: 0.001, gainU: 0.005, checks: [], ...changes })

export const loadOf = (id: string, shownKg: readonly number[], scaleId = 'scale'): Load => ({
  id, name: id, note: '',
  weighings: shownKg.map((massKg, i) => ({ id: `${id}-${i}`, at: MADE, scaleId, massKg, corrections: [], setAside: null })),
})

export const car = (changes: Partial<Chassis> = {}): Chassis => ({
  schemaVersion: SCHEMA_VERSION, id: 'car', revision: 1, name: 'Car', note: '', createdAt: MADE,
  wheelbaseMm: { value: 260, u: 0.5 }, trackMm: { front: 160, rear: 150 }, massKg: null, cornerMassesKg: null,
  cgHeightMm: null,
  stations: {
    frontLeft: { xMm: 0, yMm: -80 }, frontRight: { xMm: 0, yMm: 80 },
    rearLeft: { xMm: 260, yMm: -75 }, rearRight: { xMm: 260, yMm: 75 },
  },
  trayTouchMm: { front: null, rear: null }, tyres: null, place: { latitudeDeg: 48, heightM: 300 },
  scales: [scaleOf()],
  gauges: [{
    id: 'gauge', name: 'Gauge', reads: 'height', resolutionMm: 0.05, scaleU: 0.005, zeroUMm: 0.05, repeatabilityUMm: 0.04,
  }],
  anemometers: [], loads: [], configurations: [], springs: [], ...changes,
})
