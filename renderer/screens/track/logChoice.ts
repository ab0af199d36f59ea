/** What the builder says of a log: how a level is taken from it, and what run it becomes. */
import type { Accelerometer, LogRun } from '@core/schema'
import { calibrateSensor, DEFAULT_REDUCTION, type ReduceOptions } from '@core/track'
import type { Uncertain } from '@core/uncertainty'

type Writable<T> = { -readonly [K in keyof T]: T[K] }

export interface LogChosen {
  reduce: Writable<Omit<ReduceOptions, 'lap' | 'correction'>>
  /** Whole laps need the circle's radius, or the time of a lap. */
  radiusM: { value: number; u: number } | null
  lapS: number | null
  coneSpacingM: { value: number; u: number } | null
  turn: NonNullable<LogRun['turn']> | 'both'
  configurationId: string
  accelerometerId: string
  sensorScaleU: number
  speedMs: number | null
}

export const firstChoice = (): LogChosen => ({
  reduce: { ...DEFAULT_REDUCTION, signal: 'y', rest: null }, radiusM: null, lapS: null, coneSpacingM: null, turn: 'both',
  configurationId: '', accelerometerId: '', sensorScaleU: 0.02, speedMs: null,
})

/** The calibration of a sensor, where its six positions are all read. */
export function calibrationOf(sensor: Accelerometer | undefined, gravityMs2: Uncertain) {
  if (!sensor?.sixPositions) return null
  const found = calibrateSensor(sensor, sensor.sixPositions, gravityMs2)
  return 'missing' in found ? null : found
}

/** What the worker is asked, free of anything that can't be sent to it. */
export function askOf(chosen: LogChosen, correction: ReduceOptions['correction']): ReduceOptions {
  const { rest } = chosen.reduce
  return {
    ...chosen.reduce, rest: rest && { ...rest }, chosen: chosen.reduce.chosen.map((each) => ({ ...each })),
    lap: chosen.lapS ? { timeS: chosen.lapS } : chosen.radiusM ? { radiusM: chosen.radiusM.value } : null,
    coneSpacingM: chosen.coneSpacingM?.value ?? null, correction,
  }
}
