/** How many decimals a converted value needs in a field, or for an instrument's step. */
import { stepFromKept, type Unit } from './quantities'
import { decimalsFor, fixedText } from './round'

/** A field shows a converted value to this share of itself; what is kept is not touched. */
const SHARE = 5e-4

/** Step of a rule or a tape, by which lengths on the car are read, mm (common practice, no source). */
export const RULE_STEP_MM = 1

/** A value has no more than so many decimals, as one has that was typed in this unit. */
export function endsWithin(shown: number, decimals: number): boolean {
  const steps = Math.abs(shown) * 10 ** decimals
  return Math.abs(steps - Math.round(steps)) <= Math.max(1e-6, 1e-14 * steps)
}

/**
 * Decimals with which a value stands in a field: all of them where it ends within `most`, as a typed one
 * does; else the fewest that tell it to half a part in a thousand: three or four digits. 0.5 N in gf is 50.9858...,
 * shown as 51.
 *
 * @param shown the value in the unit it is shown in
 * @param most decimals at the most
 * @param share of the value that may be lost
 */
export function fieldDecimals(shown: number, most: number, share = SHARE): number {
  if (endsWithin(shown, most)) return most
  for (let decimals = 0; decimals < most; decimals++) {
    const rounded = Math.round(shown * 10 ** decimals) / 10 ** decimals
    if (Math.abs(rounded - shown) <= share * Math.abs(shown)) return decimals
  }
  return most
}

/** Decimals with which an instrument's step, in the kept unit, can be told in a unit: 1 g is 3 in kg, 2 in oz. */
export const stepDecimals = (stepKept: number, unit: Unit): number =>
  Math.max(0, Math.ceil(-Math.log10(stepFromKept(stepKept, unit)) - 1e-9))

/** Decimals of three significant digits at the most, none of them an empty end: 0.0674427 has 4, 15 none. */
export function shortDecimals(shown: number): number {
  const most = shown === 0 || !Number.isFinite(shown) ? 0 : Math.max(0, decimalsFor(Math.abs(shown), 3))
  const end = fixedText(shown, most).split('.')[1] ?? ''
  return end.replace(/0+$/, '').length
}

/** A converted reading may be off by this share of the step: with 0.3 its u grows by less than 5 %, sqrt(1 + 0.3^2). */
const ROUNDING_SHARE = 0.3

/**
 * Decimals with which all readings of an instrument stand, so that they line up: those of its step where the step
 * is a figure of this unit (0.05 mm: 2), else enough that the conversion hardly adds to the rounding of the display
 * (the same in inches: 4).
 */
export function readingDecimals(stepKept: number, unit: Unit): number {
  const step = stepFromKept(stepKept, unit)
  const own = stepDecimals(stepKept, unit)
  const ended = [own, own + 1].find((decimals) => endsWithin(step, decimals))
  return ended ?? Math.max(0, Math.ceil(-Math.log10(ROUNDING_SHARE * step) - 1e-9))
}
