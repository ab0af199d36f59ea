/**
 * A curve that does not fit: its points lie so far off that no widening makes its numbers worth reading. A
 * series of loads that was laid elsewhere than was written down does that, so its place is named.
 */
import { remark, type Remark } from '@core/remark'
import type { SquatData } from '../points'
import { axleOfCurve } from '../points'
import type { Calibration } from '../types'

/** Scatter of so many times what was stated is no scatter (common practice, no source). */
const FAR_TIMES = 5
/** And chance has no part in it. */
const NEVER = 1e-6

/** The remark that takes a curve's tick away; null where the curve fits, or scatters only. */
export function misfitRemark({ session }: SquatData, calibration: Calibration): Remark | null {
  const { candidates, chosen, points, of } = calibration
  const fit = candidates.find(({ shape }) => shape === chosen)
  if (!fit?.fitted || !(fit.birge > FAR_TIMES && fit.pValue < NEVER)) return null
  const series = new Map<number, number[]>()
  for (const { stepId, residual } of points) {
    const placed = session.steps.find(({ id }) => id === stepId)?.placed ?? []
    if (residual === null || placed.length === 0) continue
    const xMm = Math.round(placed.reduce((sum, each) => sum + each.xMm, 0) / placed.length)
    series.set(xMm, [...(series.get(xMm) ?? []), Math.abs(residual)])
  }
  const strays = (all: readonly number[]): number => all.reduce((sum, each) => sum + each, 0) / all.length
  const [worst] = [...series].sort((a, b) => strays(b[1]) - strays(a[1]))
  return worst ? remark('curveDoesNotFit', { axle: axleOfCurve(of), factor: fit.birge, xMm: worst[0] }) : null
}
