/** How far each step is: a tick only for what the analysis could use. */
import type { Analysis } from '@core/analysis'
import { coastsRead, usedLaps } from '@core/answer'
import type { Chassis, Session } from '@core/schema'
import { weighedLoads, type Missing } from './missing'
import type { StepName } from './stepNames'

export type StepState = 'done' | 'begun' | 'open' | 'optional'

/** What there is to judge by. `result` is null while the first one is worked out: then what was entered is trusted. */
export interface Work {
  readonly car: Chassis | null
  readonly sessions: readonly Session[]
  readonly result: Analysis | null
  readonly curves: { readonly usable: boolean; readonly missing: readonly Missing[] }
  readonly missing: Partial<Record<StepName, readonly Missing[]>>
}

/** Runs of which a load could be told, and the set-ups they are of; of what was entered until there is a result. */
export function readRuns({ result, sessions }: Pick<Work, 'result' | 'sessions'>): { runs: number; setUps: number } {
  const read = result
    ? result.airflows.flatMap(({ runs }) => runs)
      .filter(({ control, totalN }) => !control && totalN.statement.kind !== 'untold')
    : sessions.flatMap((each) => (each.kind === 'airflow' ? each.runs : []))
      .filter(({ control, readings }) => !control && readings.length > 0)
  return { runs: read.length, setUps: new Set(read.map(({ configurationId }) => configurationId)).size }
}

export function statesOf({ car, sessions, result, curves, missing }: Work): Record<StepName, StepState> {
  const { usable } = curves
  const of = <K extends Session['kind']>(kind: K) =>
    sessions.filter((each): each is Extract<Session, { kind: K }> => each.kind === kind)
  const begun = (kind: 'airflow' | 'track' | 'coast'): boolean => of(kind).some(({ runs }) => runs.length > 0)
  const { runs, setUps } = readRuns({ result, sessions })
  const readings = [...of('squat'), ...of('airflow').flatMap(({ runs: all }) => all)].flatMap((each) => each.readings)
  const pictured = readings.some(({ from, setAside }) => from.kind === 'picture' && !setAside)
  const wished = (done: boolean, is: boolean): StepState => (done ? 'done' : is ? 'begun' : 'optional')
  return {
    chassis: car && missing.chassis?.length === 0 ? 'done' : 'begun',
    loads: missing.loads?.length === 0 ? 'done' : car && weighedLoads(car) > 0 ? 'begun' : 'open',
    squat: usable ? 'done' : of('squat').length > 0 ? 'begun' : 'open',
    curve: usable ? 'done' : curves.missing.length === 1 ? 'begun' : 'open',
    airflow: runs > 0 ? 'done' : begun('airflow') ? 'begun' : 'open',
    camera: wished(pictured, sessions.some((each) => 'pictures' in each && each.pictures.length > 0)),
    load: usable && runs > 0 ? 'done' : 'open',
    decide: usable && setUps > 1 ? 'done' : 'open',
    track: wished(result !== null && usedLaps(result).laps > 0, begun('track')),
    drag: wished(result !== null && coastsRead(result) > 0, begun('coast')),
    report: usable && runs > 0 ? 'done' : 'open',
  }
}
