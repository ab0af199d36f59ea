/** New track sessions and circle runs. */
import { SCHEMA_VERSION, type Chassis, type CircleRun, type TrackSession } from '@core/schema'
import { newId, now } from '../../stores/ids'

export const newTrack = (chassis: Chassis, name: string): TrackSession => ({
  schemaVersion: SCHEMA_VERSION, id: newId('track'), chassisId: chassis.id, revision: 0, name, note: '', createdAt: now(),
  kind: 'track', tyreLaw: null, runs: [],
})

/** A circle run; radius and timing as in the run before it. */
export function newCircle(chassis: Chassis, session: TrackSession, name: string): CircleRun {
  const last = session.runs.findLast((each): each is CircleRun => each.kind === 'circle')
  return {
    kind: 'circle', id: newId('run'), name,
    configurationId: last?.configurationId ?? chassis.configurations[0]!.id,
    order: Math.max(0, ...session.runs.map((each) => each.order)) + 1,
    surfaceTemperatureK: last?.surfaceTemperatureK ?? null,
    tyreNote: '', note: '', setAside: null,
    radiusM: last?.radiusM ?? { value: 5, u: 0.03 }, uTimeS: last?.uTimeS ?? 0.02, lapsS: [],
  }
}
