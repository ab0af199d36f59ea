/**
 * The standard atmosphere below 11 km (ISO 2533:1975, clause 2): mean pressure at a height, for
 * places where no barometer is at hand.
 */
import { STANDARD_GRAVITY_MS2 } from '@core/units'

const SEA_LEVEL_PA = 101_325
const SEA_LEVEL_K = 288.15
const LAPSE_K_PER_M = 0.0065
/** Specific gas constant of dry air, J/(kg K), as the standard fixes it. */
const GAS = 287.05287
const EARTH_M = 6_356_766

/** Geopotential height, m, of a height above sea level, m. */
export const geopotentialHeight = (heightM: number): number => (EARTH_M * heightM) / (EARTH_M + heightM)

/** Temperature of the standard atmosphere, K, at a geopotential height up to 11,000 m. */
export const standardTemperature = (geopotentialM: number): number => SEA_LEVEL_K - LAPSE_K_PER_M * geopotentialM

/** Pressure of the standard atmosphere, Pa, at a geopotential height up to 11,000 m. */
export const standardPressure = (geopotentialM: number): number =>
  SEA_LEVEL_PA * (standardTemperature(geopotentialM) / SEA_LEVEL_K) ** (STANDARD_GRAVITY_MS2 / (LAPSE_K_PER_M * GAS))

/** Density of the standard atmosphere, kg/m3, at a geopotential height up to 11,000 m. */
export const standardDensity = (geopotentialM: number): number =>
  standardPressure(geopotentialM) / (GAS * standardTemperature(geopotentialM))

/** Change of pressure with height there, Pa/m. */
export const pressureSlope = (geopotentialM: number): number => -standardDensity(geopotentialM) * STANDARD_GRAVITY_MS2
