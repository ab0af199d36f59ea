/**
 * Every term of the CIPM-2007 formula: Picard, Davis, Glaeser, Fujii, Metrologia 45 (2008) 149, eqs. 1, A1.1 to A1.4
 * and its coefficients, written down a second time in another language (Python) and evaluated far outside the
 * laboratory, where each small term counts. The figures show the arithmetic, not the formula's validity there.
 */
import { moistAirDensity } from '@core/airflow'
import { describe, expect, it } from 'vitest'

describe('the formula, term by term', () => {
  it.each([
    [333.15, 60_000, 1, 0.0004, 0.5490174145404542],
    [323.15, 110_000, 0.95, 0.0004, 1.1384899408101392],
    [253.15, 101_325, 0.5, 0.0004, 1.395296051111375],
    [313.15, 90_000, 0.8, 0.001, 0.9768956048863806],
  ])('%d K, %d Pa, humidity %d, carbon dioxide %d', (temperatureK, pressurePa, humidity, carbonDioxide, densityKgM3) => {
    const density = moistAirDensity(temperatureK, pressurePa, humidity, carbonDioxide)
    expect(density / densityKgM3).toBeCloseTo(1, 12)
  })

  it('takes 400 parts in a million of carbon dioxide where none is told', () => {
    expect(moistAirDensity(253.15, 101_325, 0.5)).toBe(moistAirDensity(253.15, 101_325, 0.5, 0.0004))
  })
})
