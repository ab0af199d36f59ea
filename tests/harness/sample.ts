/** Small valid documents for the robustness harness; every reading has its own number, to be found again. */
import type { Chassis, Exchange, Reading, SquatSession } from '@core/schema'
import { CORNERS, EXCHANGE_FORMAT, SCHEMA_VERSION } from '@core/schema'

const AT = '2031-05-04T09:30:00.000Z'
const perCorner = <T>(each: () => T) =>
  ({ frontLeft: each(), frontRight: each(), rearLeft: each(), rearRight: each() })

/** A chassis with one gauge and one load. */
export function sampleChassis(id: string, name = `Test mule ${id}`): Chassis {
  return {
    schemaVersion: SCHEMA_VERSION,
    id,
    revision: 0,
    name,
    note: '',
    createdAt: AT,
    wheelbaseMm: { value: 257, u: 0.5 },
    trackMm: { front: 164, rear: 162 },
    massKg: { value: 1.62, u: 0.005 },
    cornerMassesKg: null,
    cgHeightMm: null,
    stations: perCorner(() => ({ xMm: 40, yMm: 60 })),
    trayTouchMm: { front: null, rear: null },
    tyres: null,
    place: null,
    scales: [],
    gauges: [
      { id: 'caliper', name: 'Caliper', reads: 'height', resolutionMm: 0.01, scaleU: 0, zeroUMm: 0.02, repeatabilityUMm: null },
    ],
    anemometers: [],
    loads: [{ id: 'bag', name: 'Bag of shot', note: '', weighings: [] }],
    configurations: [],
    springs: [],
  }
}

/** Reading number `count` of a session. */
export const sampleReading = (count: number): Reading => ({
  id: `r${count}`,
  stepId: 'zero',
  corner: CORNERS[count % 4] ?? 'frontLeft',
  at: AT,
  shownMm: count / 1000,
  from: { kind: 'gauge' },
  corrections: [],
  setAside: null,
})

/** A squat test that holds the readings of these numbers. */
export function sampleSquat(chassisId: string, id: string, readings: readonly number[], name = `Squat ${id}`): SquatSession {
  return {
    schemaVersion: SCHEMA_VERSION,
    id,
    chassisId,
    revision: 0,
    name,
    note: '',
    createdAt: AT,
    kind: 'squat',
    setup: { gaugeId: 'caliper', settle: 'bounce', order: 'upDown', assumedFrictionN: null, wished: null },
    steps: [
      {
        id: 'zero', branch: 'zero', ramp: 1, placed: [], touched: { front: false, rear: false }, note: '', setAside: null,
      },
    ],
    readings: readings.map(sampleReading),
    pictures: [],
  }
}

/** An exchange file of one chassis with some sessions. */
export function sampleExchange(chassisId: string, sessionCount: number, readingCount = 8): Exchange {
  const numbers = Array.from({ length: readingCount }, (_, index) => index)
  return {
    format: EXCHANGE_FORMAT,
    schemaVersion: SCHEMA_VERSION,
    chassis: { ...sampleChassis(chassisId), revision: 1 },
    sessions: Array.from({ length: sessionCount }, (_, index) => ({
      ...sampleSquat(chassisId, `s${index}`, numbers), revision: 1,
    })),
  }
}
