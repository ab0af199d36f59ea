/**
 * What the aero room makes of the runs: the coefficient times area (ClA) of each configuration, its
 * balance, what it does at a speed, where the tray touches, and which configuration is better.
 *
 * Downforce is positive: F = 1/2 rho V^2 ClA, ClA in m^2.
 */
import type { Remark } from '@core/remark'
import type { Axle } from '@core/schema'
import type { Statement, Told, Uncertain } from '@core/uncertainty'

/**
 * What a law is about: the device alone (runs less their control run), or the car as it was read
 * (passes, or blower runs without a control). The two differ by what the air does to the bare
 * bodywork and are never averaged.
 */
export type Measure = 'lessControl' | 'asRead'

/** One run's ClA on an axle, or in all, as the fit and the chart take it. */
export interface ClaPoint {
  readonly runId: string
  readonly speedMs: Uncertain
  readonly dynamicPressurePa: Uncertain
  /** Mean drop from the squat test's zero, mm; null where it was not read. */
  readonly dropMm: Uncertain | null
  readonly forceN: Told
  readonly claM2: Told
  /** Weight in the fit; 0 where it took no part (only a bound). */
  readonly weight: number
  /** Difference from the fit over its standard uncertainty; null where it took no part. */
  readonly residual: number | null
}

/** Does the load go with V squared? */
export interface ExponentCheck {
  /** Exponent n of F = c V^n. */
  readonly exponent: Statement
  readonly verdict: 'agrees' | 'above' | 'below' | 'untold'
}

/** ClA near a drop: value at `atDropMm` and its change per mm of further drop. */
export interface HeightLaw {
  readonly atDropMm: number
  readonly claM2: Uncertain
  readonly slopeM2PerMm: Uncertain
  readonly lowMm: number
  readonly highMm: number
}

/** Speed law of one axle, or of both together. */
export interface SpeedLaw {
  readonly claM2: Told
  readonly points: readonly ClaPoint[]
  readonly chiSquare: number
  readonly dof: number
  readonly pValue: number
  /** Factor on the uncertainty where the runs scatter more than they should; else 1. */
  readonly birge: number
  readonly exponent: ExponentCheck
  /** Only where runs at several static heights tell it. */
  readonly height: HeightLaw | null
  /** Speeds that support the law, m/s. */
  readonly lowMs: number
  readonly highMs: number
}

/** Front share of the load, centre of pressure behind the front axle line, and the static share. */
export interface Balance {
  readonly frontShare: Statement
  readonly centreMm: Statement
  readonly staticFrontShare: Statement
  /** Aero front share less static front share. */
  readonly shift: Statement
}

/** The speed laws of one measure. */
export interface Laws {
  readonly measure: Measure
  readonly runIds: readonly string[]
  readonly axles: Readonly<Record<Axle, SpeedLaw>>
  readonly total: SpeedLaw
}

/** Everything known of one configuration from its runs; the device alone where control runs tell it. */
export interface ConfigurationAero extends Laws {
  readonly configurationId: string
  /** Laws of the other measure, where there are runs of both. */
  readonly other: Laws | null
  /**
   * The load that presses the springs: every run as it was read, bodywork and all. Ride height, room
   * under the tray, touch-down and springs go by it, whatever the device's own load is.
   */
  readonly whole: Laws
  readonly balance: Balance
  /** Mean density of its runs, for predictions in the same air. */
  readonly densityKgM3: Uncertain
  readonly remarks: readonly Remark[]
}

/** What a configuration does at a speed. */
export interface Prediction {
  readonly speedMs: number
  readonly densityKgM3: number
  readonly forceN: Readonly<Record<Axle, Statement>>
  readonly totalN: Statement
  /** Total over the car's weight. */
  readonly weightShare: Statement
  /** Drop of each axle line against its hubs from the unloaded zero, mm. */
  readonly dropMm: Readonly<Record<Axle, Statement>>
  /** What is left under the tray at the axle line, mm, where its touching drop is known. */
  readonly clearanceMm: Readonly<Record<Axle, Statement>>
  readonly state: Readonly<Record<Axle, HeightState>>
  readonly extrapolated: boolean
}

/** Where an axle line is at a speed: it floats, it is down, or no height holds it. */
export type HeightState = 'free' | 'touching' | 'unstable' | 'untold'

