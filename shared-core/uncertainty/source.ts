/**
 * Where an uncertainty came from. Sources are independent of each other by construction; two
 * quantities that share one (the scale's gain, say) carry the same source id, and that alone makes
 * them correlated. Evaluation types as in JCGM 100:2008 (GUM) 4.2 and 4.3.
 */

/** Budget rows: what a builder would improve to shrink this part. */
export type SourceGroup =
  | 'scaleGain' | 'scaleResolution' | 'load' | 'place' | 'gaugeScale' | 'gaugeZero' | 'gaugeReading'
  | 'repeatability' | 'friction' | 'modelChoice' | 'airDensity' | 'anemometer' | 'airUnevenness'
  | 'timing' | 'distance' | 'chassis' | 'control' | 'picture' | 'tyre' | 'track' | 'spring'

export interface Source {
  /** Unique over the whole analysis, such as `scale:kitchen:gain`. */
  readonly id: string
  readonly group: SourceGroup
  /** `fromData`: by statistics of repeats (type A). `fromKnowledge`: by any other means (type B). */
  readonly evaluation: 'fromData' | 'fromKnowledge'
  /** Shape of the unit-variance distribution that Monte Carlo draws. `t` uses `dof`. */
  readonly shape: 'normal' | 'rectangular' | 't'
  /** Degrees of freedom of its standard uncertainty; Infinity where it is taken as known. */
  readonly dof: number
}
