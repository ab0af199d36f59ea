/** The kitchen scale: its gain from checks against known masses, else as assumed. */
import { chiSquareUpper, fromData, fromSource, known, type Uncertain } from '@core/uncertainty'
import type { Scale, ScaleCheck } from '@core/schema'
import { shownMean } from './shown'

/** One check: the ratio of known to shown mass, with its standard uncertainty and degrees of freedom. */
export interface CheckResult {
  readonly checkId: string
  readonly ratio: number
  readonly u: number
  readonly dof: number
}

export interface ScaleGain {
  /** True mass = shown mass x gain. One source, `scale:<id>:gain`, shared by everything weighed on it. */
  readonly gain: Uncertain
  readonly from: 'checks' | 'assumed'
  readonly checks: readonly CheckResult[]
  /** Probability of checks that disagree this much, if the gain is one number; NaN with fewer than two. */
  readonly pValue: number
}

/**
 * Gain of a scale. Checks are averaged by their weights; where they scatter more than their
 * uncertainties say, the mean's uncertainty grows by the Birge ratio. A check that showed nothing
 * (mean zero) is left out. All masses weighed on the scale share the gain's source.
 */
export function scaleGain(scale: Scale): ScaleGain {
  const id = `scale:${scale.id}:gain`
  const checks = scale.checks.flatMap((each) => checkResult(each, scale.resolutionKg))
  if (checks.length === 0) {
    return { gain: fromSource(1, scale.gainU, known('scaleGain', id)), from: 'assumed', checks, pValue: NaN }
  }
  const weights = checks.map(({ u }) => 1 / u ** 2)
  const total = weights.reduce((sum, each) => sum + each, 0)
  const value = checks.reduce((sum, { ratio }, i) => sum + weights[i]! * ratio, 0) / total
  const chiSquare = checks.reduce((sum, { ratio }, i) => sum + weights[i]! * (ratio - value) ** 2, 0)
  const birge = checks.length > 1 ? Math.max(1, Math.sqrt(chiSquare / (checks.length - 1))) : 1
  const u = birge / Math.sqrt(total)
  // Welch-Satterthwaite over the checks: each weighs in with (w u)^2 = w.
  const denominator = checks.reduce((sum, { dof }, i) => sum + weights[i]! ** 2 / dof, 0)
  const dof = birge > 1 ? checks.length - 1 : denominator === 0 ? Infinity : total ** 2 / denominator
  const source = Number.isFinite(dof) ? fromData('scaleGain', id, dof) : known('scaleGain', id)
  return {
    gain: fromSource(value, u, source), from: 'checks', checks,
    pValue: checks.length > 1 ? chiSquareUpper(chiSquare, checks.length - 1) : NaN,
  }
}

function checkResult(check: ScaleCheck, resolutionKg: number): CheckResult[] {
  const shown = shownMean(check.shownKg, resolutionKg)
  if (!(shown.mean > 0)) return []
  const ratio = check.knownMassKg.value / shown.mean
  const repeat = (ratio * shown.uRepeat) / shown.mean
  const others = Math.hypot(check.knownMassKg.u / shown.mean, (ratio * shown.uRounding) / shown.mean)
  const u = Math.hypot(repeat, others)
  const dof = repeat === 0 ? Infinity : (shown.dof * u ** 4) / repeat ** 4
  return [{ checkId: check.id, ratio, u, dof }]
}
