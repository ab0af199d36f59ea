/**
 * What may honestly be said of a measurand. Every result of the product ends in one of these, and
 * only an `interval` may be printed as a plain number: a censored reading stays censored through
 * every later formula, on the screen, in the headless run and on paper.
 */
import type { BudgetRow } from './uncertain'

/** Two ends of a coverage interval and its coverage probability. */
export interface CoverageInterval { readonly low: number; readonly high: number; readonly probability: number }

/** Why a result is not a plain interval. */
export type CensorReason =
  | 'touchedGround' | 'beyondCalibratedRange' | 'belowThreshold' | 'withinFriction' | 'rising'
  | 'memberCensored' | 'denominatorNearZero' | 'noFixedPoint' | 'missing'

export type Statement =
  | {
      readonly kind: 'interval'
      readonly value: number
      readonly u: number
      /** Effective degrees of freedom; Infinity prints as such. */
      readonly dof: number
      /** Probabilistically symmetric interval. */
      readonly interval: CoverageInterval
      /** Shortest interval, from Monte Carlo only. */
      readonly shortest: CoverageInterval | null
      readonly method: 'propagation' | 'monteCarlo' | 'fieller' | 'exact'
      readonly budget: readonly BudgetRow[]
      /** True where the value lies outside the range in which readings support it. */
      readonly extrapolated: boolean
    }
  /** The measurand is above `bound`, one-sided, with the given probability. */
  | { readonly kind: 'atLeast'; readonly bound: number; readonly probability: number; readonly reason: CensorReason }
  | { readonly kind: 'atMost'; readonly bound: number; readonly probability: number; readonly reason: CensorReason }
  /** Between two bounds, each one-sided with the given probability. */
  | { readonly kind: 'between'; readonly low: number; readonly high: number; readonly probability: number; readonly reason: CensorReason }
  | { readonly kind: 'untold'; readonly reason: CensorReason; readonly because: string }
