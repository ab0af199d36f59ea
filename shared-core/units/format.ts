/** Kept values as texts in a builder's unit, ending where their uncertainty says. */
import type { DecimalMark } from './choice'
import { fromKept, stepFromKept, symbolOf, type Unit } from './quantities'
import { fieldDecimals, shortDecimals } from './fieldDecimals'
import { decimalsFor, fixedText, nearest, roundByUncertainty } from './round'

export interface FormatOptions {
  /** Standard uncertainty in the kept unit; decides the digits where it is above zero. */
  readonly u?: number | undefined
  /** Digits after the decimal mark, where there is no uncertainty to decide them. */
  readonly decimals?: number | undefined
  readonly decimalMark?: DecimalMark | undefined
  /** A plus sign before positive values, for differences. */
  readonly signed?: boolean | undefined
  /** The value is a difference: an offset unit (degrees) converts without its offset. */
  readonly step?: boolean | undefined
}

export interface Formatted {
  readonly value: string
  /** The standard uncertainty with the same end; null where none was given. */
  readonly u: string | null
  readonly symbol: string
  /** The number that `value` shows, for a sheet: NaN where there is none. */
  readonly figure: number
  /** Value and unit with a no-break space between, before % too (NIST SP 811, 7.10.2). */
  readonly text: string
}

const NO_BREAK = '\u00a0'

const marked = (text: string, mark: DecimalMark): string => (mark === 'comma' ? text.replace('.', ',') : text)
const minusSign = (text: string): string => text.replace(/^-/, '\u2212')

/**
 * A kept value in a unit. `formatQuantity(12.3456, 'newton', { u: 0.21 }).text` is "12.35 N".
 * A value that is not finite becomes a dash.
 */
export function formatQuantity(kept: number, unit: Unit, options: FormatOptions = {}): Formatted {
  const { u, decimals, decimalMark = 'point', signed = false, step = false } = options
  const symbol = symbolOf(unit)
  if (!Number.isFinite(kept)) return { value: '–', u: null, symbol, figure: NaN, text: '–' }
  const shown = step ? stepFromKept(kept, unit) : fromKept(kept, unit)
  const shownU = u === undefined ? 0 : stepFromKept(u, unit)
  const free = shownU > 0 || decimals === undefined
  const rounded = free ? roundByUncertainty(shown, shownU) : null
  const raw = rounded ? rounded.valueText : fixedText(shown, decimals as number)
  const plus = signed && Number(raw) > 0 ? '+' : ''
  const value = plus + minusSign(marked(raw, decimalMark))
  const uText = u === undefined ? null : marked(rounded?.uText ?? '0', decimalMark)
  return { value, u: uText, symbol, figure: Number(raw), text: withSymbol(value, symbol) }
}

/**
 * What was wished, chosen or only converted, without an uncertainty: three significant digits at the most,
 * whole numbers whole.
 */
export function formatShort(
  kept: number, unit: Unit, options: Pick<FormatOptions, 'decimalMark' | 'step'> = {},
): Formatted {
  const shown = (options.step ? stepFromKept : fromKept)(kept, unit)
  return formatQuantity(kept, unit, { ...options, decimals: shortDecimals(shown) })
}

/** Decimals beyond which no instrument is read in any unit. */
const MOST_READ = 6
/** Share of a reading that another unit's digits may lose. */
const READ_SHARE = 1e-4

/**
 * A reading as it was read: every digit that it has in the unit it was read in; in another, four or five
 * significant digits.
 */
export function formatAsRead(kept: number, unit: Unit, options: Pick<FormatOptions, 'decimalMark'> = {}): Formatted {
  const shown = fromKept(kept, unit)
  const most = fieldDecimals(shown, MOST_READ, READ_SHARE)
  const ending = fixedText(shown, most).split('.')[1] ?? ''
  return formatQuantity(kept, unit, { ...options, decimals: ending.replace(/0+$/, '').length })
}

/** A count in threes with a thin no-break space, which no language takes for a mark (ISO 80000-1:2022, 7.3). */
export const groupedCount = (count: number): string =>
  String(Math.round(count)).replace(/\B(?=(\d{3})+$)/g, '\u202f')

/** The two ends of an interval with the same end as its value: "11.9 to 12.8". */
export function formatEnds(
  lowKept: number, highKept: number, unit: Unit, options: FormatOptions = {},
): { low: string; high: string; symbol: string } {
  const { u, decimalMark = 'point', step = false } = options
  const width = u !== undefined && u > 0 ? u : Math.abs(highKept - lowKept) / 4
  const shownWidth = stepFromKept(width, unit)
  const decimals = shownWidth > 0 && Number.isFinite(shownWidth) ? decimalsFor(shownWidth) : (options.decimals ?? 3)
  const shown = (kept: number): string => {
    if (!Number.isFinite(kept)) return '–'
    const value = step ? stepFromKept(kept, unit) : fromKept(kept, unit)
    return minusSign(marked(fixedText(value, decimals), decimalMark))
  }
  return { low: shown(lowKept), high: shown(highKept), symbol: symbolOf(unit) }
}

/** A number's text and its unit with a no-break space; degrees of an angle stand close. */
export const withSymbol = (value: string, symbol: string): string =>
  symbol === '' ? value : symbol === '°' ? `${value}°` : `${value}${NO_BREAK}${symbol}`

/** Significant digits of a bound: a bound has no uncertainty of its own left to end it. */
const BOUND_DIGITS = 3

/**
 * A one-sided bound, rounded outward so that the words "at least" and "at most" stay true:
 * `formatBound(6.1249, 'newton', 'atLeast')` is "6.12 N", `'atMost'` is "6.13 N".
 */
export function formatBound(
  kept: number, unit: Unit, side: 'atLeast' | 'atMost', options: Pick<FormatOptions, 'decimalMark' | 'step'> = {},
): string {
  const { decimalMark = 'point', step = false } = options
  const symbol = symbolOf(unit)
  if (!Number.isFinite(kept)) return '–'
  const shown = step ? stepFromKept(kept, unit) : fromKept(kept, unit)
  const decimals = shown === 0 ? 0 : decimalsFor(Math.abs(shown), BOUND_DIGITS)
  const near = nearest(shown, decimals)
  const slack = Math.abs(shown) * 1e-12
  const inward = side === 'atLeast' ? near > shown + slack : near < shown - slack
  const outward = inward ? near + (side === 'atLeast' ? -1 : 1) * 10 ** -decimals : near
  return withSymbol(minusSign(marked(fixedText(outward, decimals), decimalMark)), symbol)
}