/** Speed at which an axle's tray end touches, or why none is told. */
export interface TouchDown {
  readonly speedMs: Statement
  /** `never`: it lifts, or touches at no speed; `diverges`: at a speed below touching no height holds. */
  readonly kind: 'touches' | 'diverges' | 'never' | 'untold'
  readonly divergesMs: number | null
}

export interface TouchDowns {
  readonly axles: Readonly<Record<Axle, TouchDown>>
  /** The car's: whichever end comes first, over both ends' uncertainties. */
  readonly firstMs: Statement
  /** Probability that the front end is first; null where it can't be told. */
  readonly frontFirst: number | null
}

/** A point of the ride-height chart. */
export interface HeightPoint {
  readonly speedMs: number
  readonly dropMm: Readonly<Record<Axle, Statement>>
  readonly clearanceMm: Readonly<Record<Axle, Statement>>
  readonly state: Readonly<Record<Axle, HeightState>>
}

/** Axle rate (both wheels) that leaves `clearanceMm` under the tray at `speedMs`. */
export interface NeededRate {
  readonly axle: Axle
  readonly clearanceMm: number
  readonly speedMs: number
  readonly axleRateNPerMm: Statement
  readonly wheelRateNPerMm: Statement
  /** Present mean rate from zero to that load, for comparison. */
  readonly presentRateNPerMm: Statement
  /** The same for each of the axle's two wheels. */
  readonly presentWheelRateNPerMm: Statement
  /** Stiffness needed over the present one at the drop allowed: what every spring's rate is to be multiplied by. */
  readonly timesPresent: Statement
}

/** What a spring of the builder's list would do. */
export interface SpringOutcome {
  readonly springId: string
  readonly axle: Axle
  readonly wheelRateNPerMm: Statement
  readonly clearanceMm: Statement
  readonly touchDownMs: Statement
  /** Clearance is at least the wished one: probability, null where it can't be told. */
  readonly probabilityHolds: number | null
}

/** A probability, or a bound of it where a member is only a bound. */
export interface Probability {
  readonly kind: 'is' | 'atLeast' | 'atMost' | 'untold'
  readonly value: number
}

/** One quantity of configuration A less that of B. */
export interface Difference {
  readonly differenceM2: Told
  /** Probability that A's is larger, given these runs alone. */
  readonly probabilityLarger: Probability
  /** Two-sided p-value of no difference (from a bound: at most this); null where it can't be told. */
  readonly pValue: number | null
}

/** A against B. */
export interface Comparison {
  readonly configurationA: string
  readonly configurationB: string
  /** What both were compared in: as read where either has no control run. */
  readonly measure: Measure
  readonly axles: Readonly<Record<Axle, Difference>>
  readonly total: Difference
  /** Balance shift, A less B. */
  readonly balanceMove: Statement
  /** Difference of total ClA that this bench would find in 8 of 10 cases at 95 %, m^2; null where censored. */
  readonly smallestDetectableM2: number | null
  /** Part of u of the difference that more runs shrink, and part that stays, m^2. */
  readonly shrinksM2: number | null
  readonly staysM2: number | null
}

/** How many times the present runs are needed for a wished detectable difference. */
export type RepeatsNeeded =
  | { readonly kind: 'times'; readonly factor: number }
  /** What stays however often is repeated is too large by itself; the difference it allows at best, m^2. */
  | { readonly kind: 'outOfReach'; readonly leastM2: number }
  | { readonly kind: 'untold' }

/** A row of the ladder. */
export interface RankedRow {
  readonly rank: number
  readonly configurationId: string
  readonly totalClaM2: Told
  readonly frontShare: Statement
  /** Configurations from which it can't be told apart after Holm's correction. */
  readonly tiedWith: readonly string[]
}

export interface MatrixCell {
  readonly comparison: Comparison
  /** p-value of the total after Holm's correction over all pairs; null where it can't be told. */
  readonly holmP: number | null
  readonly distinct: boolean
}

/** All configurations against each other. */
export interface ComparisonMatrix {
  /** What the ladder is by: the device alone, or, where a set-up has no control run, all cars as read. */
  readonly measure: Measure
  readonly ranked: readonly RankedRow[]
  /** Every pair once, A before B in the ranked order. */
  readonly cells: readonly MatrixCell[]
  /** Pairs that entered Holm's correction. */
  readonly pairCount: number
  readonly remarks: readonly Remark[]
}
