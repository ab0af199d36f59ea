/**
 * What the drag room makes of coasts and of a line's pull: the drag area CdA of each set-up and the
 * rolling part they share. Drag is positive against the motion: D = 1/2 rho V^2 CdA, CdA in m^2.
 */
import type { Told } from '@core/uncertainty'

/** Speeds over time, or moments at known distances; both on the coast's own clock, SI. */
export type CoastData =
  | { readonly kind: 'speeds'; readonly tS: readonly number[]; readonly vMs: readonly number[] }
  | { readonly kind: 'gates'; readonly tS: readonly number[]; readonly xM: readonly number[] }

/** One coast as the fit takes it. */
export interface CoastInput {
  readonly id: string
  readonly configurationId: string
  /** +1 out, -1 back: wind and slope change sign with it. */
  readonly sense: 1 | -1
  readonly massKg: number
  readonly densityKgM3: number
  readonly data: CoastData
  /** Standard uncertainty of one speed, m/s; null to learn it from the scatter about the curve. */
  readonly uSpeedMs: number | null
  /** Standard uncertainty of one moment, s. */
  readonly uTimeS: number
}

/** What is common to all coasts of one fit. */
export interface CoastSettings {
  readonly gravityMs2: number
  /** Mass that turning parts add, as a share of the car's mass: m_e = m (1 + share). */
  readonly rotatingShare: number
  /** What is known of wind along the course (+ with the way out) and of its slope (+ rising on the way out). */
  readonly windMs: { readonly value: number; readonly u: number }
  readonly slope: { readonly value: number; readonly u: number }
}

/** Values and covariance of the fit; the order of `names` is that of both. */
export interface CoastFit {
  readonly names: readonly CoastParameter[]
  readonly values: readonly number[]
  readonly covariance: readonly (readonly number[])[]
  /** Degrees of freedom of each parameter's standard uncertainty (Satterthwaite). */
  readonly dofs: readonly number[]
  /** Gust: standard deviation of the wind from coast to coast, m/s. */
  readonly gustMs: number
  /** Scatter of one reading about its curve over what was stated; 1 where it was learned. */
  readonly birge: number
  readonly coasts: readonly FittedCoast[]
}

export type CoastParameter =
  | { readonly kind: 'rolling' }
  | { readonly kind: 'wind' }
  | { readonly kind: 'slope' }
  | { readonly kind: 'area'; readonly configurationId: string }

/** One coast after the fit. */
export interface FittedCoast {
  readonly id: string
  readonly startMs: number
  readonly endMs: number
  /** Residuals in m/s (speeds) or s (gates), in the data's order. */
  readonly residuals: readonly number[]
  /** Standard deviation of the residuals. */
  readonly scatter: number
}

/** Drag of one set-up. */
export interface ConfigurationDrag {
  readonly configurationId: string
  readonly coastCount: number
  /** False where the bench tells no load: the tyres' share of it then stands in the drag area. */
  readonly loadKnown: boolean
  readonly cdaM2: Told
  /** What would part rolling and air where they can't be parted; else null. */
  readonly wouldPart: Speeds | null
}

/** From which speed to which a car rolls, m/s. */
export interface Speeds {
  readonly startMs: number
  readonly endMs: number
}
