/**
 * What may honestly be said of a measurand. Every result of the product ends in one of these, and
 * only an `interval` may be printed as a plain number: a censored reading stays censored through
 * every later formula, on the screen, in the headless run and on paper.
 */
import type { Axle } from '@core/schema'
import type { BudgetRow } from './uncertain'

/** Two ends of a coverage interval and its coverage probability. */
export interface CoverageInterval { readonly low: number; readonly high: number; readonly probability: number }

/** Why a result is not a plain interval. */
export type CensorReason =
  | 'touchedGround' | 'beyondCalibratedRange' | 'belowThreshold' | 'withinFriction' | 'rising' | 'tooFewLoads'
  | 'memberCensored' | 'mayTouch' | 'denominatorNearZero' | 'noFixedPoint' | 'missing'

/**
 * Why nothing at all can be told. A sum hands on the reason of its part, so a reason that is about one axle
 * names it.
 */
export type Untold =
  | {
      readonly code:
        | 'noCurve' | 'noTouchDrop' | 'cornersNotRead' | 'noneLifted' | 'mayBePressed' | 'notPressed' | 'notFree'
        | 'tyresOutgrow'
      readonly axle: Axle
    }
  | {
      readonly code:
        | 'noRun' | 'noLoad' | 'nearZero' | 'oneSpeed' | 'noAxleWeights' | 'noMass' | 'noRoom' | 'noHeight'
        | 'springHoldsNone' | 'onGround' | 'oneEnd' | 'notDrivenTwice' | 'singleLap' | 'mayLift' | 'bothBounds' | 'allLift'
        | 'tyreFirst' | 'noBound' | 'divisorNearZero' | 'airAndRolling' | 'notRound' | 'bothLapsBounds' | 'holdsAnySpeed'
        | 'movedTogether' | 'noGrip'
    }
export type UntoldCode = Untold['code']

/** Nothing can be told: as a claim and as a statement alike. */
export interface Nothing { readonly kind: 'untold'; readonly reason: CensorReason; readonly because: Untold }

export const untold = (reason: CensorReason, because: Untold): Nothing => ({ kind: 'untold', reason, because })

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
  | Nothing
