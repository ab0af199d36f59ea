/**
 * Density of moist air by the CIPM-2007 formula: A. Picard, R. S. Davis, M. Glaeser and K. Fujii,
 * Metrologia 45 (2008) 149. Valid from 600 hPa to 1100 hPa and 15 C to 27 C at its own relative
 * standard uncertainty of 22e-6; outside it serves well past what a bench needs.
 */

const MOLAR_GAS = 8.314472
const MOLAR_WATER = 18.01528e-3
/** Mole fraction of carbon dioxide taken where none was measured (the formula's own default). */
export const CARBON_DIOXIDE = 0.0004
/** Relative standard uncertainty of the formula itself. */
export const FORMULA_U = 22e-6

/** Vapour pressure of water at saturation, Pa. Temperature in K. */
export const saturationPressure = (temperatureK: number): number =>
  Math.exp(1.2378847e-5 * temperatureK ** 2 - 1.9121316e-2 * temperatureK + 33.93711047 - 6.3431645e3 / temperatureK)

/** How much more vapour air holds than empty space does. */
function enhancement(temperatureK: number, pressurePa: number): number {
  const celsius = temperatureK - 273.15
  return 1.00062 + 3.14e-8 * pressurePa + 5.6e-7 * celsius ** 2
}

/** Compressibility of moist air; `vapour` is the mole fraction of water. */
export function compressibility(temperatureK: number, pressurePa: number, vapour: number): number {
  const t = temperatureK - 273.15
  const ratio = pressurePa / temperatureK
  const first = 1.58123e-6 - 2.9331e-8 * t + 1.1043e-10 * t ** 2 + (5.707e-6 - 2.051e-8 * t) * vapour
    + (1.9898e-4 - 2.376e-6 * t) * vapour ** 2
  return 1 - ratio * first + ratio ** 2 * (1.83e-11 - 0.765e-8 * vapour ** 2)
}

/**
 * Density of moist air, kg/m3.
 *
 * @param temperatureK 220 to 340
 * @param pressurePa 20,000 to 120,000
 * @param relativeHumidity 0 to 1
 * @param carbonDioxide mole fraction
 * @example moistAirDensity(293.15, 101325, 0.5) // 1.1992
 */
export function moistAirDensity(
  temperatureK: number, pressurePa: number, relativeHumidity: number, carbonDioxide = CARBON_DIOXIDE,
): number {
  const saturated = enhancement(temperatureK, pressurePa) * saturationPressure(temperatureK) / pressurePa
  const vapour = relativeHumidity * saturated
  const molarDry = (28.96546 + 12.011 * (carbonDioxide - 0.0004)) * 1e-3
  const factor = compressibility(temperatureK, pressurePa, vapour)
  return (pressurePa * molarDry) / (factor * MOLAR_GAS * temperatureK) * (1 - vapour * (1 - MOLAR_WATER / molarDry))
}
