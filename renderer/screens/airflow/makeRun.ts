/** New airflow sessions, runs and states, with what is usual filled in to be corrected. */
import {
  SCHEMA_VERSION, type AirflowSession, type AirRun, type AirState, type BlowerRun, type Chassis, type Corner,
  type Reading,
} from '@core/schema'
import { newId, now } from '../../stores/ids'

export function newAirflow(chassis: Chassis, name: string): AirflowSession {
  return {
    schemaVersion: SCHEMA_VERSION, id: newId('airflow'), chassisId: chassis.id, revision: 0, name, note: '', createdAt: now(),
    kind: 'airflow', squatSessionId: null, runs: [], pictures: [],
  }
}

const NOT_TOUCHED = { front: false, rear: false }

export const newState = (air: 'off' | 'on', atS: number): AirState => ({
  id: newId('state'), air, atS, pass: null, touched: { ...NOT_TOUCHED }, note: '', setAside: null,
})

/**
 * The air to begin with: no barometer was read yet, so the height above the sea stands for one, with the
 * weather's uncertainty; where the car's place is not given, any low country (common practice, no source).
 */
const airAt = (chassis: Chassis): AirRun['air'] => ({
  temperatureK: { value: 293.15, u: 0.5 }, pressurePa: null,
  heightM: chassis.place ? { value: chassis.place.heightM, u: 20 } : { value: 150, u: 150 },
  relativeHumidity: { value: 0.5, u: 0.05 },
})

/**
 * A run takes its air, gauge, set-up and the points of the traverse from the run before it, where there is
 * one. Speeds are not taken over: nobody has measured them for it.
 */
export function newRun(chassis: Chassis, kind: AirRun['kind'], name: string, last: AirRun | undefined): AirRun {
  const head = {
    id: newId('run'), name, configurationId: last?.configurationId ?? chassis.configurations[0]!.id, control: false,
    datum: last?.datum ?? 'hubToChassis' as const, settle: last?.settle ?? 'bounce' as const,
    gaugeId: last?.gaugeId ?? chassis.gauges[0]!.id,
    air: last?.air ?? airAt(chassis),
    staticDropMm: last?.staticDropMm ?? { front: 0, rear: 0 }, readings: [], note: '', setAside: null,
  }
  if (kind === 'driveBy') return { ...head, kind, states: [newState('off', 0)] }
  const traverse = last?.kind === 'blower'
    ? { ...last.traverse, points: last.traverse.points.map((each) => ({ ...each, id: newId('point'), shownMs: [] })) }
    : { anemometerId: chassis.anemometers[0]!.id, points: grid(3, 2) }
  const before = last?.kind === 'blower' ? last : undefined
  return {
    ...head, kind, setting: before?.setting ?? '', jet: before?.jet ?? 'open', traverse, ...heldLike(before),
    states: [newState('off', 0), newState('on', 60), newState('off', 120)],
  }
}

/** Held as the run before; the pull of its line is nobody's reading for this one. */
function heldLike(before: BlowerRun | undefined): Pick<BlowerRun, 'held'> {
  if (!before?.held) return {}
  return { held: before.held.how === 'line' ? { ...before.held, pullN: null } : before.held }
}

/** A traverse of `across` by `up` points, `pitch` mm apart, its middle on the car's centre line. */
export function grid(across: number, up: number, pitch = 40): BlowerRun['traverse']['points'] {
  return Array.from({ length: up }, (_, row) => Array.from({ length: across }, (_each, column) => ({
    id: newId('point'), yMm: (column - (across - 1) / 2) * pitch, zMm: 20 + row * pitch, weight: null, shownMs: [],
  }))).flat()
}

/** A pass before a camera or through two gates, 2 m apart. */
export const newPass = (direction: 'out' | 'back', atS: number): AirState => ({
  ...newState('on', atS),
  pass: {
    direction,
    timing: {
      distanceMm: { value: 2000, u: 2 }, firstS: 0, secondS: 0, thirdS: null, distanceFarMm: null, uTimeS: 0.002,
    },
  },
})

/** The readings that count at a corner of a state. */
export const readingsAt = (run: AirRun, stateId: string, corner: Corner): Reading[] =>
  run.readings.filter((each) => each.stepId === stateId && each.corner === corner && each.setAside === null)
