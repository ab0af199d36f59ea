/**
 * Where an uncertainty came from. Sources are independent of each other by construction; two
 * quantities that share one (the scale's gain, say) carry the same source id, and that alone makes
 * them correlated. Evaluation types as in JCGM 100:2008 (GUM) 4.2 and 4.3.
 */

/** Budget rows: what a builder would improve to shrink this part. */
export type SourceGroup =
  | 'scaleGain' | 'scaleResolution' | 'load' | 'place' | 'gaugeScale' | 'gaugeZero' | 'gaugeReading' | 'typed'
  | 'repeatability' | 'friction' | 'modelChoice' | 'airDensity' | 'anemometer' | 'airUnevenness'
  | 'timing' | 'distance' | 'chassis' | 'control' | 'picture' | 'tyre' | 'track' | 'spring'

export interface Source {
  /** Unique over the whole analysis, such as `scale:kitchen:gain`. */
  readonly id: string
  readonly group: SourceGroup
  /** `fromData`: by statistics of repeats (type A). `fromKnowledge`: by any other means (type B). */
  readonly evaluation: 'fromData' | 'fromKnowledge'
  /**
   * Shape of the distribution that Monte Carlo draws: of unit variance for `normal` and `rectangular`;
   * for `t` the standard t of `dof`, whose scale is the standard uncertainty (JCGM 101:2008, 6.4.9).
   */
  readonly shape: 'normal' | 'rectangular' | 't'
  /** Degrees of freedom of its standard uncertainty; Infinity where it is taken as known. */
  readonly dof: number
  /**
   * Sources whose size comes from one estimate of one variance (the parameters of a fit whose
   * scatter was estimated, say) name the same pool. They are uncorrelated, yet too large or too
   * small together: one variance in Welch-Satterthwaite, one chi-square in Monte Carlo.
   */
  readonly pool?: string
}
