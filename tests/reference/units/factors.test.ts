/**
 * Conversion factors against NIST Special Publication 811 (2008), "Guide for the Use of the SI",
 * appendix B.8 (factors listed alphabetically). Printed figures from memory; the ones marked exact follow from
 * the definitions of 1901 and 1959 alone.
 */
import { describe, expect, it } from 'vitest'
import { fromKept, stepToKept, toKept, type Unit } from '@core/units'

/** The figure as printed in B.8 and the relative rounding of that print (half a unit in its last digit). */
const PRINTED: readonly (readonly [string, Unit, number, number])[] = [
  ['gram-force to newton: 9.806 65 E-03, exact', 'gramForce', 9.80665e-3, 0],
  ['kilogram-force to newton: 9.806 65 E+00, exact', 'kilogramForce', 9.80665, 0],
  ['ounce (avoirdupois)-force to newton: 2.780 139 E-01', 'ounceForce', 0.2780139, 0.5e-7 / 0.27],
  ['pound-force to newton: 4.448 222 E+00', 'poundForce', 4.448222, 0.5e-6 / 4.4],
  ['inch to millimetre: 2.54 E+01, exact', 'inch', 25.4, 0],
  ['foot to metre: 3.048 E-01, exact', 'foot', 0.3048, 0],
  ['kilometre per hour to metre per second: 2.777 778 E-01', 'kilometrePerHour', 0.2777778, 0.5e-7 / 0.27],
  ['mile per hour to metre per second: 4.4704 E-01, exact', 'milePerHour', 0.44704, 0],
  ['ounce (avoirdupois) to kilogram: 2.834 952 E-02', 'ounce', 2.834952e-2, 0.5e-8 / 2.8e-2],
  ['pound (avoirdupois) to kilogram: 4.535 924 E-01', 'pound', 0.4535924, 0.5e-7 / 0.45],
  ['millibar to pascal: 1.0 E+02, exact', 'hectopascal', 100, 0],
  ['acceleration of free fall, standard: 9.806 65 E+00, exact', 'standardGravity', 9.80665, 0],
  ['square inch to square metre: 6.4516 E-04, exact', 'squareInch', 6.4516e-4, 0],
  // lbf/in: 1.751 268 E+02 N/m, as "pound-force per inch".
  ['pound-force per inch to newton per metre: 1.751 268 E+02', 'poundForcePerInch', 0.1751268, 0.5e-7 / 0.17],
]

describe('factors of NIST SP 811 B.8', () => {
  it.each(PRINTED)('%s', (_title, unit, figure, rounding) => {
    expect(Math.abs(stepToKept(1, unit) / figure - 1)).toBeLessThanOrEqual(rounding + 4 * Number.EPSILON)
  })

  it('has the pound-force exact: 0.453 592 37 kg (1959) times 9.806 65 m/s2 (3rd CGPM)', () => {
    expect(toKept(1, 'poundForce')).toBe(4.4482216152605)
  })

  it('converts degrees by B.8: K = C + 273.15, K = (F + 459.67)/1.8', () => {
    expect(toKept(20, 'celsius')).toBeCloseTo(293.15, 12)
    expect(toKept(32, 'fahrenheit')).toBeCloseTo(273.15, 12)
    expect(toKept(212, 'fahrenheit')).toBeCloseTo(373.15, 12)
    expect(fromKept(310.15, 'fahrenheit')).toBeCloseTo(98.6, 10)
  })
})
