/** The air of a run: its density with the parts that thermometer, barometer, hygrometer and formula have in it. */
import { remark } from '@core/remark'
import type { Air } from '@core/schema'
import { combine, entered, exact, fromSource, known, type Uncertain } from '@core/uncertainty'
import { geopotentialHeight, pressureSlope, standardPressure } from './atmosphere'
import { FORMULA_U, moistAirDensity } from './density'
import type { AirResult } from './types'

/** Day-to-day weather about the mean pressure of a place, Pa (common practice, no source). */
export const WEATHER_U_PA = 1000

/**
 * Density of the air of a run.
 *
 * The uncertainties are those of the instruments, which a session's runs share: the sources are
 * named after the session, so that a comparison within it is free of them.
 *
 * @param scope the session's id
 */
export function readAir(air: Air, scope: string): AirResult {
  const of = (what: string, measured: { value: number; u: number }): Uncertain =>
    entered(measured, 'air', `air:${scope}:${what}`)
  const temperatureK = of('temperature', air.temperatureK)
  const relativeHumidity = of('humidity', air.relativeHumidity)
  const pressurePa = readPressure(air, of)
  const remarks = air.pressurePa ? [] : [air.heightM
    ? remark('pressureFromHeight', { pressurePa: pressurePa.value, uPa: WEATHER_U_PA })
    : remark('pressureAssumed', { pressurePa: pressurePa.value, uPa: 3 * WEATHER_U_PA })]
  const densityKgM3 = densityOf(temperatureK, pressurePa, relativeHumidity)
  return { densityKgM3, pressurePa, temperatureK, relativeHumidity, remarks }
}

function readPressure(air: Air, of: (what: string, measured: { value: number; u: number }) => Uncertain): Uncertain {
  if (air.pressurePa) return of('pressure', air.pressurePa)
  if (!air.heightM) return of('weather', { value: standardPressure(0), u: 3 * WEATHER_U_PA })
  const height = of('height', air.heightM)
  const geopotentialM = geopotentialHeight(height.value)
  const weather = of('weather', { value: 0, u: WEATHER_U_PA })
  return combine(standardPressure(geopotentialM), [[height, pressureSlope(geopotentialM)], [weather, 1]])
}

/** Density with its sensitivities, by central differences of the smooth formula. */
export function densityOf(temperatureK: Uncertain, pressurePa: Uncertain, relativeHumidity: Uncertain): Uncertain {
  const [t, p, h] = [temperatureK.value, pressurePa.value, relativeHumidity.value]
  const density = moistAirDensity(t, p, h)
  const slope = (step: number, at: (by: number) => number) => (at(step) - at(-step)) / (2 * step)
  return combine(density, [
    [temperatureK, slope(0.01, (by) => moistAirDensity(t + by, p, h))],
    [pressurePa, slope(10, (by) => moistAirDensity(t, p + by, h))],
    [relativeHumidity, slope(1e-3, (by) => moistAirDensity(t, p, h + by))],
    [fromSource(0, FORMULA_U * density, known('airFormula', 'formula:airDensity')), 1],
  ])
}

/** The standard atmosphere's density at sea level, kg/m3 (ISO 2533), for predictions where no air is given. */
export const STANDARD_DENSITY: Uncertain = exact(1.225)
