/**
 * A sensor away from the centre of gravity shows what its own place does: a_s = a + alpha x e + omega x
 * (omega x e) (transport of the acceleration of a rigid body's point). On a steady circle omega = v/R; in a
 * slalom the yaw acceleration adds at right angles in time to the swing.
 */
import type { Accelerometer } from '@core/schema'
import { combine, fromSource, known, type Uncertain } from '@core/uncertainty'

export type SensorPlace = NonNullable<Accelerometer['place']>

/**
 * Factor on a circle's level read at the sensor that makes it the centre of gravity's:
 * 1 / (1 - s y/R), s = 1 turning right, -1 turning left, y to the right. With both ways driven alike the
 * mean of the two needs none. `placeFactor({ rightMm: 20 }, 2 m, turning right)` is 1.0101.
 *
 * @param turn null where nobody told: then the factor is 1 and carries the whole offset as its uncertainty
 */
export function circleFactor(
  sensorId: string, { rightMm }: Pick<SensorPlace, 'rightMm'>, radiusM: number, turn: 'right' | 'left' | null,
): Uncertain {
  const share = rightMm.value / 1000 / radiusM
  const u = rightMm.u / 1000 / radiusM
  const source = known('sensorPlace', `sensor:${sensorId}:right`)
  if (turn === null) return fromSource(1, Math.hypot(share, u), source)
  const way = turn === 'right' ? 1 : -1
  const factor = 1 / (1 - way * share)
  return combine(factor, [[fromSource(0, u, source), way * factor ** 2]])
}

/**
 * Factor on a slalom's half-cycle amplitude. The path swings once in two cone spacings s, the yaw
 * acceleration at a distance x ahead is a pi x / s a quarter cycle off, so the sensor shows
 * sqrt(1 + (pi x/s)^2) times the amplitude.
 */
export function slalomFactor(
  sensorId: string, { aheadMm }: Pick<SensorPlace, 'aheadMm'>, coneSpacingM: number,
): Uncertain {
  const perMm = Math.PI / coneSpacingM / 1000
  const share = aheadMm.value * perMm
  const factor = 1 / Math.sqrt(1 + share ** 2)
  const error = fromSource(0, aheadMm.u, known('sensorPlace', `sensor:${sensorId}:ahead`))
  return combine(factor, [[error, -(factor ** 3) * share * perMm]])
}
