/** The face of fitting all candidate shapes to one set of readings and weighing them. */
import type { Fitted, Refusal } from '../fit/types'
import type { ShapeCurve } from '../shapes/types'
import type { Shape } from '../types'

/** An error shared by several readings; arrays as long as the readings, per unit of the factor. */
export interface LoadDropFactor {
  readonly id: string
  /** Error of each force, N. */
  readonly onForceN: ArrayLike<number> | null
  /** Error of each drop, mm. */
  readonly onDropMm: ArrayLike<number> | null
}

/** Half the gap between the branches: fitted to both branches, given from elsewhere, or none. */
export type FrictionChoice =
  | { readonly kind: 'fit' }
  | { readonly kind: 'given'; readonly valueN: number; readonly uN: number }
  | { readonly kind: 'none' }

/** Readings of one axle line or corner, one entry per step. */
export interface FitData {
  readonly forceN: ArrayLike<number>
  readonly dropMm: ArrayLike<number>
  /** Independent standard uncertainties, 0 or more; Infinity in `uDropMm` gives the reading no weight. */
  readonly uForceN: ArrayLike<number>
  readonly uDropMm: ArrayLike<number>
  /** +1 loading, 0 mid (settled), -1 unloading. */
  readonly branchSign: ArrayLike<number>
  /**
   * Force at which the current ramp turned, N: the top of the ramp for an unloading reading, the
   * bottom for a loading one; NaN where it started from rest. Null: all ramps started from rest.
   * Just after a turn friction holds the suspension still; with the turn known, the fit knows it too.
   */
  readonly turnForceN?: ArrayLike<number> | null
  /** True where the tray touched: the reading only bounds the curve from below. */
  readonly touched: ArrayLike<boolean | number>
  readonly factors: readonly LoadDropFactor[]
  readonly friction: FrictionChoice
}

/** A candidate as fitted. `fit.theta` holds the curve's parameters, then the friction (N) where fitted or given. */
export interface FittedCandidate {
  readonly shape: Shape
  readonly fitted: true
  readonly curve: ShapeCurve
  /** Index of the friction, N, in theta, -1 where there is none. */
  readonly frictionAt: number
  /** Its `priorSensitivity[0]` belongs to a given friction. */
  readonly fit: Fitted
  readonly aicc: number
  /** Akaike weight among the fitted candidates; they add to 1. */
  readonly weight: number
}

export type CandidateFit =
  | FittedCandidate
  | { readonly shape: Shape; readonly fitted: false; readonly refusal: Refusal }
