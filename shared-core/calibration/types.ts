/**
 * What the calibration room hands to the rooms above it. A curve gives the drop of an axle line
 * (or a corner) for a force on it: drop = f(force; theta), with the friction branches around it.
 */
import type { Remark } from '@core/remark'
import type { Axle, Corner } from '@core/schema'
import type { Claim, Source, Statement, Uncertain } from '@core/uncertainty'
import type { Convergence, RefusalCode } from './fit/types'
import type { ParameterName, Shape, ShapeSpan } from './shapes/types'

export type { RefusalCode } from './fit/types'
export { PARAMETERS, SHAPES, type ParameterName, type Shape } from './shapes/types'

/** Which side of the friction band a reading lies on: `mid` after a settle routine. */
export type Branch = 'loading' | 'unloading' | 'mid'

/** What a curve is for: an axle line, or one corner. */
export type CurveOf = { readonly kind: 'axle'; readonly axle: Axle } | { readonly kind: 'corner'; readonly corner: Corner }

/** One fitted parameter. */
export interface CurveParameter { readonly name: ParameterName; readonly estimate: Uncertain }

/** One candidate as fitted, or why it could not be. */
export type Candidate =
  | {
      readonly shape: Shape
      readonly fitted: true
      readonly parameters: readonly CurveParameter[]
      /** Half the gap between the branches, N; estimated or assumed as `frictionFrom` says. */
      readonly frictionN: Uncertain
      readonly frictionFrom: 'branches' | 'assumed' | 'none'
      readonly chiSquare: number
      readonly dof: number
      readonly pValue: number
      /** Root of chi-square over dof; applied to the uncertainties only where it is above 1. */
      readonly birge: number
      readonly aicc: number
      /** Akaike weight among the candidates that were fitted. */
      readonly weight: number
      readonly convergence: Convergence
    }
  | { readonly shape: Shape; readonly fitted: false; readonly code: RefusalCode }

/** A point of the load-drop chart. */
export interface CurvePoint {
  readonly stepId: string
  readonly ramp: number
  readonly branch: Branch
  /** Force at which the current ramp turned, N; null where it started from rest or friction is settled out. */
  readonly turnN: number | null
  readonly forceN: Uncertain
  readonly dropMm: Uncertain
  /** Standardised residual of the chosen candidate; null where the point took no part. */
  readonly residual: number | null
  readonly used: boolean
  /** The tray was seen or found on the ground: the point only bounds the curve from one side. */
  readonly touched: boolean
}

/** How well one corner repeats from step to step. */
export interface Repeatability {
  /**
   * Standard uncertainty of one reading (`given`, `readings`) or of one step's mean (`steps`,
   * `scatter`), mm, rounding apart.
   */
  readonly uMm: number
  readonly dof: number
  /**
   * `given`: from the profile. `steps`: from the same load in several ramps. `readings`: from several
   * readings in one step. `scatter`: from the scatter about the curve. `none`: nothing tells it.
   */
  readonly from: 'given' | 'steps' | 'readings' | 'scatter' | 'none'
  /** Name of the one estimate it comes from, so that all readings that use it share its dof. */
  readonly pool?: string
}

/** A calibrated curve, ready to read forces from drops. */
export interface Calibration {
  readonly refused: false
  readonly of: CurveOf
  readonly sessionId: string
  readonly points: readonly CurvePoint[]
  readonly candidates: readonly Candidate[]
  /** The shape with the highest weight. */
  readonly chosen: Shape
  /** What the shapes are built on. */
  readonly span: ShapeSpan
  /** Largest force and drop that the used points support. */
  readonly rangeN: number
  readonly rangeMm: number
  /** Least force and drop that the used points support: below zero only where a load lifted this axle. */
  readonly leastN: number
  readonly leastMm: number
  /** A settle routine was used: readings and curve lie mid-branch. */
  readonly settled: boolean
  readonly repeatability: Repeatability
  readonly gravityFrom: 'place' | 'standard'
  /**
   * What both axles' points scatter alike, 0 to 1: the same scatter then bends both curves, and which shape is
   * right is an error that they share so far.
   */
  readonly alike: number
  /** Drop at which the tray touches, where the chassis profile or the session tells it. */
  readonly touchMm: Uncertain | null
  readonly remarks: readonly Remark[]
  /** All sources any parameter depends on. */
  readonly sources: readonly Source[]
}

/** Why there is no curve, what is missing, and what was found so far. */
export interface CalibrationRefusal {
  readonly refused: true
  readonly of: CurveOf
  readonly sessionId: string
  readonly code: 'noZero' | 'noReadings' | 'tooFewPoints' | 'noDrop' | 'unknownGauge' | 'noShapeFits'
  readonly points: readonly CurvePoint[]
  readonly candidates: readonly Candidate[]
  readonly remarks: readonly Remark[]
}

/** A drop under airflow to be read as a force. */
export interface DropReading {
  /** Drop of the axle line or corner from the same zero as the squat test's, mm, + is down. */
  readonly dropMm: Uncertain
  readonly branch: Branch
  readonly touched: boolean
}

/** The force read: a linearised value for later formulas (null where censored) and what may be said. */
export interface ForceReading {
  readonly forceN: Uncertain | null
  /** For `atLeast`: the linearised force at the bound, so that later bounds keep their shared terms. */
  readonly boundN: Uncertain | null
  /** What the statement is made from, for sums and differences that must stay honest. */
  readonly claim: Claim
  readonly statement: Statement
}
