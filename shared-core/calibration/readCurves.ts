/** A calibration's candidates as curves that can be evaluated, with the uncertain values behind them. */
import { combine, known, standardUncertainty, type Part, type Uncertain } from '@core/uncertainty'
import { elasticForce, shapeCurve, type ShapeCurve } from './shapes'
import { nameOfCurve } from './names'
import type { Calibration, Shape } from './types'

/** Candidates below this weight change nothing that shows. */
const LEAST_WEIGHT = 1e-3

export interface ReadCurve {
  readonly shape: Shape
  /** Weights of the curves kept add to 1. */
  readonly weight: number
  readonly curve: ShapeCurve
  readonly parameters: readonly Uncertain[]
  readonly theta: Float64Array
  readonly frictionN: Uncertain
}

/** A calibration does not change, and is read at hundreds of places. */
const readAlready = new WeakMap<Calibration, readonly ReadCurve[]>()

/** Curves of the fitted candidates that carry weight, heaviest first. */
export function readCurves(calibration: Calibration): readonly ReadCurve[] {
  const curves = readAlready.get(calibration) ?? curvesOf(calibration)
  readAlready.set(calibration, curves)
  return curves
}

function curvesOf({ candidates, span }: Calibration): ReadCurve[] {
  const kept = candidates.flatMap((each) => (each.fitted && each.weight >= LEAST_WEIGHT ? [each] : []))
    .sort((a, b) => b.weight - a.weight)
  const total = kept.reduce((sum, { weight }) => sum + weight, 0)
  return kept.map(({ shape, weight, parameters, frictionN }) => ({
    shape, weight: weight / total, curve: shapeCurve(shape, span),
    parameters: parameters.map(({ estimate }) => estimate),
    theta: Float64Array.from(parameters, ({ estimate }) => estimate.value), frictionN,
  }))
}

const out = new Float64Array(8)

/**
 * Force at a drop on one curve, N: the elastic force plus the friction on the loading side (`sign` 1),
 * less on the other. The drop counts by the chord over its own standard uncertainty (JCGM 100:2008,
 * 5.1.3, note 2): on a straight piece that is the slope, at a knee it is what the reading feels.
 */
export function forceOnCurve(read: ReadCurve, dropMm: Uncertain, sign: number): Uncertain {
  const { curve, theta, parameters, frictionN } = read
  const u = standardUncertainty(dropMm)
  const at = (mm: number) => {
    curve.force(mm, theta, out)
    return out[0]!
  }
  const chord = u > 0 ? (at(dropMm.value + u) - at(dropMm.value - u)) / (2 * u) : 0
  const elasticN = at(dropMm.value)
  // Where nothing moves yet the drop tells nothing of the force; the parameters count as just beyond.
  if (!out.slice(2, 2 + parameters.length).every(Number.isFinite)) at(Math.max(u, BARELY * curve.span.rangeMm))
  const terms: [Uncertain, number][] = parameters.map((each, j) => [each, out[2 + j]!])
  return combine(elasticN + sign * frictionN.value, [...terms, [dropMm, chord], [frictionN, sign]])
}

/** Share of the range that counts as hardly moved. */
const BARELY = 1e-6

const elastic = new Float64Array(3)

/** Drop at a force on one curve, mm, without its uncertainty: for a search along the curve. */
export function plainDropOnCurve(read: ReadCurve, forceN: number, sign: number, turnN: number): number {
  const { curve, theta, frictionN } = read
  elasticForce(forceN, sign, turnN, frictionN.value, curve.span.roundN, elastic)
  curve.drop(elastic[0]!, theta, out)
  return out[0]!
}

/**
 * Drop at a force on one curve, mm. `turnN`: where the ramp turned, NaN from rest.
 */
export function dropOnCurve(read: ReadCurve, forceN: number, sign: number, turnN: number): Uncertain {
  const { parameters, frictionN } = read
  const drop = plainDropOnCurve(read, forceN, sign, turnN)
  const byElastic = out[1]!
  const terms: [Uncertain, number][] = parameters.map((each, j) => [each, out[2 + j]!])
  return combine(drop, [...terms, [frictionN, byElastic * elastic[2]!]])
}

/**
 * One result over the curves: the weighted mean, with the errors of the heaviest curve (all see the
 * same readings, so their errors are nearly one) and one source for each curve that says how far it
 * stands from the mean. Their squares add up to the spread over the candidates (Burnham and Anderson
 * 2002, 4.3.2), their products to how two results share the choice: it cancels in a difference as far
 * as both candidates would move both results alike.
 */
export function overCurves(
  calibration: Calibration, curves: readonly ReadCurve[], of: (read: ReadCurve) => Uncertain,
): Uncertain {
  const results = curves.map(of)
  if (curves.length === 1) return results[0]!
  const value = results.reduce((sum, each, i) => sum + curves[i]!.weight * each.value, 0)
  const spread = results.flatMap((each, i) =>
    choiceParts(calibration, curves[i]!.shape, Math.sqrt(curves[i]!.weight) * (each.value - value)))
  return { value, parts: [...results[0]!.parts, ...spread] }
}

/** As far as both axles' points scatter alike, the same scatter speaks for the same shape in both. */
function choiceParts({ of, sessionId, alike }: Calibration, shape: Shape, contribution: number): Part[] {
  const part = (name: string, share: number): Part =>
    ({ source: known('modelChoice', `curve:${sessionId}:${name}:choice:${shape}`), contribution: share * contribution })
  const own = part(nameOfCurve(of), Math.sqrt(1 - alike))
  return alike > 0 ? [own, part('both', Math.sqrt(alike))] : [own]
}

/** A value with the sources of another, for reading at a place the reading itself went past. */
export const movedTo = (of: Uncertain, value: number): Uncertain => ({ value, parts: of.parts })
