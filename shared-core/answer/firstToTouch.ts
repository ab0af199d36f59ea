/** The end of a car that touches first, as far as it can be told. */
import type { TouchDowns } from '@core/aero'
import { AXLES, type Axle } from '@core/schema'

/** By the chance that the front is first; without it, the end that touches or is sucked down at the lower speed. */
export function firstToTouch({ axles, frontFirst }: TouchDowns): Axle {
  if (frontFirst !== null) return frontFirst >= 0.5 ? 'front' : 'rear'
  const speedOf = (axle: Axle): number => {
    const { speedMs: said, divergesMs } = axles[axle]
    if (divergesMs !== null) return divergesMs
    if (said.kind === 'interval') return said.value
    if (said.kind === 'atLeast' || said.kind === 'atMost') return said.bound
    return said.kind === 'between' ? said.low : Infinity
  }
  return AXLES.reduce((first, axle) => (speedOf(axle) < speedOf(first) ? axle : first), 'front')
}
