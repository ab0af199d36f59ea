/** A whole airflow session: every run, each with its control run taken off. */
import type { AirflowSession, Chassis } from '@core/schema'
import { lessControl } from './control'
import { readRun } from './run'
import type { AxleCurves, Datum, RunResult, SessionRuns, UnreadRun } from './types'

export interface SessionOptions {
  /** Where the squat test behind the curves was read; null (default) takes it as read like the runs. */
  readonly squatDatum?: Datum | null
}

/**
 * Reads all runs of a session that are not set aside.
 *
 * @param curves the axles' calibrations; an axle without one gets no load, and its runs say so
 */
export function readSession(
  session: AirflowSession, chassis: Chassis, curves: AxleCurves, { squatDatum = null }: SessionOptions = {},
): SessionRuns {
  const runs: RunResult[] = []
  const unread: UnreadRun[] = []
  for (const run of session.runs) {
    if (run.setAside !== null) continue
    const read = readRun(run, { session, chassis, curves, squatDatum })
    if ('axles' in read) runs.push(read)
    else unread.push(read)
  }
  return { sessionId: session.id, runs: runs.map((run) => lessControl(run, runs)), unread }
}
