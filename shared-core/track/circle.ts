/** Steady circle: the acceleration that follows from radius and lap time alone. */
import { combine, type Uncertain } from '@core/uncertainty'

/**
 * Centripetal acceleration of a lap, a = 4 pi^2 R / T^2, m/s2 (uniform circular motion).
 * `circleAcceleration(2.5, 3.99)` is 6.20 m/s2.
 *
 * @param radiusM radius of the centre of gravity's path, above zero
 * @param lapS lap time, above zero
 */
export const circleAcceleration = (radiusM: number, lapS: number): number => (4 * Math.PI ** 2 * radiusM) / lapS ** 2

/** Standard uncertainty that a lap time's `uTimeS` gives its acceleration: |da/dT| u = 2 a u / T. */
export const timingU = (levelMs2: number, lapS: number, uTimeS: number): number => (2 * levelMs2 * uTimeS) / lapS

/** Road speed v = sqrt(a R), with the radius' part in both: as 2 pi R / T it goes with R itself. */
export function circleSpeed(levelMs2: Uncertain, radiusM: Uncertain): Uncertain {
  const speed = Math.sqrt(levelMs2.value * radiusM.value)
  return combine(speed, [[levelMs2, speed / (2 * levelMs2.value)], [radiusM, speed / (2 * radiusM.value)]])
}
