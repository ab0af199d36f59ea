/** The car at rest: what each axle and corner carries without any load on it. */
import { CORNERS, type Axle, type Chassis, type Corner, type Scale } from '@core/schema'
import { entered, fromSource, known, over, plus, sum, times, type Uncertain } from '@core/uncertainty'
import { localGravity } from './gravity'
import { perCornerOf } from './placement'
import { scaleGain } from './scale'

export interface StaticLoads {
  /** N, + is down. */
  readonly axles: Readonly<Record<Axle, Uncertain>>
  readonly corners: Readonly<Record<Corner, Uncertain>>
  readonly totalN: Uncertain
  readonly massKg: Uncertain
  /** Front axle's share, 0 to 1; the scale's gain cancels in it. */
  readonly frontShare: Uncertain
  /** Left side's share, 0 to 1. */
  readonly leftShare: Uncertain
}

/**
 * A scale that is not in the profile: its steps and how far its gain may be off (common practice for a
 * kitchen scale, no source). A mass is never exact.
 */
const UNKNOWN_SCALE: Scale = { id: 'unknown', name: '', resolutionKg: 0.001, gainU: 0.01, checks: [] }

/** The scale that weighed the corners: the one named, else the first of the profile. */
export const cornerScale = ({ scales, cornerScaleId }: Chassis): Scale | null =>
  scales.find(({ id }) => id === cornerScaleId) ?? scales[0] ?? null

/**
 * Static loads; null where the corner masses are not given or add to nothing. The corners tell the shares, by
 * the scale that weighed them: its gain (shared) and its rounding, one source per corner; without one in
 * the profile a kitchen scale is taken. The mass is the car's where it was entered, so that every result
 * speaks of one car; else the corners' sum.
 */
export function staticLoads(chassis: Chassis): StaticLoads | null {
  const masses = chassis.cornerMassesKg
  if (!masses || CORNERS.every((corner) => masses[corner] === 0)) return null
  const scale = cornerScale(chassis) ?? UNKNOWN_SCALE
  const { gain } = scaleGain(scale)
  const weighed = perCornerOf((corner) => {
    const source = known('cornerMass', `chassis:cornerMass:${corner}`, 'rectangular')
    return times(fromSource(masses[corner], scale.resolutionKg / Math.sqrt(12), source), gain)
  })
  const weighedKg = sum(CORNERS.map((corner) => weighed[corner]))
  const massKg = chassis.massKg ? entered(chassis.massKg, 'chassis', 'chassis:mass') : weighedKg
  const totalN = times(massKg, localGravity(chassis.place).ms2)
  const corners = perCornerOf((corner) => times(over(weighed[corner], weighedKg), totalN))
  const axles = {
    front: plus(corners.frontLeft, corners.frontRight), rear: plus(corners.rearLeft, corners.rearRight),
  }
  return {
    axles, corners, totalN, massKg,
    frontShare: over(axles.front, totalN),
    leftShare: over(plus(corners.frontLeft, corners.rearLeft), totalN),
  }
}
