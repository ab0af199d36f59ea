/**
 * A curve from so few loads that no bend could be told from a straight line: two of them agree with a
 * preload, a stiffening spring or a stop as well. What is known without any shape is the order of the
 * points: a suspension never rises under more load, so a drop beyond a point's takes more force than
 * that point, and one short of it less.
 */
import { exact, minus, oneSided, type Uncertain } from '@core/uncertainty'
import { signOf } from './fitData'
import type { Calibration } from './types'

/** Loads below which a line through their means has no point left to bend at. */
const LEAST_LOADS = 3

/** True where the readings were too few for any shape with a bend. */
export function isThin({ candidates, points }: Calibration): boolean {
  const loads = new Set(points.filter(({ used, touched, forceN }) => used && !touched && forceN.value > 0)
    .map(({ forceN }) => forceN.value.toPrecision(3)))
  return (loads.size > 0 && loads.size < LEAST_LOADS) || candidates.some((each) =>
    !each.fitted && each.code === 'tooFewPoints' && (each.shape === 'threshold' || each.shape === 'progressive'))
}

/** Forces that a drop lies between, N; null where no point lies clearly on that side of it. */
export interface NeighbourForces { readonly lowN: Uncertain | null; readonly highN: Uncertain | null }

/**
 * The points next to a drop, taken with 95 % one-sided each. Friction makes a suspension stand higher
 * under a growing load than under a falling one, so a point read on the other branch counts only on the
 * side on which it is still true.
 *
 * @param dropMm in mm, + is down
 * @param sign the reading's side of the friction band: +1 loading, 0 settled, -1 unloading
 */
export function neighbourForces({ points }: Calibration, dropMm: Uncertain, sign: number): NeighbourForces {
  const plain = points.filter(({ used, touched }) => used && !touched)
  const below = plain.filter((point) => signOf(point.branch) <= sign && clearlyMore(dropMm, point.dropMm))
  const above = plain.filter((point) => signOf(point.branch) >= sign && clearlyMore(point.dropMm, dropMm))
  const fromRest = clearlyMore(dropMm, exact(0)) ? exact(0) : null
  return {
    lowN: below.reduce((most, { forceN }) => (most && most.value > forceN.value ? most : forceN), fromRest),
    highN: above.reduce<Uncertain | null>((least, { forceN }) =>
      (least && least.value < forceN.value ? least : forceN), null),
  }
}

function clearlyMore(a: Uncertain, b: Uncertain): boolean {
  const apart = minus(a, b)
  return apart.value > oneSided(apart)
}
