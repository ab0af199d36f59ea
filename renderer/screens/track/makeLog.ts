/** A run made from the levels that a log held. */
import type { LogRun, TrackSession } from '@core/schema'
import type { HeldWindow, Taken } from '@core/track'
import { newId } from '../../stores/ids'

export interface LogChoice {
  readonly file: string
  readonly fingerprint: string
  readonly windows: readonly HeldWindow[]
  readonly taken: Taken
  readonly cutoffHz: number
  readonly sustainS: number
  readonly zeroUMs2: number
  readonly manoeuvre: LogRun['manoeuvre']
  readonly configurationId: string
  readonly sensorScaleU: number
  readonly accelerometerId: string | null
  /** Where it was one way alone. */
  readonly turn: NonNullable<LogRun['turn']> | null
  readonly radiusM: LogRun['radiusM'] | null
  readonly coneSpacingM: LogRun['coneSpacingM'] | null
  readonly overM: number
  /** Entered by hand, where the log has no speeds. */
  readonly speedMs: number | null
}

/** Spread of the windows' speeds, or 2 % of a speed that was only entered. */
function speedOf({ windows, speedMs }: LogChoice): LogRun['speedMs'] {
  const speeds = windows.flatMap((each) => (each.speedMs === null ? [] : [Math.abs(each.speedMs)]))
  if (speeds.length === 0) return speedMs === null ? null : { value: speedMs, u: speedMs * 0.02 }
  const mean = speeds.reduce((sum, each) => sum + each, 0) / speeds.length
  const square = speeds.reduce((sum, each) => sum + (each - mean) ** 2, 0)
  return { value: mean, u: speeds.length > 1 ? Math.sqrt(square / (speeds.length - 1) / speeds.length) : mean * 0.02 }
}

/** What belongs to the manoeuvre alone: a circle's radius, a slalom's cones, a launch's metres. */
function courseOf({ manoeuvre, radiusM, coneSpacingM, overM }: LogChoice): Pick<LogRun, 'radiusM' | 'coneSpacingM' | 'overM'> {
  if (manoeuvre === 'circle' && radiusM) return { radiusM }
  if (manoeuvre === 'slalom' && coneSpacingM) return { coneSpacingM }
  return manoeuvre === 'launch' ? { overM } : {}
}

/** The run; its place in the order is after those that are there. */
export function newLogRun(session: TrackSession | undefined, choice: LogChoice): LogRun {
  const oneLine = choice.file.replace(/[\u0000-\u001f\u007f]/g, ' ').trim().slice(0, 200) || 'log.csv'
  return {
    kind: 'log', id: newId('run'), name: oneLine.replace(/\.[^.]{1,5}$/, '') || oneLine, configurationId: choice.configurationId,
    order: Math.max(0, ...(session?.runs ?? []).map((each) => each.order)) + 1, surfaceTemperatureK: null,
    tyreNote: '', note: '', setAside: null, fileName: oneLine, fingerprint: choice.fingerprint, manoeuvre: choice.manoeuvre,
    cutoffHz: choice.cutoffHz, sustainS: choice.sustainS, taken: choice.taken,
    levelsMs2: choice.windows.map(({ levelMs2, uMs2 }) => ({ value: levelMs2, u: uMs2 })),
    levelDofs: choice.windows.map(({ dof }) => Math.min(1e9, Math.max(0.5, dof))),
    levelSigns: choice.windows.map(({ sign }) => sign), zeroUMs2: choice.zeroUMs2, sensorScaleU: choice.sensorScaleU,
    ...(choice.accelerometerId ? { accelerometerId: choice.accelerometerId } : {}),
    ...(choice.turn ? { turn: choice.turn } : {}), ...courseOf(choice), speedMs: speedOf(choice),
  }
}
