/** The car at rest: what each axle and corner carries without any load on it. */
import { CORNERS, type Axle, type Chassis, type Corner } from '@core/schema'
import { fromSource, known, over, plus, sum, times, type Uncertain } from '@core/uncertainty'
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
 * Static loads from the corner masses; null where they are not given or add to nothing. The scale is
 * the first of the profile: its gain (shared) and its rounding, one source per corner.
 */
export function staticLoads(chassis: Chassis): StaticLoads | null {
  const masses = chassis.cornerMassesKg
  if (!masses || CORNERS.every((corner) => masses[corner] === 0)) return null
  const scale = chassis.scales[0]
  const weighed = perCornerOf((corner) => {
    const rounding = (scale?.resolutionKg ?? 0) / Math.sqrt(12)
    const source = known('cornerMass', `chassis:cornerMass:${corner}`, 'rectangular')
    const shown = fromSource(masses[corner], rounding, source)
    return scale ? times(shown, scaleGain(scale).gain) : shown
  })
  const gravity = localGravity(chassis.place).ms2
  const corners = perCornerOf((corner) => times(weighed[corner], gravity))
  const axles = {
    front: plus(corners.frontLeft, corners.frontRight), rear: plus(corners.rearLeft, corners.rearRight),
  }
  const totalN = plus(axles.front, axles.rear)
  return {
    axles, corners, totalN,
    massKg: sum(CORNERS.map((corner) => weighed[corner])),
    frontShare: over(axles.front, totalN),
    leftShare: over(plus(corners.frontLeft, corners.rearLeft), totalN),
  }
}
