/**
 * Two slopes with a knee, stiffer after it: a bump stop, or the tyre once the shock is closed; with
 * or without a threshold before. The knee is a place in the travel, so its parameter is in mm.
 */
import { invertDerivatives } from './inverse'
import { beyondKnee } from './round'
import { LEAST_THRESHOLD } from './threshold'
import type { ShapeCurve, ShapeSpan } from './types'

/** A knee less stiff than this many times the rate before it is none; beyond the larger it is a wall, not a spring. */
const SOFTEST = 1.05
const HARDEST = 1e4

export function stop(span: ShapeSpan): ShapeCurve {
  const part = new Float64Array(3)
  const { rangeMm, roundN } = span
  const curve: ShapeCurve = {
    shape: 'stop',
    span,
    names: ['rateNPerMm', 'kneeMm', 'stopRateNPerMm'],
    drop(elasticN, theta, out) {
      const k = theta[0]!
      const kneeMm = theta[1]!
      const k2 = theta[2]!
      const kneeN = k * kneeMm
      const past = elasticN - kneeN
      if (past <= -roundN) {
        const soft = 1 / k
        out[0] = elasticN * soft
        out[1] = soft
        out[2] = -elasticN * soft * soft
        out[3] = out[4] = 0
        return
      }
      const hard = 1 / k2
      if (past >= roundN) {
        out[0] = kneeMm + past * hard
        out[1] = hard
        out[2] = -hard * kneeMm
        out[3] = 1 - hard * k
        out[4] = -past * hard * hard
        return
      }
      beyondKnee(elasticN, kneeN, roundN, part)
      const beyond = part[0]!
      const soft = 1 / k
      const less = soft - hard
      const moved = less * part[2]!
      out[0] = elasticN * soft - less * beyond
      out[1] = soft - less * part[1]!
      out[2] = (beyond - elasticN) * soft * soft - moved * kneeMm
      out[3] = -moved * k
      out[4] = -beyond * hard * hard
    },
    force(dropMm, theta, out) {
      const elasticN = stopForce(dropMm, theta[0]!, theta[1]!, theta[2]!, 0, roundN)
      curve.drop(elasticN, theta, out)
      invertDerivatives(elasticN, 3, out)
    },
    kneeN: (theta) => theta[0]! * theta[1]!,
    feasible: (theta) => feasibleStop(theta[0]!, theta[1]!, theta[2]!, rangeMm),
  }
  return curve
}

export function thresholdStop(span: ShapeSpan): ShapeCurve {
  const first = new Float64Array(3)
  const second = new Float64Array(3)
  const { rangeN, rangeMm, roundN } = span
  const curve: ShapeCurve = {
    shape: 'thresholdStop',
    span,
    names: ['thresholdN', 'rateNPerMm', 'kneeMm', 'stopRateNPerMm'],
    drop(elasticN, theta, out) {
      const k = theta[1]!
      const kneeMm = theta[2]!
      const k2 = theta[3]!
      beyondKnee(elasticN, theta[0]!, roundN, first)
      beyondKnee(elasticN, theta[0]! + k * kneeMm, roundN, second)
      const soft = 1 / k
      const hard = 1 / k2
      const less = soft - hard
      const moved = less * second[2]!
      out[0] = first[0]! * soft - less * second[0]!
      out[1] = first[1]! * soft - less * second[1]!
      out[2] = first[2]! * soft - moved
      out[3] = (second[0]! - first[0]!) * soft * soft - moved * kneeMm
      out[4] = -moved * k
      out[5] = -second[0]! * hard * hard
    },
    force(dropMm, theta, out) {
      const elasticN = thresholdStopForce(Math.max(dropMm, 0), theta, roundN)
      curve.drop(elasticN, theta, out)
      invertDerivatives(elasticN, 4, out)
    },
    kneeN: (theta) => theta[0]! + theta[1]! * theta[2]!,
    feasible: (theta) => theta[0]! > LEAST_THRESHOLD * rangeN && theta[0]! < rangeN
      && theta[1]! * theta[2]! > 2 * roundN && feasibleStop(theta[1]!, theta[2]!, theta[3]!, rangeMm),
  }
  return curve
}

const feasibleStop = (k: number, kneeMm: number, k2: number, rangeMm: number): boolean =>
  k > 0 && k2 > SOFTEST * k && k2 < HARDEST * k && kneeMm > 0 && kneeMm < rangeMm

/** Force at a drop of the two slopes that start at `startN`. */
function stopForce(dropMm: number, k: number, kneeMm: number, k2: number, startN: number, roundN: number): number {
  const kneeN = startN + k * kneeMm
  const w = Math.min(roundN, kneeN)
  const less = 1 / k - 1 / k2
  const into = dropMm - (kneeMm - w / k)
  if (into <= 0) return startN + k * dropMm
  if (dropMm >= kneeMm + w / k2) return kneeN + k2 * (dropMm - kneeMm)
  return kneeN - w + (2 * into) / (1 / k + Math.sqrt(Math.max(0, 1 / (k * k) - (less * into) / w)))
}

/** As `stopForce`, with the first knee rounded too; the two roundings never overlap. */
function thresholdStopForce(dropMm: number, theta: ArrayLike<number>, roundN: number): number {
  const k = theta[1]!
  const w = Math.min(roundN, theta[0]!)
  if (dropMm * k < w) return theta[0]! - w + 2 * Math.sqrt(w * dropMm * k)
  return stopForce(dropMm, k, theta[2]!, theta[3]!, theta[0]!, roundN)
}
