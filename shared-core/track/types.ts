/**
 * What the track room makes of a track session: the acceleration each run held, what one
 * configuration gained over another, what the bench lets expect, and whether the two agree.
 *
 * Accelerations in m/s2; a gain is relative: 0.05 is five per cent more.
 */
import type { Remark } from '@core/remark'
import type { Axle, Manoeuvre, Measured, TrackRun } from '@core/schema'
import type { Claim, Statement, Told, Uncertain } from '@core/uncertainty'
import type { CornerBalance, GradientChange, UndersteerGradient } from './balance'
import type { CovariateFit, PairedResult } from './plan'

export type { Manoeuvre }

/** One lap, or one sustained window of a log. */
export interface Repeat {
  /** Lap id; for a log `level-1`, `level-2` and so on. */
  readonly id: string
  readonly timeS: number | null
  readonly levelMs2: number
  /** Standard uncertainty of this repeat alone. */
  readonly uMs2: number
  readonly used: boolean
  /** Difference from the run's mean over the scatter; null where it took no part or there is no scatter. */
  readonly residual: number | null
}

/** The acceleration that one run held. */
export interface RunLevel {
  readonly runId: string
  readonly name: string
  readonly configurationId: string
  readonly kind: TrackRun['kind']
  readonly manoeuvre: Manoeuvre
  readonly order: number
  readonly surfaceTemperatureK: number | null
  readonly tyreTemperatureK: Measured | null
  readonly ballastKg: number
  readonly levelMs2: Uncertain
  readonly statement: Statement
  readonly repeats: readonly Repeat[]
  /** Standard deviation of the used repeats; null with fewer than two. */
  readonly scatterMs2: number | null
  /**
   * What the level's own uncertainty rests on: its repeats' scatter, the scatter of the group's other
   * runs, the timing (or the log windows' own u) where that is larger, or nothing (a lone repeat).
   */
  readonly scatterFrom: 'repeats' | 'otherRuns' | 'within' | 'none'
  /** Road speed held; null where it is not known. */
  readonly speedMs: Uncertain | null
  readonly remarks: readonly Remark[]
}

/** Does the level move with the order of the runs (tyres, surface, battery)? */
export interface OrderDrift {
  /** Relative change of the level per run, in the order driven. */
  readonly perRun: Statement
  readonly verdict: 'none' | 'rises' | 'falls' | 'untold'
}

/** Runs that may be compared: same manoeuvre, same circle, same ballast. */
export interface TrackGroup {
  readonly key: string
  readonly manoeuvre: Manoeuvre
  readonly radiusM: number | null
  readonly runs: readonly RunLevel[]
  readonly drift: OrderDrift
  /** Run-to-run scatter beyond the laps' own, m/s2; null where no configuration was repeated. */
  readonly runScatterMs2: number | null
  readonly comparisons: readonly TrackComparison[]
  readonly remarks: readonly Remark[]
}

/** One configuration after another on the track. */
export interface TrackComparison {
  readonly beforeId: string
  readonly afterId: string
  readonly manoeuvre: Manoeuvre
  readonly beforeMs2: Uncertain
  readonly afterMs2: Uncertain
  /** After less before. */
  readonly differenceMs2: Statement
  /** After over before, less 1. The radius they share cancels here. */
  readonly gain: Told
  /** Probability that the level after is higher; null where the scatter is unknown. */
  readonly probabilityHigher: number | null
  /** True where the drift with the order of the runs was taken out. */
  readonly driftRemoved: boolean
  /** Neighbouring runs against each other; null with fewer than two pairs. */
  readonly paired: PairedResult | null
  /** Order and tyre temperature beside the device; null where the temperatures do not tell it. */
  readonly covariates: CovariateFit | null
  /** Mean temperature of the surface after less before, K, where it clearly moved; null else. */
  readonly warmerK: number | null
  /** Null where the bench knows nothing of one of the two. */
  readonly agreement: Agreement | null
  readonly remarks: readonly Remark[]
}

/** How grip falls with load: mu = mu0 (W/W0)^-sensitivity. */
export interface Sensitivity {
  readonly sensitivity: Uncertain
  readonly from: 'entered' | 'fitted' | 'assumed'
  /** Only where fitted: points of the fit, and its misfit. */
  readonly points: readonly { readonly runId: string; readonly loadN: number; readonly levelMs2: number }[]
  readonly chiSquare: number | null
  readonly dof: number | null
  readonly remarks: readonly Remark[]
}

/** What the bench lets expect of the after/before gain. A bench load "at least" makes it "at least". */
export interface ExpectedGain {
  /** With the load in all. */
  readonly total: Told
  /** If that axle alone is the limit. */
  readonly axles: Readonly<Record<Axle, Told>>
  /** Extra load at the speeds driven, N. */
  readonly beforeN: Told
  readonly afterN: Told
  readonly sensitivity: Sensitivity
}

export type AgreementVerdict =
  /** The two agree within their uncertainties. */
  | 'agrees'
  /** The bench only tells a bound, and the track is on the right side of it. */
  | 'compatible'
  | 'trackLower'
  | 'trackHigher'
  | 'untold'

/** Bench against track. */
export interface Agreement {
  readonly expected: ExpectedGain
  /** The load after that the gain seen would need, N, at the speed driven; beside it the bench's, `expected.afterN`. */
  readonly neededN: Told
  /** Bench's load less the load needed, N. */
  readonly loadDifferenceN: Statement
  /** Speed that both are told for, m/s. */
  readonly atSpeedMs: number
  /** Track gain less expected gain. */
  readonly difference: Statement
  /** Difference over its expanded uncertainty (95 %): within -1 to 1 they agree; null where censored. */
  readonly normalisedError: number | null
  readonly verdict: AgreementVerdict
  /** True where the interval is so wide that a gain of nothing would agree as well. */
  readonly weak: boolean
  /** What would explain a disagreement, and what limits an agreement, likeliest first. */
  readonly remarks: readonly Remark[]
}

export interface TrackResult {
  readonly sessionId: string
  readonly groups: readonly TrackGroup[]
  readonly sensitivity: Sensitivity
  /** Understeer gradients, of each run of steady circles that tells one. */
  readonly gradients: readonly UndersteerGradient[]
  /** Each set-up's gradient against those driven before it. */
  readonly gradientChanges: readonly GradientChange[]
  /** What each set-up with a bench load does in the chosen corner; empty where none is chosen. */
  readonly corners: readonly CornerBalance[]
  readonly remarks: readonly Remark[]
}

/** What the track room needs from the bench: the aero load of a configuration at a road speed, N. */
export interface BenchLoads {
  readonly loadAt: (configurationId: string, speedMs: Uncertain) => BenchLoad | null
}

export interface BenchLoad { readonly axles: Readonly<Record<Axle, Claim>>; readonly total: Claim }

/** Weight of the car and of each axle at rest, N. */
export interface CarWeight {
  readonly totalN: Uncertain
  readonly axlesN: Readonly<Record<Axle, Uncertain>> | null
  /** Gravity where the car is, m/s2, for what is put on it. */
  readonly gravityMs2: number
}
