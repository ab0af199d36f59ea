/** New sessions of coasts, their runs, and a course. */
import {
  SCHEMA_VERSION, type Air, type Chassis, type CoastRun, type CoastSession, type Course, type Drive,
} from '@core/schema'
import { newId, now } from '../../stores/ids'
import { USUAL_PULSE_TIME_U } from './speedLog'

/** What is taken for the air until it is entered: 20 °C by a rough thermometer, pressure by a height near the sea. */
const USUAL_AIR: Air = {
  temperatureK: { value: 293.15, u: 1 }, pressurePa: null, heightM: { value: 150, u: 100 },
  relativeHumidity: { value: 0.5, u: 0.1 },
}
const GATES = 5
/** Gates of a first run stand this far apart, mm. */
const GATE_STEP_MM = 10_000

/** A session; its air as in the newest session that holds one. */
export const newCoasts = (chassis: Chassis, air: Air | undefined, name: string): CoastSession => ({
  schemaVersion: SCHEMA_VERSION, id: newId('coasts'), chassisId: chassis.id, revision: 0, name, note: '', createdAt: now(),
  kind: 'coast', air: air ?? USUAL_AIR, rotatingShare: { value: 0.05, u: 0.02 }, windMs: { value: 0, u: 2 },
  slope: { value: 0, u: 0.01 }, speedScaleU: 0.02, runs: [],
})

type Kept = Pick<CoastRun, 'configurationId' | 'drivetrain' | 'ballastKg'>

const kept = (chassis: Chassis, last: CoastRun | undefined): Kept => ({
  configurationId: last?.configurationId ?? chassis.configurations[0]!.id, drivetrain: last?.drivetrain ?? 'pinionOut',
  ballastKg: last?.ballastKg ?? 0,
})

const turned = (last: CoastRun | undefined): 'out' | 'back' => (last?.direction === 'out' ? 'back' : 'out')

/** A coast timed at gates: set-up, gates and timing as in the run before, the way turned round. */
export function newGateCoast(chassis: Chassis, session: CoastSession, name: string): CoastRun {
  const last = session.runs.at(-1)
  const before = session.runs.findLast(({ data }) => data.kind === 'gates')?.data
  const gates = before?.kind === 'gates' ? before.gates
    : Array.from({ length: GATES }, (_, i) => ({ distanceMm: { value: i * GATE_STEP_MM, u: 20 } }))
  return {
    id: newId('coast'), name, ...kept(chassis, last), purpose: 'coast', direction: turned(last), note: '', setAside: null,
    data: {
      kind: 'gates', uTimeS: before?.uTimeS ?? 0.005,
      gates: gates.map(({ distanceMm }) => ({ id: newId('gate'), distanceMm, timeS: 0 })),
    },
  }
}

/** A run with what it holds; set-up and drivetrain as in the run before, the way turned round. */
export function newRun(
  chassis: Chassis, session: CoastSession, name: string, purpose: CoastRun['purpose'], data: CoastRun['data'],
): CoastRun {
  const last = session.runs.at(-1)
  return { id: newId('coast'), name, ...kept(chassis, last), purpose, direction: turned(last), note: '', setAside: null, data }
}

/** A scale wheel's way from one turn to the next, as the newest pulses have it, else a usual one. */
export const perPulseOf = (session: CoastSession | undefined): { value: number; u: number } => {
  const before = session?.runs.findLast(({ data }) => data.kind === 'pulses')?.data
  return before?.kind === 'pulses' ? before.perPulseMm : { value: 200, u: 2 }
}

/** A coast whose pulses are typed or pasted. */
export const newPulseCoast = (chassis: Chassis, session: CoastSession, name: string): CoastRun =>
  newRun(chassis, session, name, 'coast', {
    kind: 'pulses', fileName: TYPED, fingerprint: '', perPulseMm: perPulseOf(session), timesS: [], uTimeS: USUAL_PULSE_TIME_U,
  })

/** Stands for the file's name where moments came from none. */
export const TYPED = '-'

export const newCourse = (name: string): Course => ({
  id: newId('course'), name, note: '', launchM: 10,
  segments: [
    { id: newId('segment'), kind: 'straight', lengthM: 30 }, { id: newId('segment'), kind: 'corner', radiusM: 6, turnDeg: 180 },
    { id: newId('segment'), kind: 'straight', lengthM: 30 }, { id: newId('segment'), kind: 'corner', radiusM: 6, turnDeg: 180 },
  ],
})

export const UNKNOWN_DRIVE: Drive = { powerW: null, drivenShare: 1, gripMs2: null }
