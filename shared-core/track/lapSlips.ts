/**
 * Laps that are no lap of this circle: a decimal mark that slipped (61.1 among 6.1), two laps timed as
 * one and a stop between. Grubbs' test does not see them in a run of two or three laps.
 */
import { remark, type Remark } from '@core/remark'
import type { CircleRun, TrackRun } from '@core/schema'
import { median } from '@core/uncertainty'

/** No grip gained or lost makes a lap this many times longer or shorter (common practice, no source). */
const FACTOR = 3

export interface LapSlip {
  readonly lapId: string
  /** Number of the lap in its run, from 1, laps set aside included. */
  readonly lap: number
  readonly timeS: number
  /** Median of the laps it is held against. */
  readonly usualS: number
}

const lapsOf = (run: CircleRun) => run.lapsS.filter(({ setAside }) => setAside === null)

/**
 * Used laps of a circle run that stand apart from its usual lap: the median of the run, and with fewer
 * than three laps of those of the runs it may be compared with as well.
 *
 * @param beside runs on the same circle, with or without the run itself
 */
export function lapSlips(run: CircleRun, beside: readonly TrackRun[]): LapSlip[] {
  const elsewhere = beside.flatMap((each) =>
    (each.kind === 'circle' && each.id !== run.id && !each.setAside ? lapsOf(each).map(({ timeS }) => timeS) : []))
  const own = lapsOf(run).map(({ timeS }) => timeS)
  const known = [...own, ...elsewhere]
  return run.lapsS.flatMap(({ id, timeS, setAside }, index) => {
    const usualS = median(own.length > 2 ? own : known.length > 2 ? known : known.filter((each) => each !== timeS))
    const apart = timeS >= FACTOR * usualS || FACTOR * timeS <= usualS
    return setAside === null && apart ? [{ lapId: id, lap: index + 1, timeS, usualS }] : []
  })
}

/** The slips of a run as remarks, to be corrected or set aside before anything is made of the run. */
export const lapSlipRemarks = (run: TrackRun, beside: readonly TrackRun[]): Remark[] =>
  (run.kind === 'circle' ? lapSlips(run, beside) : []).map(({ lap, timeS, usualS }) =>
    remark('lapSlip', { name: run.name, lap, timeS, usualS }, { kind: 'run', runId: run.id }))
