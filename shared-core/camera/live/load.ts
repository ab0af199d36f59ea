/** The load on each axle from where the car stands now against its rest: the number that stands on the wall. */
import { readForce, type Branch, type Calibration } from '@core/calibration'
import { chassisMotion, type CornerDrops } from '@core/chassis'
import { AXLES, type Axle, type Chassis, type Corner } from '@core/schema'
import { fromSource, known, plus, type Statement, type Uncertain } from '@core/uncertainty'
import { dropBetween } from '../height/height'
import type { WindowHeight } from '../film/window'

export interface LiveAxle { readonly dropMm: Uncertain | null; readonly load: Statement | null }

const OTHER_SIDE: Record<Corner, Corner> = {
  frontLeft: 'frontRight', frontRight: 'frontLeft', rearLeft: 'rearRight', rearRight: 'rearLeft',
}

/**
 * @param rest heights before the air, and `now` those to be read, of the corners that the camera sees
 * @param farSideUMm how alike the side that it does not see moves, mm
 * @param touched which end of the tray somebody saw on the ground
 * @param curves of the axles; null where an axle has none yet
 */
export function liveLoads(
  chassis: Chassis, curves: Readonly<Record<Axle, Calibration | null>>, branch: Branch,
  heights: {
    readonly rest: Partial<Record<Corner, WindowHeight>>; readonly now: Partial<Record<Corner, WindowHeight>>
  },
  { farSideUMm, touched }: { farSideUMm: number; touched: Readonly<Record<Axle, boolean>> },
): Record<Axle, LiveAxle> {
  const drops: { -readonly [C in Corner]?: Uncertain } = {}
  for (const [corner, now] of Object.entries(heights.now) as [Corner, WindowHeight][]) {
    const rest = heights.rest[corner]
    if (!rest) continue
    const drop = dropBetween(rest.heightMm, now.heightMm)
    drops[corner] = drop
    const other = OTHER_SIDE[corner]
    drops[other] = plus(drop, fromSource(0, farSideUMm, known('readingPicture', `live:${other}`)))
  }
  const motion = chassisMotion(chassis, drops as CornerDrops)
  const anyTouch = AXLES.some((axle) => touched[axle])
  return Object.fromEntries(AXLES.map((axle): [Axle, LiveAxle] => {
    const dropMm = motion.axles[axle]
    const curve = curves[axle]
    if (!dropMm || !curve) return [axle, { dropMm, load: null }]
    return [axle, { dropMm, load: readForce(curve, { dropMm, branch, touched: anyTouch }).statement }]
  })) as Record<Axle, LiveAxle>
}
