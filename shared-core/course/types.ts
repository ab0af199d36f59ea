/**
 * What a set-up is worth where it is driven: a lap of the builder's own course, a launch, the top
 * speed. Quasi-steady: at every point the car does the most that grip, power and drag allow.
 */
import type { CensorReason, Statement, Uncertain } from '@core/uncertainty'

/** A piece of a course; corners by the path's radius, whichever way they turn. */
export type Segment =
  | { readonly id: string; readonly kind: 'straight'; readonly lengthM: number }
  | { readonly id: string; readonly kind: 'corner'; readonly radiusM: number; readonly turnDeg: number }

/** One set-up at exactly known values, as one lap of the simulation takes it. SI. */
export interface Car {
  readonly massKg: number
  /** Mass with the turning parts' share, kg. */
  readonly movingMassKg: number
  readonly weightN: number
  /** Level that the tyres hold without any air, m/s2, and how grip falls with load: mu = mu0 (W/W0)^-s. */
  readonly gripMs2: number
  readonly sensitivity: number
  /** Air load per squared speed, N/(m/s)^2; it grows no further than `mostLoadN`, where the tray touches. */
  readonly loadNPerMs2: number
  readonly mostLoadN: number
  /** Resistance A + C V^2, N and N/(m/s)^2. */
  readonly steadyN: number
  readonly squareNPerMs2: number
  /** Power at the wheels, W, and share of the car's load on driven wheels. */
  readonly powerW: number
  readonly drivenShare: number
}

/** Whose uncertainties the draws take; the order of a set-up's inputs to `outcomes`. */
export interface UncertainCar {
  readonly configurationId: string
  readonly massKg: Uncertain
  readonly rotatingShare: Uncertain
  readonly gripMs2: Uncertain
  readonly sensitivity: Uncertain
  /** Lift area of the whole car, m^2, and drag area, m^2, both without rolling. */
  readonly claM2: Uncertain
  readonly cdaM2: Uncertain
  readonly rollingShare: Uncertain
  readonly densityKgM3: Uncertain
  readonly powerW: Uncertain
  readonly drivenShare: number
  /** Load at which the tray is down, N; Infinity where it is not known to touch. */
  readonly mostLoadN: number
  /** Why the air load is only a lower bound, null where it is a value. */
  readonly boundOnly: CensorReason | null
}

/** A set-up on the course. */
export interface CourseOutcome {
  readonly configurationId: string
  readonly lapS: Statement
  /** Time in each segment, s, at the estimates; in the course's order. */
  readonly segmentsS: readonly number[]
  /** Least and largest speed of the lap, m/s, at the estimates. */
  readonly leastMs: number
  readonly mostMs: number
  readonly topSpeedMs: Statement
  readonly launchS: Statement
  /** True where the lap goes faster than the tray allows: its load is only a lower bound there. */
  readonly pastTouchDown: boolean
}

/** One set-up less another. */
export interface CourseDifference {
  readonly configurationA: string
  readonly configurationB: string
  /** Lap of A less lap of B, s; below zero where A is quicker. */
  readonly lapS: Statement
  /** Probability that A is quicker; null where a lap is only a bound. */
  readonly probabilityQuicker: number | null
  readonly topSpeedMs: Statement
  readonly launchS: Statement
  /** A less B in each segment, s, at the estimates. */
  readonly segmentsS: readonly number[]
  /** Power at which both laps take as long, W; null where no power in reach does that. */
  readonly breakEvenW: number | null
}

export interface CourseResult {
  readonly courseId: string
  readonly name: string
  readonly lengthM: number
  readonly outcomes: readonly CourseOutcome[]
  readonly differences: readonly CourseDifference[]
}
