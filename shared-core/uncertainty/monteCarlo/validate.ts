/** Propagation checked against Monte Carlo (JCGM 101:2008, clause 8), and the statement to make of both. */
import { studentQuantile } from '../distributions/studentT'
import { coverageInterval } from '../interval'
import type { Statement } from '../statement'
import { budget, effectiveDof, standardUncertainty, type Uncertain } from '../uncertain'
import type { OutputResult } from './run'

export interface Validation {
  /** Distance of the two lower and the two upper ends, in the value's unit. */
  readonly low: number
  readonly high: number
  /** What they may differ by: half a unit in the second significant digit of u. */
  readonly tolerance: number
  /** True where propagation stands for this result. */
  readonly agrees: boolean
}

/** Compares the propagated interval with the probabilistically symmetric one of the trials. */
export function validate(propagated: Uncertain, trials: OutputResult): Validation {
  const { low, high, probability } = trials.symmetric
  const interval = coverageInterval(
    propagated.value, standardUncertainty(propagated), effectiveDof(propagated), probability,
  )
  const off = { low: Math.abs(interval.low - low), high: Math.abs(interval.high - high) }
  return { ...off, tolerance: trials.tolerance, agrees: off.low <= trials.tolerance && off.high <= trials.tolerance }
}

/**
 * The statement by Monte Carlo; the budget comes from the propagation, which knows the sources. Where a
 * source has no variance the median is stated, and a u that gives the interval's half-width by the
 * coverage factor of the statement's degrees of freedom.
 */
export function monteCarloStatement(
  trials: OutputResult, propagated: Uncertain, { extrapolated = false } = {},
): Extract<Statement, { kind: 'interval' }> {
  const dof = effectiveDof(propagated)
  const { low, high, probability } = trials.symmetric
  const hasMoments = propagated.parts.every(({ source }) => source.shape !== 't' || source.dof > 2)
  const u = hasMoments ? trials.u : (high - low) / 2 / studentQuantile((1 + probability) / 2, dof)
  return {
    kind: 'interval', value: trials.value, u, dof, interval: trials.symmetric,
    shortest: trials.shortest, method: 'monteCarlo', budget: budget(propagated), extrapolated,
  }
}
