/**
 * The rounded knee: max(0, travel) with its corner replaced by a parabola within +-w. Outside the
 * rounding it is exact. A sharp corner would leave the fit without a gradient wherever a reading
 * lies on it; a rounding narrower than a reading's own uncertainty cannot be told from one.
 *
 * The half-width w is `roundN`, but never more than the knee itself, so that nothing moves at zero.
 */

/** Writes into `out`: the part beyond the knee, its derivative by x, and by the knee. All N. */
export function beyondKnee(x: number, knee: number, roundN: number, out: Float64Array): void {
  const narrow = knee < roundN
  const w = narrow ? Math.max(knee, 0) : roundN
  const travel = x - knee
  if (travel <= -w) {
    out[0] = out[1] = out[2] = 0
    return
  }
  if (travel >= w) {
    out[0] = travel
    out[1] = 1
    out[2] = -1
    return
  }
  const rise = travel + w
  const slope = rise / (2 * w)
  out[0] = (rise * slope) / 2
  out[1] = slope
  // Where w follows the knee, x^2/(4 knee) has this derivative; else only the corner moves.
  out[2] = narrow ? -slope * slope : -slope
}

/** The x at which the part beyond the knee has this size (> 0). */
export function kneeInverse(beyond: number, knee: number, roundN: number): number {
  const w = Math.min(roundN, Math.max(knee, 0))
  return beyond >= w ? knee + beyond : knee - w + 2 * Math.sqrt(w * beyond)
}
