/** "Good enough": what a reading at the wished force would be worth with the curve as it stands. */
import type { Gauge, SquatSession } from '@core/schema'
import {
  budget, COVERAGE_PROBABILITY, fromSource, halfWidth, intervalStatement, known, normalQuantile, partsOf,
  standardUncertainty, type Source, type SourceGroup, type Statement,
} from '@core/uncertainty'
import { plainDropAt } from './band'
import { isThin } from './neighbours'
import { forceOnCurve, overCurves, readCurves } from './readCurves'
import { roundingU } from './shown'
import type { Calibration, Repeatability } from './types'

export interface Verdict {
  readonly goodEnough: boolean
  /** A reading at the wished force, as it would be stated. */
  readonly statement: Statement
  readonly halfWidthN: number
  readonly wishedHalfWidthN: number
  /** Half-width that more squat steps cannot go below: the reading itself and the errors shared by all. */
  readonly floorHalfWidthN: number
  /** More squat steps can reach the wish. */
  readonly withinReach: boolean
  /** The largest part of the variance: what to improve first. */
  readonly limitedBy: SourceGroup | null
}

/** Off/on pairs that a run is taken to have. */
const PAIRS = 3

/** Drop of an axle line by a run of three off/on pairs at two corners, mm: the part that is the reading's own. */
export function readingU(gauge: Gauge, { uMm }: Repeatability): number {
  const one = Math.hypot(uMm, roundingU(gauge.resolutionMm, uMm, 1))
  return one / Math.sqrt(PAIRS)
}

/**
 * Verdict on a curve for the session's wish; null without a wish, or where the wished force lies
 * beyond the range that the readings support, or where they are too few to know the curve's shape.
 */
export function verdict(calibration: Calibration, session: SquatSession, gauge: Gauge): Verdict | null {
  const { wished } = session.setup
  if (!wished || wished.forceN > calibration.rangeN || isThin(calibration)) return null
  const curves = readCurves(calibration)
  const dropMm = plainDropAt(calibration, wished.forceN, calibration.settled ? 'mid' : 'loading')
  const toCome = known('wishedReading', 'wished:reading')
  const drop = fromSource(dropMm, readingU(gauge, calibration.repeatability), toCome)
  const force = overCurves(calibration, curves, (each) => forceOnCurve(each, drop, calibration.settled ? 0 : 1))
  const halfWidthN = halfWidth(force)
  const stays = partsOf(force, (source) => isFixed(source) || source.role === toCome.role)
  const floorHalfWidthN = normalQuantile((1 + COVERAGE_PROBABILITY) / 2) * standardUncertainty(stays)
  return {
    goodEnough: halfWidthN <= wished.halfWidthN,
    statement: intervalStatement(force), halfWidthN, wishedHalfWidthN: wished.halfWidthN, floorHalfWidthN,
    withinReach: floorHalfWidthN <= wished.halfWidthN,
    limitedBy: budget(force)[0]?.group ?? null,
  }
}

/** Sources that more squat steps leave as they are: instruments, gravity, the car. */
export const isFixed = ({ lifetime }: Source): boolean => lifetime === 'instrument'
