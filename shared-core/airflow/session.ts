/** A whole airflow session: every run, each with its control run taken off. */
import { settlingOf } from '@core/calibration'
import { remark } from '@core/remark'
import type { AirflowSession, Chassis } from '@core/schema'
import { lessControl } from './control'
import { readRun, runScatter } from './run'
import { pooledScatter } from './scatter'
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
  const used = session.runs.filter(({ setAside }) => setAside === null)
  const context = { session, chassis, curves, squatDatum, settling: settlingOf(curves) }
  const first = used.map((run) => readRun(run, context)).filter(isRead)
  const scatter = pooledScatter(first.flatMap(runScatter))
  const read = used.map((run) => readRun(run, { ...context, scatter }))
  const runs = read.filter(isRead)
  const unread = read.filter((each): each is UnreadRun => !isRead(each))
  if (scatter.factor > 1) {
    const said = remark('sessionScatters', { factor: scatter.factor })
    runs.forEach((run, i) => { runs[i] = { ...run, remarks: [...run.remarks, said] } })
  }
  const whole = new Set(chassis.configurations.flatMap(({ id, wholeCar }) => (wholeCar ? [id] : [])))
  return {
    sessionId: session.id, unread,
    runs: runs.map((run) => (whole.has(run.configurationId) ? run : lessControl(run, runs))),
  }
}

const isRead = (run: RunResult | UnreadRun): run is RunResult => 'axles' in run
