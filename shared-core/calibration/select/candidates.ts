/** All candidate shapes fitted to one set of readings. */
import { fit } from '../fit/solve'
import type { Curve, Fit, FitOptions, Prior, Refusal } from '../fit/types'
import { branchedCurve, secondLoad, shapeCurve, startsFor } from '../shapes'
import { SHAPES, type Shape } from '../types'
import { frictionStart, prepare, startData, type Prepared } from './readings'
import type { CandidateFit, FitData, FittedCandidate, FrictionChoice } from './types'
import { weigh } from './weights'

/** Two ends within this share of each other are one; an end this many times worse than the best is dropped. */
const SAME_END = 0.01
const WORSE_END = 1.5

/**
 * Fits every shape and weighs those that could be fitted by AICc.
 *
 * @returns one entry per shape, in the order given; what could not be fitted says why
 */
export function fitCandidates(data: FitData, shapes: readonly Shape[] = SHAPES): CandidateFit[] {
  const prepared = prepare(data)
  const trouble = troubleWith(prepared, data.friction)
  if (trouble) return shapes.map((shape) => ({ shape, fitted: false, refusal: trouble }))
  const friction = data.friction.kind === 'given' ? data.friction.valueN
    : data.friction.kind === 'fit' ? frictionStart(prepared) : 0
  return weigh(shapes.map((shape) => fitShape(shape, prepared, data.friction, friction)))
}

const refusal = (code: Refusal['code']): Refusal => ({ fitted: false, code, parameter: -1 })

function troubleWith({ span, used, bothBranches }: Prepared, friction: FrictionChoice): Refusal | null {
  if (used.length < 2 || !(span.rangeN > 0)) return refusal('tooFewPoints')
  if (!(span.rangeMm > 0)) return refusal('badInput')
  // Friction is told only by readings on both branches.
  return friction.kind === 'fit' && !bothBranches ? refusal('notIdentifiable') : null
}

function fitShape(shape: Shape, prepared: Prepared, friction: FrictionChoice, startN: number): CandidateFit {
  const curve = shapeCurve(shape, prepared.span)
  const own = curve.names.length
  const free = own + (friction.kind === 'fit' ? 1 : 0)
  const refused = (why: Refusal): CandidateFit => ({ shape, fitted: false, refusal: why })
  if (prepared.used.length < free + 2 || prepared.loads < own) return refused(refusal('tooFewPoints'))
  const starts = startsFor(shape, startData(prepared, startN), prepared.span)
  if (starts.length === 0) return refused(refusal('atBound'))

  const withFriction = friction.kind !== 'none'
  const priors: Prior[] = friction.kind === 'given'
    ? [{ id: 'friction', parameter: own, value: friction.valueN, u: friction.uN }] : []
  const whole = branchedCurve(curve, prepared.branch, withFriction)
  const wholeStarts = starts.map((start) => (withFriction ? [...start, startN] : start))
  const worth = screened(wholeStarts, whole, prepared, { priors })
  if (!Array.isArray(worth)) return refused(worth)
  const best = worth.map((start) => fit(whole, prepared.observations, { start, priors })).reduce(better)
  if (!best.fitted) return refused(best)
  const kneeN = curve.kneeN?.(best.theta) ?? -Infinity
  const { elasticN } = startData(prepared, withFriction ? best.theta[own]! : 0)
  // A slope beyond the knee is told by two loads there.
  if (kneeN > secondLoad(elasticN, prepared.span)) return refused(refusal('notIdentifiable'))
  return { shape, fitted: true, curve, frictionAt: withFriction ? own : -1, fit: best, aicc: NaN, weight: NaN }
}

/**
 * Of several starts, those worth a whole fit: each is first followed with the readings' independent
 * errors alone, all taken on the drop, which costs a fraction; ends that coincide or are clearly
 * worse are left out. A refusal where all of them leave the physical curves.
 */
function screened(
  starts: number[][], curve: Curve, { rough }: Prepared, options: Omit<FitOptions, 'start'>,
): number[][] | Refusal {
  if (starts.length === 1) return starts
  const ends = starts.map((start) => ({ start, end: fit(curve, rough, { ...options, start }) }))
  const outside = ends[0]!.end
  if (!outside.fitted && ends.every(({ end }) => !end.fitted && end.code === 'atBound')) return outside
  const least = ends.reduce((low, { end }) => (end.fitted ? Math.min(low, end.chiSquare) : low), Infinity)
  const kept: number[][] = []
  for (const { start, end } of ends) {
    if (!end.fitted) {
      if (end.code !== 'atBound') kept.push(start)
      continue
    }
    const theta = Array.from(end.theta)
    const near = (other: number[]) => other.every((each, j) => Math.abs(each - theta[j]!) <= SAME_END * Math.abs(each))
    if (end.chiSquare <= WORSE_END * least + 4 && !kept.some(near)) kept.push(theta)
  }
  return kept.length > 0 ? kept : starts.slice(0, 1)
}

const better = (one: Fit, other: Fit): Fit => {
  if (!one.fitted) return other
  return other.fitted && other.chiSquare < one.chiSquare ? other : one
}

/** The candidate with the highest weight, null where none was fitted. */
export function bestOf(candidates: readonly CandidateFit[]): FittedCandidate | null {
  return candidates.reduce<FittedCandidate | null>(
    (best, each) => (each.fitted && (best === null || each.weight > best.weight) ? each : best), null,
  )
}
