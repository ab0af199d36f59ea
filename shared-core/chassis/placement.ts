/**
 * Loads lying on the car, as forces on axles and corners.
 *
 * Axles: a weight m g at x behind the front axle line puts m g (1 - x/L) on the front and m g x/L on
 * the rear axle (lever about the axle lines; exact statics).
 * Corners: four wheels are one more than statics can tell. Each axle's share is taken to split left
 * and right by the lever of y over that axle's track. This holds for loads on an axle line, and for
 * others where front and rear are alike in roll stiffness.
 */
import { AXLES, CORNERS, type Axle, type Chassis, type Corner } from '@core/schema'
import { combine, entered, exact, fromSource, known, sum, times, type Uncertain } from '@core/uncertainty'

/** A mass at a place, as uncertain as it is known. */
export interface PlacedMass {
  readonly massKg: Uncertain
  readonly xMm: Uncertain
  readonly yMm: Uncertain
}

export interface PlacedForces {
  /** N, + is down. */
  readonly axles: Readonly<Record<Axle, Uncertain>>
  readonly corners: Readonly<Record<Corner, Uncertain>>
}

export const axleOf = (corner: Corner): Axle => (corner.startsWith('front') ? 'front' : 'rear')
export const isRight = (corner: Corner): boolean => corner.endsWith('Right')

/** The corners of an axle, left then right. */
export const cornersOf = (axle: Axle): readonly [Corner, Corner] =>
  axle === 'front' ? ['frontLeft', 'frontRight'] : ['rearLeft', 'rearRight']

/** The wheelbase, mm. */
export const wheelbase = ({ wheelbaseMm }: Chassis): Uncertain => entered(wheelbaseMm, 'chassis', 'chassis:wheelbase')

/** A coordinate of a load, mm; `sourceId` names the laying down that fixed it. */
export const coordinate = (valueMm: number, uMm: number, sourceId: string): Uncertain =>
  fromSource(valueMm, uMm, known('placement', sourceId))

/** Forces of loads on the axles and corners, N. */
export function placedForces(chassis: Chassis, gravityMs2: Uncertain, loads: readonly PlacedMass[]): PlacedForces {
  const length = wheelbase(chassis)
  const each = loads.map((load) => forcesOfOne(chassis, length, gravityMs2, load))
  const total = (pick: (one: PlacedForces) => Uncertain): Uncertain =>
    (each.length === 0 ? exact(0) : sum(each.map(pick)))
  return {
    axles: { front: total(({ axles }) => axles.front), rear: total(({ axles }) => axles.rear) },
    corners: perCornerOf((corner) => total(({ corners }) => corners[corner])),
  }
}

function forcesOfOne(chassis: Chassis, length: Uncertain, gravityMs2: Uncertain, load: PlacedMass): PlacedForces {
  const weight = times(load.massKg, gravityMs2)
  const rearShare = combine(load.xMm.value / length.value, [
    [load.xMm, 1 / length.value], [length, -load.xMm.value / length.value ** 2],
  ])
  const frontShare = combine(1 - rearShare.value, [[rearShare, -1]])
  const axles = { front: times(weight, frontShare), rear: times(weight, rearShare) }
  const corners = perCornerOf((corner) => {
    const sign = isRight(corner) ? 1 : -1
    const track = chassis.trackMm[axleOf(corner)]
    const share = combine(0.5 + (sign * load.yMm.value) / track, [[load.yMm, sign / track]])
    return times(axles[axleOf(corner)], share)
  })
  return { axles, corners }
}

/** One value for each corner. */
export function perCornerOf<T>(make: (corner: Corner) => T): Record<Corner, T> {
  return Object.fromEntries(CORNERS.map((corner) => [corner, make(corner)])) as Record<Corner, T>
}

/** One value for each axle. */
export function perAxleOf<T>(make: (axle: Axle) => T): Record<Axle, T> {
  return Object.fromEntries(AXLES.map((axle) => [axle, make(axle)])) as Record<Axle, T>
}
