/** Runs that show what the tyres can take; steady circles below the limit show balance, nothing of grip. */
import type { SteadyRun, TrackRun } from '@core/schema'

export type GripRun = Exclude<TrackRun, SteadyRun>

export const isGrip = (run: TrackRun): run is GripRun => run.kind !== 'steady'
