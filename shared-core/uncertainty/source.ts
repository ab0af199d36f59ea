/**
 * Where an uncertainty came from. Sources are independent of each other by construction; two
 * quantities that share one (the scale's gain, say) carry the same source id, and that alone makes
 * them correlated. What a source is stands in its fields; its id is compared, never read.
 * Evaluation types as in JCGM 100:2008 (GUM) 4.2 and 4.3.
 */

/** Budget rows: what a builder would improve to shrink this part. */
export type SourceGroup =
  | 'scaleGain' | 'scaleResolution' | 'load' | 'place' | 'gaugeScale' | 'gaugeZero' | 'gaugeReading' | 'typed'
  | 'repeatability' | 'friction' | 'modelChoice' | 'airDensity' | 'anemometer' | 'airUnevenness'
  | 'timing' | 'distance' | 'chassis' | 'holding' | 'control' | 'picture' | 'tyre' | 'track' | 'spring'
  | 'coast' | 'power'

/**
 * The least that has to be done anew for the error to be drawn anew: another reading, another run (with
 * all its readings), another session (its zeros, placements, curve), or nothing short of another
 * instrument, car or place.
 */
export type Lifetime = 'reading' | 'run' | 'session' | 'instrument'

/** Every kind of source: its budget row and its lifetime. */
const ROLES = {
  gravity: ['chassis', 'instrument'],
  scaleGain: ['scaleGain', 'instrument'],
  weighing: ['scaleResolution', 'session'],
  weighingRepeats: ['load', 'session'],
  cornerMass: ['scaleResolution', 'instrument'],
  placement: ['place', 'session'],
  chassis: ['chassis', 'instrument'],
  trayTouch: ['chassis', 'instrument'],
  spring: ['spring', 'instrument'],
  tyre: ['tyre', 'instrument'],

  gaugeScale: ['gaugeScale', 'instrument'],
  gaugeZero: ['gaugeZero', 'session'],
  settling: ['repeatability', 'reading'],
  readingRepeats: ['repeatability', 'reading'],
  readingRounding: ['gaugeReading', 'reading'],
  readingPicture: ['picture', 'reading'],
  sharedPicture: ['picture', 'session'],
  wishedReading: ['gaugeReading', 'reading'],
  typedDrop: ['typed', 'reading'],
  assumedFriction: ['friction', 'session'],
  modelChoice: ['modelChoice', 'session'],

  air: ['airDensity', 'session'],
  airFormula: ['airDensity', 'instrument'],
  anemometer: ['anemometer', 'instrument'],
  traverseRounding: ['anemometer', 'run'],
  traverseRepeats: ['repeatability', 'run'],
  unevenness: ['airUnevenness', 'session'],
  wind: ['airUnevenness', 'session'],
  gateTiming: ['timing', 'run'],
  gateDistance: ['distance', 'session'],
  stateScatter: ['repeatability', 'run'],
  line: ['holding', 'session'],
  linePull: ['holding', 'run'],
  lineRolling: ['tyre', 'run'],
  wheelsHold: ['tyre', 'session'],
  pullScatter: ['repeatability', 'run'],
  assumedRolling: ['tyre', 'session'],
  unreadDrag: ['holding', 'session'],
  runsScatter: ['repeatability', 'run'],

  mark: ['gaugeReading', 'reading'],
  repeatedMark: ['repeatability', 'reading'],
  pictureScale: ['gaugeScale', 'session'],
  pictureDistance: ['distance', 'session'],
  lens: ['picture', 'session'],
  tilt: ['picture', 'session'],
  level: ['picture', 'session'],
  depth: ['picture', 'session'],
  pathDepth: ['picture', 'run'],
  blur: ['picture', 'reading'],
  windowScatter: ['repeatability', 'reading'],
  gateMark: ['timing', 'session'],
  crossing: ['timing', 'run'],

  radius: ['distance', 'session'],
  sensorScale: ['track', 'session'],
  sensorZero: ['track', 'run'],
  sensorReading: ['repeatability', 'instrument'],
  sensorLevel: ['track', 'instrument'],
  sensorPlace: ['place', 'instrument'],
  lapTiming: ['timing', 'run'],
  lapScatter: ['repeatability', 'run'],
  logWindow: ['repeatability', 'run'],
  runScatter: ['track', 'run'],
  ballast: ['load', 'run'],
  sensitivity: ['tyre', 'session'],

  coastFit: ['coast', 'session'],
  coastLength: ['distance', 'session'],
  turningParts: ['chassis', 'instrument'],
  tyreGrip: ['tyre', 'session'],
  motorPower: ['power', 'instrument'],
  fullThrottle: ['power', 'run'],
} as const satisfies Record<string, readonly [SourceGroup, Lifetime]>

/** What a source is an error of. */
export type SourceRole = keyof typeof ROLES | MergedRole

/** Sources of one group that from here on only ever appear together: the zero's readings, a curve's points. */
export type MergedRole = 'zero' | 'curveNoise'

export interface Source {
  /** Unique over the whole analysis. */
  readonly id: string
  readonly role: SourceRole
  readonly group: SourceGroup
  readonly lifetime: Lifetime
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

type Role = keyof typeof ROLES

const whatIs = (role: Role) => ({ role, group: ROLES[role][0], lifetime: ROLES[role][1] })

/** A source evaluated from knowledge (type B). */
export const known = (role: Role, id: string, shape: 'normal' | 'rectangular' = 'normal'): Source =>
  ({ id, ...whatIs(role), evaluation: 'fromKnowledge', shape, dof: Infinity })

/**
 * A source evaluated from the scatter of data (type A).
 *
 * @param dof degrees of freedom; Infinity where the scatter is as good as known, and then it is drawn as normal
 */
export const fromData = (role: Role, id: string, dof: number, pool?: string): Source => ({
  id, ...whatIs(role), evaluation: 'fromData', shape: Number.isFinite(dof) ? 't' : 'normal', dof,
  ...(pool === undefined ? {} : { pool }),
})

/**
 * What several sources like `of` are together. It stays in the session it was made in, and several roundings
 * together are no longer rectangular.
 *
 * @param scatter where its size is known from residuals only: their degrees of freedom, and its pool
 */
export const merged = (of: Source, role: MergedRole, id: string, scatter?: { dof: number; pool: string }): Source => ({
  ...of, id, role, lifetime: 'session',
  ...(scatter ? { evaluation: 'fromData', shape: 't', ...scatter } : of.shape === 'rectangular' ? { shape: 'normal' } : {}),
})

/**
 * What scatters beyond an error, as one that goes where that error goes: two results that share it share this as
 * well.
 */
export const beyond = (of: Source, role: Role, dof: number, pool: string): Source =>
  fromData(role, `${of.id}:beyond:${pool}`, dof, pool)
