/** Do the states of a run scatter more than their readings say? Then the mean is known that much less. */
import { chiSquareUpper, exact, fromSource, minus, plus, scaled, standardUncertainty, sum, variance, type Uncertain } from '@core/uncertainty'
import { fromData } from './sources'

/** Scatter counts as more where chance rarely makes so much. */
const CLEARLY = 0.05

export interface ScatteredMean {
  readonly mean: Uncertain
  /** Factor by which the states scatter beyond their readings; 1 where they do not clearly. */
  readonly factor: number
}

/**
 * Weighted mean of values that should be alike, with the surplus scatter as one more source of
 * n - 1 degrees of freedom where a chi-square test finds it.
 *
 * @param weights shares that add to 1
 */
export function scatteredMean(values: readonly Uncertain[], weights: readonly number[], name: string): ScatteredMean {
  const mean = sum(values.map((each, i) => scaled(each, weights[i]!)))
  const dof = values.length - 1
  if (dof < 1) return { mean, factor: 1 }
  // Each residual's own variance accounts for what the states share, such as a common zero.
  const residuals = values.map((each) => minus(each, mean))
  const square = residuals.reduce((total, { value }) => total + value ** 2, 0)
  const expected = residuals.reduce((total, each) => total + variance(each), 0)
  if (!(expected > 0)) {
    const spread = Math.sqrt(square / dof) * Math.hypot(...weights)
    return { mean: spread > 0 ? plus(mean, fromSource(0, spread, fromData(name, 'repeatability', dof))) : mean, factor: 1 }
  }
  const ratio = square / expected
  if (ratio <= 1 || chiSquareUpper(ratio * dof, dof) > CLEARLY) return { mean, factor: 1 }
  const own = values.reduce((total, each, i) => {
    const apart = standardUncertainty(minus(each, mean)) ** 2 * (values.length / dof)
    return total + weights[i]! ** 2 * apart
  }, 0)
  const surplus = fromSource(0, Math.sqrt(own * (ratio - 1)), fromData(name, 'repeatability', dof))
  return { mean: surplus.parts.length > 0 ? plus(mean, surplus) : plus(mean, exact(0)), factor: Math.sqrt(ratio) }
}
