/** Where a track level's uncertainty comes from. Ids are unique over the whole analysis. */
import { fromData, known, type Source } from '@core/uncertainty'

/** The circle's radius: one tape, one cone, every lap of the session on it. */
export const radiusSource = (sessionId: string, radiusM: number): Source =>
  known('radius', `track:${sessionId}:radius:${radiusM}`)

/** The accelerometer's scale, shared by all logs of one sensor; of the session where none is named. */
export const sensorScaleSource = (owner: string): Source => known('sensorScale', `track:${owner}:sensorScale`)

/** What the sensor of one log shows of nothing: how it leaned, and what it stood on at rest. */
export const zeroSource = (runId: string): Source => known('sensorZero', `track:run:${runId}:zero`)

/** The stopwatch, where it scatters more than the laps. */
export const timingSource = (runId: string): Source => known('lapTiming', `track:run:${runId}:timing`)

/** Scatter of a run's repeats about their mean. */
export const scatterSource = (runId: string, dof: number): Source =>
  fromData('lapScatter', `track:run:${runId}:scatter`, dof)

/** One log window's mean, from the window's own noise. */
export const windowSource = (runId: string, index: number, dof: number): Source =>
  fromData('logWindow', `track:run:${runId}:window:${index}`, dof)

/** Scatter from run to run beyond the laps' own: one estimate for the whole group. */
export const runScatterSource = (runId: string, pool: string, dof: number): Source =>
  fromData('runScatter', `track:run:${runId}:runScatter`, dof, pool)
