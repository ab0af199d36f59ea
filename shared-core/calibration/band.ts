/** The curve as drawn: drop with its uncertainty over the forces of each branch; and its stiffness. */
import { coverageInterval, effectiveDof, exact, minus, scaled, standardUncertainty, type Uncertain } from '@core/uncertainty'
import { signOf } from './fitData'
import { dropOnCurve, forceOnCurve, overCurves, plainDropOnCurve, readCurves, type ReadCurve } from './readCurves'
import type { Branch, Calibration } from './types'

export interface BandPoint {
  readonly forceN: number
  readonly dropMm: number
  readonly uMm: number
  /** 95 % coverage interval of the curve at this force. */
  readonly lowMm: number
  readonly highMm: number
}

/**
 * The curve of one branch with its band. The loading branch starts from rest, the unloading one
 * turns at `turnN` (default: the largest force of the list).
 */
export function curveBand(
  calibration: Calibration, forcesN: readonly number[], branch: Branch = 'loading', turnN = Math.max(...forcesN),
): BandPoint[] {
  const curves = readCurves(calibration)
  const sign = signOf(branch)
  return forcesN.map((forceN) => {
    const drop = overCurves(calibration, curves, (each) =>
      dropOnCurve(each, forceN, sign, sign < 0 ? turnN : NaN))
    const u = standardUncertainty(drop)
    const { low, high } = coverageInterval(drop.value, u, effectiveDof(drop))
    return { forceN, dropMm: drop.value, uMm: u, lowMm: low, highMm: high }
  })
}

/** Even forces over the calibrated range, for drawing. */
export function evenForces({ rangeN, leastN }: Calibration, count = 81): number[] {
  return Array.from({ length: count }, (_, i) => leastN + ((rangeN - leastN) * i) / (count - 1))
}

/** Step of the difference quotient, as a share of the range. */
const STEP = 1e-3

/** Stiffness dF/dd at a drop, N/mm, with its uncertainty; the errors both ends share cancel. */
export function stiffnessAt(calibration: Calibration, dropMm: number): Uncertain {
  const curves = readCurves(calibration)
  const half = STEP * calibration.rangeMm
  const at = Math.max(dropMm, half)
  return overCurves(calibration, curves, (each) => scaled(
    minus(forceOnCurve(each, exact(at + half), 0), forceOnCurve(each, exact(at - half), 0)), 1 / (2 * half),
  ))
}

/** Drop at a force on a branch from rest, mm, with its uncertainty. */
export function dropAt(calibration: Calibration, forceN: number, branch: Branch = 'mid'): Uncertain {
  const curves = readCurves(calibration)
  return overCurves(calibration, curves, (each) => dropOnCurve(each, forceN, signOf(branch), NaN))
}

/** The value of `dropAt` alone, mm: for a search along the curve. */
export function plainDropAt(calibration: Calibration, forceN: number, branch: Branch = 'mid'): number {
  const curves = readCurves(calibration)
  const of = (each: ReadCurve): number => plainDropOnCurve(each, forceN, signOf(branch), NaN)
  return curves.length === 1 ? of(curves[0]!) : curves.reduce((sum, each) => sum + each.weight * of(each), 0)
}
