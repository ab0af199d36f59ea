/** The face of the candidate shapes: one load-drop curve family each, with its inverse. */
/** Candidate shapes, each monotone: the drop never falls as the force grows. */
export const SHAPES = ['linear', 'threshold', 'progressive', 'cubic', 'stop', 'thresholdStop'] as const
export type Shape = (typeof SHAPES)[number]

/** The parameters of all shapes, with their quantities; kept in the unit of the name. */
export const PARAMETERS = {
  rateNPerMm: 'rate', fullRateNPerMm: 'rate', halfRateNPerMm: 'rate', stopRateNPerMm: 'rate', thresholdN: 'force',
  kneeMm: 'length',
} as const
export type ParameterName = keyof typeof PARAMETERS

/** Constants a family is built on; they come from the data and are not fitted. */
export interface ShapeSpan {
  /** Largest force, N, and drop, mm, of the points that take part. */
  readonly rangeN: number
  readonly rangeMm: number
  /** Half-width, N, over which a knee is rounded; below what the readings resolve. */
  readonly roundN: number
}

/**
 * drop = f(elastic force; theta), never falling. The elastic force is what the spring carries: the
 * force on the axle less the friction that holds against the motion.
 */
export interface ShapeCurve {
  readonly shape: Shape
  readonly span: ShapeSpan
  readonly names: readonly ParameterName[]
  /** Writes the drop (mm) into out[0], d(drop)/d(force) into out[1], d(drop)/d(theta_j) into out[2 + j]. */
  drop(elasticN: number, theta: ArrayLike<number>, out: Float64Array): void
  /** Writes the elastic force (N) into out[0], d/d(drop) into out[1], d/d(theta_j) into out[2 + j]. */
  force(dropMm: number, theta: ArrayLike<number>, out: Float64Array): void
  /** Elastic force at the last knee, N, for shapes that have one with a slope of its own beyond it. */
  kneeN?(theta: ArrayLike<number>): number
  /** Physical and monotone. */
  feasible(theta: ArrayLike<number>): boolean
}
