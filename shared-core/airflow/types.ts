/**
 * What the airflow room makes of a run: the air's density, the dynamic pressure, the drop of each
 * axle line, the load read from it, and the load left after the control run.
 */
import type { GroundEffect } from '@core/chassis'
import type { Branch, Calibration } from '@core/calibration'
import type { Remark } from '@core/remark'
import type { AirRun, Axle } from '@core/schema'
import type { Told, Uncertain } from '@core/uncertainty'

/** Null where an axle has no curve yet. */
export type AxleCurves = Readonly<Record<Axle, Calibration | null>>

/** Where readings go, see the schema's `datum`. */
export type Datum = AirRun['datum']

/** The air a run was made in. */
export interface AirResult {
  readonly densityKgM3: Uncertain
  readonly pressurePa: Uncertain
  readonly temperatureK: Uncertain
  readonly relativeHumidity: Uncertain
  readonly remarks: readonly Remark[]
}

/** The stream that the car met. `speedMs` is the root of the mean square, not the mean speed. */
export interface FlowResult {
  readonly meanSquareM2S2: Uncertain
  readonly speedMs: Uncertain
  readonly dynamicPressurePa: Uncertain
  /** Standard deviation of V squared over the traverse by its mean; null with fewer than two points. */
  readonly unevenness: number | null
  /** Points of the traverse, or passes. */
  readonly pointCount: number
}

/** One state with air (blower) or one pass (drive-by), against the zero interpolated to its moment. */
export interface StateDrop {
  readonly stateId: string
  readonly atS: number
  /** Share of the run's mean; adds to 1 over the states. */
  readonly weight: number
  /** Null where the corners read do not tell that axle line. */
  readonly dropMm: Readonly<Record<Axle, Uncertain | null>>
  readonly rollRad: Uncertain | null
  readonly touched: Readonly<Record<Axle, boolean>>
  /** Road speed of a pass. */
  readonly speedMs: Uncertain | null
  readonly direction: 'out' | 'back' | null
  readonly accelerationMs2: Uncertain | null
}

/** The load on one axle in one run. */
export interface AxleLoad {
  readonly axle: Axle
  /** Mean drop from this run's own zero, mm, + is down, after tyre corrections; null where it was not read. */
  readonly dropMm: Uncertain | null
  /** Drop that counts from the squat test's zero: set-up difference added. */
  readonly totalDropMm: Uncertain | null
  /** Movement of the zero over the run, last off state less first, mm; null with one off state. */
  readonly driftMm: Uncertain | null
  readonly branch: Branch
  /** This axle's end of the tray was on the ground, seen there or by its clearance. */
  readonly touched: boolean
  /** What the ground did to this axle's load, from either end. */
  readonly ground: GroundEffect
  /** Load of the acceleration, taken off (drive-by with a third gate), N. */
  readonly pitchN: Uncertain | null
  /** Load of what held the car, taken off (blower), N; zero with a part where it is not known. */
  readonly holdingN: Uncertain | null
  /** Drop added for the tyre, mm. */
  readonly tyreMm: Uncertain | null
  /** Load as read, before the control run. */
  readonly grossN: Told
  /** Load of the control run scaled to this run's dynamic pressure; null without one. */
  readonly controlN: Told | null
  /** Load after the control run: what later rooms use. Positive presses the car down. */
  readonly netN: Told
}

/** A whole run. */
export interface RunResult {
  readonly runId: string
  readonly sessionId: string
  readonly name: string
  readonly configurationId: string
  readonly kind: 'blower' | 'driveBy'
  readonly control: boolean
  /** Blower setting as typed; empty for a drive-by. */
  readonly setting: string
  readonly datum: Datum
  readonly staticDropMm: Readonly<Record<Axle, number>>
  readonly air: AirResult
  /** Null where no speed was entered. */
  readonly flow: FlowResult | null
  readonly states: readonly StateDrop[]
  readonly axles: Readonly<Record<Axle, AxleLoad>>
  readonly grossTotalN: Told
  /** Both axles after the control run. */
  readonly totalN: Told
  /** Control runs whose mean was subtracted. */
  readonly controlRunIds: readonly string[]
  readonly remarks: readonly Remark[]
}

/** A run that could not be read, and why; nothing else is lost by it. */
export interface UnreadRun {
  readonly runId: string
  readonly name: string
  readonly configurationId: string
  readonly remarks: readonly Remark[]
}

/** All runs of a session. Runs set aside do not appear. */
export interface SessionRuns {
  readonly sessionId: string
  readonly runs: readonly RunResult[]
  readonly unread: readonly UnreadRun[]
}
