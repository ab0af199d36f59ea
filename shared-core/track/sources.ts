/** Where a track level's uncertainty comes from. Ids are unique over the whole analysis. */
import type { Source, SourceGroup } from '@core/uncertainty'

/** The circle's radius: one tape, one cone, every lap of the session on it. */
export const radiusSource = (sessionId: string, radiusM: number): Source =>
  knowledge(`track:${sessionId}:radius:${radiusM}`, 'distance')

/** The accelerometer's scale, shared by all logs of the session. */
export const sensorScaleSource = (sessionId: string): Source => knowledge(`track:${sessionId}:sensorScale`, 'track')

/** The stopwatch, where it scatters more than the laps. */
export const timingSource = (runId: string): Source => knowledge(`track:run:${runId}:timing`, 'timing')

/** Scatter of a run's repeats about their mean. */
export const scatterSource = (runId: string, dof: number): Source => data(`track:run:${runId}:scatter`, 'repeatability', dof)

/** One log window's mean, from the window's own noise. */
export const windowSource = (runId: string, index: number, dof: number): Source =>
  data(`track:run:${runId}:window:${index}`, 'repeatability', dof)

/** Scatter from run to run beyond the laps' own: one estimate for the whole group. */
export const runScatterSource = (runId: string, pool: string, dof: number): Source =>
  ({ ...data(`track:run:${runId}:runScatter`, 'track', dof), pool })

function knowledge(id: string, group: SourceGroup): Source {
  return { id, group, evaluation: 'fromKnowledge', shape: 'normal', dof: Infinity }
}

function data(id: string, group: SourceGroup, dof: number): Source {
  return { id, group, evaluation: 'fromData', shape: Number.isFinite(dof) ? 't' : 'normal', dof }
}
