/** The mean of several indications of one quantity by a rounding instrument. */

export interface ShownMean {
  readonly mean: number
  /** Standard uncertainty of the mean from the scatter; 0 with one indication. */
  readonly uRepeat: number
  /** Degrees of freedom of `uRepeat`; 0 with one indication. */
  readonly dof: number
  /** Standard uncertainty by rounding to the resolution (rectangular, JCGM 100:2008, F.2.2.1). */
  readonly uRounding: number
  /** Standard deviation of one indication. */
  readonly deviation: number
}

/**
 * Mean of one or more indications. Where they scatter by half a step or more, their scatter holds
 * the rounding already; where they do not, all are rounded alike and averaging does not help.
 */
export function shownMean(values: readonly number[], resolution: number): ShownMean {
  const n = values.length
  const mean = values.reduce((sum, each) => sum + each, 0) / n
  const dof = n - 1
  const square = values.reduce((sum, each) => sum + (each - mean) ** 2, 0)
  // Equal indications have no scatter, whatever the last binary digit of their mean.
  const alike = values.every((each) => each === values[0])
  const deviation = dof > 0 && !alike ? Math.sqrt(square / dof) : 0
  const scattered = deviation >= resolution / 2
  return {
    mean, deviation, dof,
    uRepeat: dof > 0 ? deviation / Math.sqrt(n) : 0,
    uRounding: scattered ? 0 : resolution / Math.sqrt(12),
  }
}
