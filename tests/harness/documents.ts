/** Small whole documents for tests of the library, the host and the bridge. Every name in them is invented. */
import { CORNERS, EXCHANGE_FORMAT, SCHEMA_VERSION } from '@core/schema'
import type { Chassis, Exchange, Reading, SquatSession, SquatStep } from '@core/schema'

const MOMENT = '2031-05-04T09:30:00.000Z'

/** A chassis with one scale, one gauge, one load. */
export function someChassis(id: string, name = `Car ${id}`): Chassis {
  return {
    schemaVersion: SCHEMA_VERSION, id, revision: 0, name, note: '', createdAt: MOMENT,
    wheelbaseMm: { value: 257, u: 0.5 }, trackMm: { front: 160, rear: 160 },
    massKg: { value: 1.4, u: 0.002 }, cornerMassesKg: null, cgHeightMm: null,
    stations: {
      frontLeft: { xMm: 0, yMm: -80 }, frontRight: { xMm: 0, yMm: 80 },
      rearLeft: { xMm: 257, yMm: -80 }, rearRight: { xMm: 257, yMm: 80 },
    },
    trayTouchMm: { front: null, rear: null }, tyres: null, place: null,
    scales: [{ id: 'scale', name: 'Kitchen scale', resolutionKg: 0.001, gainU: 0.005, checks: [] }],
    gauges: [{
      id: 'gauge', name: 'Caliper', reads: 'height', resolutionMm: 0.01, scaleU: 0.002, zeroUMm: 0.05,
      repeatabilityUMm: null,
    }],
    anemometers: [],
    loads: [{
      id: 'bag', name: 'Bag', note: '',
      weighings: [{ id: 'w1', at: MOMENT, scaleId: 'scale', massKg: 0.5, corrections: [], setAside: null }],
    }],
    configurations: [{ id: 'plain', name: 'Plain', note: '', wingAngleDeg: null }],
    springs: [],
  }
}

/** A squat session with so many readings, four to a step. */
export function someSession(chassisId: string, id: string, readingCount = 4, name = `Squat ${id}`): SquatSession {
  const stepCount = Math.max(1, Math.ceil(readingCount / 4))
  const steps: SquatStep[] = Array.from({ length: stepCount }, (_, step) => ({
    id: `s${step}`, branch: step === 0 ? 'zero' : 'loading', ramp: 1,
    placed: step === 0 ? [] : [{ loadId: 'bag', xMm: 128, yMm: 0, uPlaceMm: 1 }],
    touched: { front: false, rear: false }, note: '', setAside: null,
  }))
  return {
    schemaVersion: SCHEMA_VERSION, id, chassisId, revision: 0, name, note: '', createdAt: MOMENT, kind: 'squat',
    setup: { gaugeId: 'gauge', settle: 'none', order: 'upDown', assumedFrictionN: null, wished: null },
    steps,
    readings: Array.from({ length: readingCount }, (_, index) => someReading(index)),
    pictures: [],
  }
}

/** The reading with this place in a session. */
export function someReading(index: number): Reading {
  return {
    id: `r${index}`, stepId: `s${Math.floor(index / 4)}`, corner: CORNERS[index % 4] ?? 'frontLeft', at: MOMENT,
    shownMm: 20 - (index % 50) * 0.1, from: { kind: 'gauge' }, corrections: [], setAside: null,
  }
}

/** A chassis with so many sessions as one exchange file. */
export function someExchange(id: string, sessionCount = 1, readingCount = 8): Exchange {
  return {
    format: EXCHANGE_FORMAT, schemaVersion: SCHEMA_VERSION, chassis: someChassis(id),
    sessions: Array.from({ length: sessionCount }, (_, index) => someSession(id, `q${index}`, readingCount)),
  }
}
