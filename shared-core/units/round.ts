/**
 * Rounding by uncertainty: two significant digits of the standard uncertainty decide where the
 * value ends (JCGM 100:2008, 7.2.6). No more digits are printed than the measurement supports.
 */

export interface Rounded {
  readonly value: number
  readonly u: number
  /** Digits after the decimal mark; negative where tens or hundreds are rounded. */
  readonly decimals: number
  readonly valueText: string
  readonly uText: string
}

/** Most digits after the decimal mark that are ever printed. */
const MOST_DECIMALS = 12

/**
 * Where a value ends whose standard uncertainty is `u`: digits after the decimal mark, negative for
 * tens and hundreds. The carry is seen: 0.0996 is 0.10 with two digits, so it gives 2, not 3.
 *
 * @param u above zero, in the unit to be printed
 * @param digits significant digits of u
 */
export function decimalsFor(u: number, digits = 2): number {
  const exponent = Number(u.toExponential(digits - 1).split('e')[1])
  return Math.min(MOST_DECIMALS, digits - 1 - exponent)
}

/** Text with a fixed end, halves away from zero as the decimal text shows them, and never "-0". */
export function fixedText(value: number, decimals: number): string {
  const text = decimals >= 0 ? nearest(value, decimals).toFixed(decimals) : String(nearest(value, decimals))
  return /^-0(\.0*)?$/.test(text) ? text.slice(1) : text
}

/** Rounds to `decimals`, negative ones to tens and hundreds; never -0. */
export function nearest(value: number, decimals: number): number {
  if (!Number.isFinite(value)) return value
  const [mantissa, exponent] = value.toExponential(15).split('e') as [string, string]
  const shifted = Number(`${Number(mantissa)}e${Number(exponent) + decimals}`)
  const whole = Math.sign(shifted) * Math.round(Math.abs(shifted))
  return Number(`${whole}e${-decimals}`) + 0
}

/**
 * Rounds a value and its standard uncertainty together: `roundByUncertainty(12.3456, 0.0996)` is
 * 12.35 with 0.10. A zero or unknown `u` gives no end: six significant digits of the value stand.
 *
 * @param value finite, in the unit to be printed
 * @param u zero or more, in the same unit
 */
export function roundByUncertainty(value: number, u: number, digits = 2): Rounded {
  const decimals = u > 0 && Number.isFinite(u) ? decimalsFor(u, digits) : decimalsOfExact(value)
  const valueText = fixedText(value, decimals)
  const uText = u > 0 && Number.isFinite(u) ? fixedText(u, decimals) : '0'
  return { value: Number(valueText), u: Number(uText), decimals, valueText, uText }
}

/** As many decimals as six significant digits of an exact value need, without trailing zeros. */
function decimalsOfExact(value: number): number {
  if (value === 0 || !Number.isFinite(value)) return 0
  const plain = String(Number(value.toPrecision(6)))
  if (plain.includes('e')) return Math.max(0, Math.min(MOST_DECIMALS, decimalsFor(Math.abs(value), 6)))
  return plain.split('.')[1]?.length ?? 0
}
