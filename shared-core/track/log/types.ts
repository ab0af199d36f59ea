/**
 * An acceleration log: how its text is laid out, which columns mean what, and what was read from it.
 * Accelerations in m/s2, times in s, speeds in m/s.
 */

/** How the text is cut into fields. Rows are counted from 1, blank ones included, as an editor shows them. */
export interface LogLayout {
  readonly delimiter: ',' | ';' | '\t' | '|' | ' '
  readonly decimal: 'point' | 'comma'
  /** First line with data. */
  readonly firstLine: number
  /** Names of the columns; `column 1` and so on where the file has none. */
  readonly names: readonly string[]
  /** A rate that a comment above the data tells, Hz; null where none does. */
  readonly saidRateHz: number | null
}

export const TIME_UNITS = ['second', 'millisecond', 'microsecond', 'nanosecond', 'clock'] as const
/** `clock`: hours:minutes:seconds, with a date before it or not. */
export type TimeUnit = (typeof TIME_UNITS)[number]

export const ACCELERATION_UNITS = [
  'metrePerSecondSquared', 'standardGravity', 'milliGravity', 'millimetrePerSecondSquared', 'counts',
] as const
/** `counts`: what the converter gives, with so many to a g. */
export type AccelerationUnit = (typeof ACCELERATION_UNITS)[number]

export const SENSOR_AXES = ['x', 'y', 'z'] as const
/** An axis of the sensor, however it lies in the car. */
export type SensorAxis = (typeof SENSOR_AXES)[number]

/** What the columns mean. Columns are counted from 0. */
export interface LogMapping {
  /** A column with times, or a fixed rate where there is none; null until somebody says it. */
  readonly time: { readonly column: number; readonly unit: TimeUnit } | { readonly rateHz: number | null }
  readonly axes: Readonly<Record<SensorAxis, number | null>>
  readonly accelerationUnit: AccelerationUnit
  /** Counts to one g, where the unit is counts; null until somebody says it. */
  readonly countsPerG: number | null
  readonly speed: { readonly column: number; readonly unit: 'metrePerSecond' | 'kilometrePerHour' | 'milePerHour' } | null
  /** A yaw rate, where it is wanted. */
  readonly yaw?: YawColumn
}

export interface YawColumn { readonly column: number; readonly unit: 'radianPerSecond' | 'degreePerSecond' }

/** What of a mapping no name told. */
export const GUESSED = ['timeColumn', 'timeUnit', 'rate', 'axes', 'accelerationUnit', 'countsPerG', 'speedUnit'] as const
/** `bySize`: of the figures; `byOrder`: of the columns; `byComment`: in the file; `byHabit`: by nothing else. */
export interface LogGuess {
  readonly what: (typeof GUESSED)[number]
  readonly by: 'bySize' | 'byOrder' | 'byComment' | 'byHabit'
}

export type BadReason =
  | 'tooFewColumns' | 'emptyField' | 'notANumber' | 'outOfRange' | 'timeUnreadable' | 'timeRepeated' | 'timeBackwards'

/** A row that took no part: where, what stood there, why, and in which column. */
export interface BadRow {
  readonly line: number
  /** The row's text, at most 120 characters. */
  readonly text: string
  readonly why: BadReason
  readonly column: string | null
}

/** Bad rows: all are counted, the first `MOST_LISTED` are listed. */
export interface BadRows {
  readonly total: number
  readonly byReason: Readonly<Partial<Record<BadReason, number>>>
  readonly listed: readonly BadRow[]
}

export const MOST_LISTED = 1000

/** The rows that were read, column by column. */
export interface LogTable {
  readonly count: number
  readonly timeS: Float64Array
  readonly axes: Readonly<Partial<Record<SensorAxis, Float64Array>>>
  readonly speedMs: Float64Array | null
  /** Where the mapping names it. */
  readonly yawRadS?: Float64Array | null
  /** Line in the file of each row. */
  readonly line: Uint32Array
  readonly bad: BadRows
  readonly blankLines: number
  readonly lineCount: number
}

/** A run of samples without a gap, as a range of the regular series. */
export interface Segment { readonly from: number; readonly to: number; readonly startS: number }

export interface Gap { readonly line: number; readonly atS: number; readonly lengthS: number; readonly missing: number }

/** What the time column was like. */
export interface SamplingReport {
  readonly rateHz: number
  /** Standard deviation of the intervals over their median. */
  readonly jitter: number
  readonly gapCount: number
  /** The first `MOST_LISTED` gaps: after which line, from when, how long, how many samples are missing. */
  readonly gaps: readonly Gap[]
  readonly restartCount: number
  /** The first places where the clock started again; the times after them were moved on. */
  readonly restarts: readonly { readonly line: number; readonly backS: number }[]
  /** True where the clock was unsteady: samples were interpolated onto a regular grid. */
  readonly interpolated: boolean
  /** Rows whose times came in bunches (a clock of whole seconds) and were spread evenly; 0 where none did. */
  readonly spread: number
  /** Samples of a steady clock that are missing one or two at a time, filled from their neighbours. */
  readonly filled: number
}

/** Regularly spaced samples. */
export interface RegularLog {
  readonly rateHz: number
  readonly segments: readonly Segment[]
  readonly axes: Readonly<Partial<Record<SensorAxis, Float64Array>>>
  readonly speedMs: Float64Array | null
  readonly report: SamplingReport
  readonly bad: BadRows
}

/** A stretch of time, s from the log's start. */
export interface Stretch { readonly fromS: number; readonly toS: number }

/** What the rest window showed and what was taken out. */
export interface TiltReport {
  /** Mean of each mapped axis at rest, m/s2. */
  readonly rest: Readonly<Partial<Record<SensorAxis, number>>>
  /** Scatter about it, m/s2, root mean square over the axes. */
  readonly noiseMs2: number
  /** Standard uncertainty of the means at rest, m/s2, the largest of the axes. */
  readonly uRestMs2: number
  /** Angle between the sensor and the vertical, degrees; null where fewer than three axes tell it. */
  readonly tiltDeg: number | null
  /** Axis that stands nearest to the vertical. */
  readonly vertical: SensorAxis | null
  /** Length of the rest vector over standard gravity, less 1; null without three axes. */
  readonly gravityError: number | null
  readonly how: 'rotated' | 'meanRemoved' | 'none'
}

/** What puts a sensor's readings right: a = matrix (shown - bias). Rows and columns are x, y, z. */
export interface SensorCorrection {
  readonly matrix: readonly (readonly [number, number, number])[]
  readonly biasMs2: readonly [number, number, number]
}

/** One stretch in which a level was held. */
export interface HeldWindow {
  readonly fromS: number
  readonly toS: number
  readonly sign: 1 | -1
  /** Mean of the unfiltered signal over the window, blows left out, m/s2, above zero in the direction of `sign`. */
  readonly levelMs2: number
  readonly uMs2: number
  readonly dof: number
  /** Least of the filtered signal in the window; it is not the level. */
  readonly heldMs2: number
  /** Largest of the filtered signal in the window; it is not the level. */
  readonly peakMs2: number
  /** Samples that took no part in the mean: blows. */
  readonly leftOut: number
  /** Mean road speed over the window; null without a speed column. */
  readonly speedMs: number | null
}
