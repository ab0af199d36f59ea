/**
 * The face of the fit: what goes in and what comes out of the generalised least-squares solver for
 * y = f(x; theta) with errors in both variables and errors shared by many points.
 *
 * The model of observation i (ISO/TS 28037:2010, clauses 7 and 10, widened to any smooth curve):
 *
 *   x_i = xi_i + sum_j onX_ij z_j + ux_i e_i
 *   y_i = f(xi_i; theta) + sum_j onY_ij z_j + uy_i e'_i
 *
 * with e, e' and the factors z independent, mean 0 and variance 1.
 */
/** A curve y = f(x; theta) with analytic derivatives. */
export interface Curve {
  readonly parameterCount: number
  /**
   * Writes f into `out[0]`, df/dx into `out[1]` and df/dtheta_j into `out[2 + j]`.
   * `point` is the index of the observation, for curves that differ by branch.
   */
  evaluate(x: number, theta: Float64Array, out: Float64Array, point: number): void
  /** False where theta would not be a physical curve; the solver never steps there. Default: all finite theta. */
  feasible?(theta: Float64Array): boolean
}

/** An error shared by several points: one unit-variance factor and its effect on each x and y, in their units. */
export interface Factor {
  readonly id: string
  /** Error of x_i per unit of the factor; null where it does not touch x. */
  readonly onX: Float64Array | null
  /** Error of y_i per unit of the factor; null where it does not touch y. */
  readonly onY: Float64Array | null
}

export interface Observations {
  readonly x: Float64Array
  readonly y: Float64Array
  /** Standard uncertainties of the independent errors; 0 is exact, Infinity in `uy` gives the point no weight. */
  readonly ux: Float64Array
  readonly uy: Float64Array
  readonly factors: readonly Factor[]
  /** Non-zero: the point only bounds the curve from below, f(x_i) >= y_i; it costs where the curve is lower. */
  readonly atLeast?: Uint8Array | null
}

/** Knowledge of one parameter from elsewhere. `u` 0 holds it fixed. */
export interface Prior {
  readonly id: string
  readonly parameter: number
  readonly value: number
  readonly u: number
}

export interface FitOptions {
  readonly start: ArrayLike<number>
  readonly priors?: readonly Prior[]
  /** Default 200. */
  readonly maxIterations?: number
  /**
   * Gradient relative to the residual at which the search ends: the estimates then stand to about this
   * share of their standard uncertainties. Default 1e-8; 1e-5 is the loosest that counts as certified.
   */
  readonly offset?: number
}

/** Proof that the fit is at its minimum (all relative, dimensionless). */
export interface Convergence {
  readonly iterations: number
  readonly gradient: number
  readonly step: number
  readonly condition: number
}

/**
 * A fit at its certified minimum. The vector (theta, z) has `theta.length + z.length` entries; all
 * sensitivities are of its estimation error (estimate minus true), by entry, to unit-variance errors.
 */
export interface Fitted {
  readonly fitted: true
  readonly theta: Float64Array
  /** Estimates of the shared factors; near 0 unless the readings themselves tell of them. */
  readonly z: Float64Array
  /** Row-major square matrix: covariance of (theta, z), all sources together. */
  readonly covariance: Float64Array
  /** One per factor, in their order: d(estimate - true)/d(factor), for (theta, z). */
  readonly factorSensitivity: readonly Float64Array[]
  /** One per prior, in their order, per standard uncertainty of the prior. */
  readonly priorSensitivity: readonly Float64Array[]
  /**
   * Unit-variance sources that stand for all independent point errors together. Entry r depends on
   * sources 0..r only, so theta alone needs the first `theta.length`.
   */
  readonly noiseSensitivity: readonly Float64Array[]
  /** What an error of one point does to (theta, z): by its error of x and by that of y, per their units. */
  readonly pointSensitivity: (point: number) => { readonly byX: Float64Array; readonly byY: Float64Array }
  readonly chiSquare: number
  /** Points with weight plus weighted priors, minus free parameters. */
  readonly dof: number
  /** Probability of a chi-square at least this large; NaN where dof is 0. */
  readonly pValue: number
  /** Root of chi-square over dof; 1 where dof is 0. */
  readonly birge: number
  /** Points that took part with weight, bounds not counted. */
  readonly pointCount: number
  /** Latent x at the minimum. */
  readonly xi: Float64Array
  /** Share of each point in its own prediction, 0 to 1. */
  readonly leverage: Float64Array
  /** Residual across the curve over its own standard deviation (leverage taken off); 0 without weight. */
  readonly standardised: Float64Array
  /** Points marked `atLeast` that the curve would fall short of: they do pull on the fit. */
  readonly activeBounds: readonly number[]
  readonly convergence: Convergence
}

export type RefusalCode =
  | 'badInput' | 'tooFewPoints' | 'exactPoint' | 'notIdentifiable' | 'notConverged' | 'atBound' | 'infeasibleStart'

/** Why there is no fit. */
export interface Refusal {
  readonly fitted: false
  readonly code: RefusalCode
  /** Index of the parameter concerned, or -1. */
  readonly parameter: number
}

export type Fit = Fitted | Refusal
