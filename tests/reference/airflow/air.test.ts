/** Air density and the standard atmosphere against published values. */
import { geopotentialHeight, moistAirDensity, readAir, standardDensity, standardPressure, standardTemperature } from '@core/airflow'
import { describe, expect, it } from 'vitest'

const MMHG_PA = 133.322387415

describe('CIPM-2007 moist air', () => {
  // S. V. Gupta, Mass Metrology, Springer 2012, appendix, p. 205 (as quoted in a public test of another
  // implementation, which holds the second to 1e-4 kg/m3 as well: 40 C lies outside the formula's range).
  it.each([
    [283.15, 730, 0.4, 1.19569, 1e-5],
    [313.15, 760, 0.4, 1.11497, 1e-4],
  ])('%d K, %d mmHg, humidity %d', (temperatureK, pressureMmHg, humidity, densityKgM3, within) => {
    const density = moistAirDensity(temperatureK, pressureMmHg * MMHG_PA, humidity)
    expect(Math.abs(density - densityKgM3)).toBeLessThan(within)
  })

  // Figures printed in the documentation of Psychro.jl 0.3, which uses other published equations of moist air
  // (virial coefficients, 20 C, 101325 Pa).
  it.each([[0, 1.2044776705391136], [0.7, 1.1971436091840653]])('an independent library, humidity %d', (humidity, density) => {
    expect(Math.abs(moistAirDensity(293.15, 101_325, humidity) / density - 1)).toBeLessThan(1e-4)
  })

  // From memory: about 1.199 kg/m3 at 20 C, 101325 Pa, 50 %.
  it('a laboratory\'s usual air', () => {
    expect(moistAirDensity(293.15, 101_325, 0.5)).toBeCloseTo(1.199, 3)
  })

  // OIML R 111-1:2004, E.3-1: rho = (0.34848 p - 0.009 h exp(0.061 t)) / (273.15 + t), p in hPa, h in %, with a
  // relative standard uncertainty of 2e-4 (so within twice that) from 900 hPa to 1100 hPa, 10 C to 30 C, below 80 %.
  it.each([
    [10, 900, 20], [10, 1100, 70], [20, 1013.25, 50], [30, 950, 60], [30, 1050, 30], [15, 1000, 0],
  ])('the recommended approximation agrees: %d C, %d hPa, %d in a hundred', (celsius, hPa, percent) => {
    const approximate = (0.34848 * hPa - 0.009 * percent * Math.exp(0.061 * celsius)) / (273.15 + celsius)
    expect(Math.abs(moistAirDensity(celsius + 273.15, hPa * 100, percent / 100) / approximate - 1)).toBeLessThan(4e-4)
  })

  // Ideal gas, dry, 20 C, 101325 Pa: 1.2041 kg/m3; compressibility and today's carbon dioxide add 0.03 %.
  it('dry air is near the ideal gas', () => {
    expect(moistAirDensity(293.15, 101_325, 0) / 1.2041).toBeCloseTo(1, 3)
  })

  // Relative sensitivities published with the formula (Picard et al. 2008, table 3), near 20 C, 101325 Pa, 50 %:
  // -4e-3 per K, +1e-5 per Pa, -9e-3 per unit of relative humidity (rounded figures, from memory).
  it('sensitivities', () => {
    const air = readAir({
      temperatureK: { value: 293.15, u: 1 }, pressurePa: { value: 101_325, u: 1 }, heightM: null,
      relativeHumidity: { value: 0.5, u: 1 },
    }, 's')
    const part = (what: string) => air.densityKgM3.parts
      .find(({ source }) => source.id === `air:s:${what}`)!.contribution / air.densityKgM3.value
    expect(part('temperature')).toBeCloseTo(-4e-3, 3)
    expect(part('pressure')).toBeCloseTo(1e-5, 6)
    expect(part('humidity')).toBeCloseTo(-9e-3, 3)
    expect(air.densityKgM3.parts.find(({ source }) => source.id === 'formula:airDensity')!.contribution
      / air.densityKgM3.value).toBeCloseTo(22e-6, 9)
  })
})

describe('ISO 2533 standard atmosphere', () => {
  // Rows of the standard's table by geopotential height: temperature K, pressure Pa, density kg/m3 (0 m checked in two
  // places; the others from memory, and the closed form of the standard's own constants agrees).
  it.each([
    [0, 288.15, 101_325, 1.225],
    [500, 284.9, 95_460.8, 1.16727],
    [1000, 281.65, 89_874.6, 1.11164],
    [2000, 275.15, 79_495.2, 1.00649],
    [3000, 268.65, 70_108.5, 0.909122],
    [5000, 255.65, 54_019.9, 0.736116],
  ])('%d m', (heightM, temperatureK, pressurePa, densityKgM3) => {
    expect(standardTemperature(heightM)).toBeCloseTo(temperatureK, 9)
    expect(standardPressure(heightM) / pressurePa).toBeCloseTo(1, 5)
    expect(standardDensity(heightM) / densityKgM3).toBeCloseTo(1, 5)
  })

  // Closed form of the standard's eq. 2 with earth radius 6356766 m: 5000 m are 4996.07 geopotential metres.
  it('geopotential height', () => {
    expect(geopotentialHeight(5000)).toBeCloseTo(4996.07, 2)
  })
})
