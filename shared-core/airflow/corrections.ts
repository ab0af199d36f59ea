/** What stands between a reading and the air's load besides the air: the pitch of acceleration, and the tyre. */
import { staticLoads, wheelbase } from '@core/chassis'
import { remark, type Remark } from '@core/remark'
import type { Axle, Chassis } from '@core/schema'
import { combine, entered, type Uncertain } from '@core/uncertainty'
import type { Datum } from './types'

/** Mass of the car, kg, as weighed, else from the corner masses; null where neither is there. */
export function carMass(chassis: Chassis): Uncertain | null {
  if (chassis.massKg) return entered(chassis.massKg, 'chassis', 'chassis:mass')
  return staticLoads(chassis)?.massKg ?? null
}

/**
 * Load that an acceleration a (forwards +) moves from the front axle to the rear, m a h / L
 * (quasi-static, any vehicle-dynamics text). Anti-dive and anti-squat of the suspension, which can
 * take a part of it without any drop, are not modelled. Null where mass or height are not known.
 */
export function pitchLoad(chassis: Chassis, accelerationMs2: Uncertain): Uncertain | null {
  const mass = carMass(chassis)
  if (!mass || !chassis.cgHeightMm) return null
  const height = entered(chassis.cgHeightMm, 'chassis', 'chassis:cgHeight')
  const length = wheelbase(chassis)
  const value = (mass.value * accelerationMs2.value * height.value) / length.value
  return combine(value, [
    [mass, value / mass.value],
    [accelerationMs2, (mass.value * height.value) / length.value],
    [height, (mass.value * accelerationMs2.value) / length.value],
    [length, -value / length.value],
  ])
}

/** How the tyre enters a run: rise of the hub with speed, and squash per newton (signed, mm/N). */
export interface TyreEffect {
  readonly growthMm: Uncertain | null
  readonly squashMmPerN: Uncertain | null
  readonly remarks: readonly Remark[]
}

/**
 * What to add to an axle's drop so that it compares with the squat test's.
 *
 * Ground to chassis, passing: the tyre has grown by speed and hides part of the drop; the growth is
 * added. Squash matters only where squat test and run were read from different places: a run from
 * the ground has it and a curve from the hub has not (taken off), or the other way (added).
 *
 * @param squatDatum where the squat test was read; null takes it as read like the run
 */
export function tyreEffect(
  chassis: Chassis, axle: Axle, datum: Datum, squatDatum: Datum | null, roadMeanSquareM2S2: Uncertain | null,
): TyreEffect {
  const remarks: Remark[] = []
  const own = chassis.tyres?.[axle] ?? null
  let growthMm: Uncertain | null = null
  if (datum === 'groundToChassis' && roadMeanSquareM2S2) {
    if (own?.growthMmPerMs2) {
      const growth = entered(own.growthMmPerMs2, 'tyre', `tyre:${axle}:growth`)
      growthMm = combine(growth.value * roadMeanSquareM2S2.value, [
        [growth, roadMeanSquareM2S2.value], [roadMeanSquareM2S2, growth.value],
      ])
    } else remarks.push(remark('tyreGrowthUnknown', { axle }))
  }
  if (squatDatum === null || squatDatum === datum) return { growthMm, squashMmPerN: null, remarks }
  if (!own?.rateNPerMm) {
    return { growthMm, squashMmPerN: null, remarks: [...remarks, remark('tyreRateUnknown', { axle })] }
  }
  const rate = entered(own.rateNPerMm, 'tyre', `tyre:${axle}:rate`)
  const sign = datum === 'groundToChassis' ? -1 : 1
  return {
    growthMm, remarks,
    squashMmPerN: combine(sign / rate.value, [[rate, -sign / rate.value ** 2]]),
  }
}
