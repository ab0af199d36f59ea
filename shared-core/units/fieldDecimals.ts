/** How many decimals a converted value needs in a field, or for an instrument's step. */
import { stepFromKept, type Unit } from './quantities'

/** A field shows a converted value to this share of itself; what is kept is not touched. */
const SHARE = 1e-4

/**
 * Decimals with which a value stands in a field: all of them where it ends within `most`, as a typed one
 * does; else the fewest that tell it to one part in ten thousand. 0.5 N in gf is 50.9858..., shown with two.
 *
 * @param shown the value in the unit it is shown in
 * @param most decimals at the most
 */
export function fieldDecimals(shown: number, most: number): number {
  const steps = Math.abs(shown) * 10 ** most
  if (Math.abs(steps - Math.round(steps)) <= Math.max(1e-6, 1e-14 * steps)) return most
  for (let decimals = 0; decimals < most; decimals++) {
    const rounded = Math.round(shown * 10 ** decimals) / 10 ** decimals
    if (Math.abs(rounded - shown) <= SHARE * Math.abs(shown)) return decimals
  }
  return most
}

/** Decimals with which an instrument's step, in the kept unit, can be told in a unit: 1 g is 3 in kg, 2 in oz. */
export const stepDecimals = (stepKept: number, unit: Unit): number =>
  Math.max(0, Math.ceil(-Math.log10(stepFromKept(stepKept, unit)) - 1e-9))
