/**
 * All results of one exchange file: what the screens, the headless run and the report share, so that
 * no two of them can tell different numbers.
 */
import type { ComparisonMatrix, ConfigurationAero, HeightPoint, Prediction, TouchDowns } from '@core/aero'
import type { SessionRuns } from '@core/airflow'
import type { BandPoint, CalibrationResult, NextLoad, Shape, SpringTheory, Verdict } from '@core/calibration'
import type { CornerLevels, CourseResult } from '@core/course'
import type { CoastsRead, LineDrag, LineSetup, Speeds } from '@core/drag'
import type { Remark } from '@core/remark'
import type { Axle, Corner } from '@core/schema'
import type { TrackResult } from '@core/track'
import type { Statement, Told, Uncertain } from '@core/uncertainty'

export interface AnalysisOptions {
  /** Speeds at which loads are predicted, m/s. */
  readonly speedsMs: readonly number[]
  /** Road speed up to which the ride height is drawn, m/s, and for which configurations. */
  readonly heightUpToMs: number
  readonly heightsFor: 'all' | readonly string[]
  /** Corner curves as well as axle curves. */
  readonly corners: boolean
  /** Radius of the corner that the set-ups are compared in, m; null for none. */
  readonly cornerRadiusM: number | null
  /** Laps of the builder's courses: thousands of draws. */
  readonly courses: boolean
}

export const DEFAULT_OPTIONS: AnalysisOptions = {
  speedsMs: [10, 15, 20], heightUpToMs: 30, heightsFor: [], corners: false, cornerRadiusM: null, courses: true,
}

/** A curve as drawn, one line for each branch that was read. */
export interface DrawnCurve {
  readonly shape: Shape
  readonly branch: 'loading' | 'unloading' | 'mid'
  readonly points: readonly BandPoint[]
}

/** One squat test. */
export interface SquatResult {
  readonly sessionId: string
  readonly name: string
  readonly axles: Readonly<Record<Axle, CalibrationResult>>
  readonly corners: Readonly<Record<Corner, CalibrationResult>> | null
  readonly drawn: Readonly<Record<Axle, readonly DrawnCurve[]>>
  readonly theory: Readonly<Record<Axle, readonly SpringTheory[]>>
  readonly verdict: Readonly<Record<Axle, Verdict | null>>
  readonly nextLoad: NextLoad | null
  readonly remarks: readonly Remark[]
}

/** Everything about one configuration. */
export interface ConfigurationResult {
  readonly configurationId: string
  readonly name: string
  readonly aero: ConfigurationAero
  readonly predictions: readonly Prediction[]
  /** Empty unless asked for by `heightsFor`. */
  readonly heights: readonly HeightPoint[]
  readonly touchDowns: TouchDowns
}

/** Drag of a set-up and the load that each newton of it buys, by the newest coasts that tell one, else by the line. */
export interface CostOfSetup {
  readonly configurationId: string
  readonly cdaM2: Told
  /** Load per drag, ClA over CdA; null where one of them is not a value. */
  readonly loadPerDrag: Statement | null
  /** A coast that would part rolling from air where these can't; else null. */
  readonly wouldPart: Speeds | null
}

/** One set-up less another: what the change costs, and the load that each newton of added drag buys. */
export interface CostOfPair {
  readonly configurationA: string
  readonly configurationB: string
  readonly cdaM2: Told
  readonly loadPerDrag: Statement | null
  /** Load per drag of A less that of B; null where one of them is not a value. */
  readonly loadPerDragDifference: Statement | null
}

/** What a course still needs before laps of it can be told. */
export type CourseWanting = 'segments' | 'drag' | 'load' | 'grip' | 'power'

export interface CostResult {
  readonly coasts: readonly CoastsRead[]
  /** What the drag of `setups` and `pairs` comes from; null where nothing tells one. */
  readonly dragFrom: 'coasts' | 'line' | null
  readonly setups: readonly CostOfSetup[]
  readonly pairs: readonly CostOfPair[]
  /** Drag on the bench, of each blower run whose line was read. */
  readonly lines: readonly LineDrag[]
  /** The same of each set-up, its pulls together. */
  readonly lineSetups: readonly LineSetup[]
  /** Levels in the corner asked for; null without one, or where grip or mass is not known. */
  readonly corner: CornerLevels | null
  /** Level that the tyres hold without air load, m/s2, and power at the wheels, W; null where not known. */
  readonly gripMs2: Uncertain | null
  readonly powerW: Uncertain | null
  readonly courses: readonly {
    readonly courseId: string
    readonly name: string
    readonly result: CourseResult | null
    readonly wanting: readonly CourseWanting[]
  }[]
}

/**
 * What stands in the way of the results: a session, or the set-ups of all, that could not be worked out by a
 * fault of ours, or a curve that does not fit. The rest stands.
 */
export type Trouble =
  | {
      readonly part: 'session' | 'setUps'
      /** Null for the set-ups. */
      readonly sessionId: string | null
      readonly name: string
      /** The fault's own text, for a report to the makers; no sentence for the builder. */
      readonly fault: string
    }
  | { readonly part: 'curve'; readonly sessionId: string; readonly name: string; readonly remark: Remark }

export interface Analysis {
  readonly gravityMs2: Uncertain
  readonly gravityFrom: 'place' | 'standard'
  readonly squats: readonly SquatResult[]
  /** Squat test by which each airflow session was read; null where there was none. */
  readonly readBy: Readonly<Record<string, string | null>>
  readonly airflows: readonly SessionRuns[]
  readonly configurations: readonly ConfigurationResult[]
  readonly matrix: ComparisonMatrix | null
  readonly tracks: readonly TrackResult[]
  readonly costs: CostResult
  readonly staticFrontShare: Uncertain | null
  readonly troubles: readonly Trouble[]
}
