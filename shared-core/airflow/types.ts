/**
 * What the airflow room makes of a run: the air's density, the dynamic pressure, the drop of each
 * axle line, the load read from it, and the load left after the control run.
 */
import type { Branch, Calibration, DropReading, ForceReading, Remark } from '@core/calibration/types'
import type { AirRun, Axle } from '@core/schema'
import type { Told, Uncertain } from '@core/uncertainty'

/** A calibrated axle and the way to read it; injected so that each room stays testable alone. */
export interface AxleCurve {
  readonly calibration: Calibration
  readonly readForce: (reading: DropReading) => ForceReading
}

/** Null where an axle has no curve yet. */
export type AxleCurves = Readonly<Record<Axle, AxleCurve | null>>

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
  readonly pointCount: number
  readonly remarks: readonly Remark[]
}

/** One state with air (blower) or one pass (drive-by), against the zero interpolated to its moment. */
export interface StateDrop {
  readonly stateId: string
  readonly atS: number
  readonly dropMm: Readonly<Record<Axle, Uncertain>>
  readonly rollDeg: number | null
  readonly touched: Readonly<Record<Axle, boolean>>
  /** Road speed of a pass. */
  readonly speedMs: Uncertain | null
  readonly direction: 'out' | 'back' | null
  readonly accelerationMs2: Uncertain | null
}

/** The load on one axle in one run. */
export interface AxleLoad {
  readonly axle: Axle
  /** Mean drop from this run's own zero, mm, + is down, after tyre corrections. */
  readonly dropMm: Uncertain
  /** Drop that counts from the squat test's zero: set-up difference added. */
  readonly totalDropMm: Uncertain
  /** Movement of the zero over the run, last off state less first, mm; null with one off state. */
  readonly driftMm: Uncertain | null
  readonly branch: Branch
  /** The tray touched somewhere, at either end: this axle's reading is only a bound. */
  readonly touched: boolean
  /** Load taken off for acceleration (drive-by with a third gate), N. */
  readonly pitchN: Uncertain | null
  /** Drop added or taken off for the tyre, mm. */
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
  readonly datum: AirRun['datum']
  readonly staticDropMm: Readonly<Record<Axle, number>>
  readonly air: AirResult
  readonly flow: FlowResult
  readonly states: readonly StateDrop[]
  readonly axles: Readonly<Record<Axle, AxleLoad>>
  readonly grossTotalN: Told
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
