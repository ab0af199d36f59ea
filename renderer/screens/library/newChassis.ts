/** A new car with what most builders own, so that the first screen has something to correct. */
import { SCHEMA_VERSION, type Chassis } from '@core/schema'
import { idFromName, newId, now } from '../../stores/ids'

/** What the things are called that a new car begins with, in the builder's language. */
export type FirstNames = Readonly<Record<'scale' | 'gauge' | 'anemometer' | 'configuration', string>>

/** Lengths of a usual 1:10 touring chassis; each is there to be corrected by the builder. */
export function newChassis(name: string, called: FirstNames): Chassis {
  const [wheelbase, front, rear] = [257, 160, 160]
  return {
    schemaVersion: SCHEMA_VERSION, id: idFromName(name), revision: 0, name, note: '', createdAt: now(),
    wheelbaseMm: { value: wheelbase, u: 0.5 }, trackMm: { front, rear }, massKg: null, cornerMassesKg: null,
    cgHeightMm: null,
    stations: {
      frontLeft: { xMm: 0, yMm: -front / 2 }, frontRight: { xMm: 0, yMm: front / 2 },
      rearLeft: { xMm: wheelbase, yMm: -rear / 2 }, rearRight: { xMm: wheelbase, yMm: rear / 2 },
    },
    trayTouchMm: { front: null, rear: null }, tyres: null, place: null,
    scales: [{ id: newId('scale'), name: called.scale, resolutionKg: 0.001, gainU: 0.005, checks: [] }],
    gauges: [{
      id: newId('gauge'), name: called.gauge, reads: 'height', resolutionMm: 0.01, scaleU: 0.002, zeroUMm: 0.05, repeatabilityUMm: null,
    }],
    anemometers: [{ id: newId('anemometer'), name: called.anemometer, resolutionMs: 0.1, factor: { value: 1, u: 0.03 } }],
    loads: [], configurations: [{ id: newId('configuration'), name: called.configuration, note: '', wingAngleDeg: null }], springs: [],
    guesses: ['wheelbase', 'trackFront', 'trackRear', 'gauges', 'scales', 'anemometers'],
  }
}
