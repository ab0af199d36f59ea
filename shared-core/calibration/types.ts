/**
 * What the calibration room hands to the rooms above it. A curve gives the drop of an axle line
 * (or a corner) for a force on it: drop = f(force; theta), with the friction branches around it.
 */
import type { Axle, Corner } from '@core/schema'
import type { Source, Statement, Uncertain } from '@core/uncertainty'

/** Candidate shapes, each monotone: the drop never falls as the force grows. */
export const SHAPES = ['linear', 'threshold', 'progressive', 'cubic', 'stop', 'thresholdStop'] as const
export type Shape = (typeof SHAPES)[number]

/** Which side of the friction band a reading lies on: `mid` after a settle routine. */
export type Branch = 'loading' | 'unloading' | 'mid'

/** What a curve is for: an axle line, or one corner. */
export type CurveOf = { readonly kind: 'axle'; readonly axle: Axle } | { readonly kind: 'corner'; readonly corner: Corner }

/** One fitted parameter, with the unit in its name: `rateNPerMm`, `thresholdN`, `kneeMm` and so on. */
export interface CurveParameter { readonly name: string; readonly estimate: Uncertain }

/** Proof that the fit is at its minimum (all relative, dimensionless). */
export interface Convergence {
  readonly iterations: number
  readonly gradient: number
  readonly step: number
  readonly condition: number
}

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
  | { readonly shape: Shape; readonly fitted: false; readonly why: string }

/** A point of the load-drop chart. */
export interface CurvePoint {
  readonly stepId: string
  readonly branch: Branch
  readonly forceN: Uncertain
  readonly dropMm: Uncertain
  /** Standardised residual of the chosen candidate; null where the point took no part. */
  readonly residual: number | null
  readonly used: boolean
  /** The tray was seen or found on the ground: the point only bounds the curve from one side. */
  readonly touched: boolean
}

/** A remark a builder can act on: what, where, how far off, what to do. Words are keyed for translation. */
export interface Remark {
  readonly code: string
  readonly severity: 'note' | 'warning' | 'stop'
  readonly stepId: string | null
  readonly corner: Corner | null
  /** Values the sentence needs, SI, each key with its unit. */
  readonly values: Readonly<Record<string, number | string>>
}

/** A calibrated curve, ready to read forces from drops. */
export interface Calibration {
  readonly of: CurveOf
  readonly sessionId: string
  readonly points: readonly CurvePoint[]
  readonly candidates: readonly Candidate[]
  /** The shape with the highest weight. */
  readonly chosen: Shape
  /** Largest force and drop that the used points support. */
  readonly rangeN: number
  readonly rangeMm: number
  /** Drop at which the tray touches, where the chassis profile or the session tells it. */
  readonly touchMm: Uncertain | null
  readonly remarks: readonly Remark[]
  /** All sources any parameter depends on. */
  readonly sources: readonly Source[]
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
  readonly statement: Statement
}
