/** New track sessions and circle runs. */
import { SCHEMA_VERSION, type Chassis, type CircleRun, type SteadyRun, type TrackSession, type TypedRun } from '@core/schema'
import { planProgress } from '@core/track'
import { newId, now } from '../../stores/ids'

export const newTrack = (chassis: Chassis, name: string): TrackSession => ({
  schemaVersion: SCHEMA_VERSION, id: newId('track'), chassisId: chassis.id, revision: 0, name, note: '', createdAt: now(),
  kind: 'track', tyreLaw: null, runs: [],
})

/** Set-up of the next run: by the plan, else that of the run before it, else the car's first. */
export const nextSetUp = (chassis: Chassis, session: TrackSession | undefined): string =>
  (session?.plan && planProgress(session.plan, session.runs).nextId)
  ?? session?.runs.at(-1)?.configurationId ?? chassis.configurations[0]?.id ?? ''

/** What every new run starts with. */
const headOf = (chassis: Chassis, session: TrackSession, name: string) => {
  const last = session.runs.at(-1)
  return {
    id: newId('run'), name, configurationId: nextSetUp(chassis, session),
    order: Math.max(0, ...session.runs.map((each) => each.order)) + 1,
    surfaceTemperatureK: last?.surfaceTemperatureK ?? null, tyreNote: '', note: '', setAside: null,
  }
}

/** Levels to be typed from a display; what was driven as in the run before it. */
export function newTyped(chassis: Chassis, session: TrackSession, name: string): TypedRun {
  const last = session.runs.findLast((each): each is TypedRun => each.kind === 'typed')
  return {
    ...headOf(chassis, session, name), kind: 'typed', manoeuvre: last?.manoeuvre ?? 'circle', levels: [],
    uShownMs2: last?.uShownMs2 ?? 0.1, sensorScaleU: last?.sensorScaleU ?? 0.02, speedMs: last?.speedMs ?? null,
    ...(last?.radiusM ? { radiusM: last.radiusM } : {}),
    ...(last?.coneSpacingM ? { coneSpacingM: last.coneSpacingM } : {}),
  }
}

/** Steady circles at several speeds, the points still to be typed. */
export const newSteady = (chassis: Chassis, session: TrackSession, name: string): SteadyRun => ({
  ...headOf(chassis, session, name), kind: 'steady', steering: 'held', uRadiusM: 0.03, uTimeS: 0.02, uSteerDeg: 0.5, points: [],
})

/** A circle run; radius and timing as in the run before it. */
export function newCircle(chassis: Chassis, session: TrackSession, name: string): CircleRun {
  const last = session.runs.findLast((each): each is CircleRun => each.kind === 'circle')
  return {
    ...headOf(chassis, session, name), kind: 'circle',
    radiusM: last?.radiusM ?? { value: 5, u: 0.03 }, uTimeS: last?.uTimeS ?? 0.02, lapsS: [],
  }
}
