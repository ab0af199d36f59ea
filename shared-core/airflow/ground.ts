/** What may be said of an axle's load while the tray is on the ground, by what the ground does to that axle. */
import { otherAxle, wheelbase, type GroundEffect } from '@core/chassis'
import { remark, type Remark } from '@core/remark'
import { AXLES, type Axle, type Chassis, type Measured } from '@core/schema'
import { highEnd, untold, type Claim } from '@core/uncertainty'

/** The springs' load as read plainly, and as it is read where the ground carries a part. */
export interface SpringLoad { readonly plain: Claim; readonly bound: Claim }

/** The claim about an axle's load. The sum of both is at least the sum of the springs' loads, whatever holds here. */
export function loadOnGround(axle: Axle, { plain, bound }: SpringLoad, effect: GroundEffect): Claim {
  if (effect === 'none') return plain
  if (effect === 'relieved') return bound
  const high = effect === 'pressed' ? highEnd(plain) : null
  return high ? { kind: 'atMost', high, reason: 'touchedGround' }
    : untold('touchedGround', { code: 'mayBePressed', axle })
}

/** What is to be said of the ends on the ground: those known by their clearance only, and what they press. */
export function groundRemarks(
  chassis: Chassis, seen: Readonly<Record<Axle, boolean>>, grounded: Readonly<Record<Axle, boolean>>,
  effects: Readonly<Record<Axle, GroundEffect>>,
): Remark[] {
  const remarks = AXLES.filter((axle) => grounded[axle] && !seen[axle])
    .map((axle) => remark('touchedByClearance', { axle }))
  if (grounded.front !== grounded.rear && AXLES.every((axle) => effects[axle] === 'relieved')) {
    remarks.push(remark('oneEndTouched'))
  }
  for (const axle of AXLES) {
    const end = chassis.trayEnds?.[axle] ?? null
    if (!grounded[axle] || end?.where === 'betweenAxles') continue
    remarks.push(end ? pressedRemark(otherAxle(axle), end.beyondMm, chassis) : remark('trayPlaceUnknown', { axle }))
  }
  return remarks
}

function pressedRemark(axle: Axle, beyondMm: Measured | null, chassis: Chassis): Remark {
  if (!beyondMm) return remark('farAxlePressed', { axle })
  return remark('farAxlePressedBy', { axle, pressedShare: beyondMm.value / wheelbase(chassis).value })
}
