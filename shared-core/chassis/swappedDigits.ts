/** A slip of typing: two digits of a displayed mass in each other's place. */

export interface SwapWish {
  /** The mass it should agree with, and how closely, kg. */
  readonly near: number
  readonly within: number
  /** One unit of the display, kg, and the display's step, kg. */
  readonly displayKg: number
  readonly resolutionKg: number
}

/** Longest display whose digits are tried. */
const MOST_DIGITS = 9

/**
 * What a displayed mass would be with two of its digits swapped, where that agrees with another mass:
 * 0.521 kg, typed in grams, is 0.251 kg near 0.250 kg. The nearest of all swaps; null where none agrees.
 */
export function swappedDigits(kg: number, { near, within, displayKg, resolutionKg }: SwapWish): number | null {
  const decimals = Math.min(6, Math.max(0, -Math.floor(Math.log10(resolutionKg / displayKg) + 1e-9)))
  const stepKg = displayKg / 10 ** decimals
  const digits = String(Math.round(kg / stepKg))
  if (digits.length > MOST_DIGITS) return null
  let best: number | null = null
  for (let i = 0; i < digits.length; i++) {
    for (let j = i + 1; j < digits.length; j++) {
      const swapped = Number(exchanged(digits, i, j)) * stepKg
      const off = Math.abs(swapped - near)
      if (digits[i] !== digits[j] && off <= within && (best === null || off < Math.abs(best - near))) best = swapped
    }
  }
  return best
}

const exchanged = (digits: string, i: number, j: number): string =>
  digits.slice(0, i) + digits[j] + digits.slice(i + 1, j) + digits[i] + digits.slice(j + 1)
