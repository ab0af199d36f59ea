/**
 * Reads a number as a builder types it: decimal comma or point, spaces, a unit after it if they like.
 * What cannot be read for certain is refused with what to type instead, and the text is kept.
 */
import type { DecimalMark } from './choice'
import { quantityOf, symbolOf, toKept, UNITS, type Unit } from './quantities'

export type TypedProblem = 'empty' | 'notANumber' | 'ambiguousThousands' | 'spaceInNumber' | 'unknownUnit' | 'tooLarge'

export type Typed =
  /** `kept` is in the unit the quantity is kept in, `shown` in `unit`: the field's, or the one typed. */
  | { readonly ok: true; readonly text: string; readonly kept: number; readonly shown: number; readonly unit: Unit }
  | {
      readonly ok: false
      readonly text: string
      readonly problem: TypedProblem
      /** Says what to do, in English. `values` holds its parts, for a sentence in another language. */
      readonly message: string
      readonly values: Readonly<Record<string, string>>
    }

export interface TypingHabit {
  /** Settles what "1,234" or "1.234" means: with the chosen mark it is a decimal, with the other it is refused. */
  readonly decimalMark?: DecimalMark
}

/** Spaces that people and pages put into numbers. */
const SPACES = /[\s\u00a0\u2007\u2009\u202f]/g
const NUMBER = /^([+-]?)([\d.,\s'\u2019]*)(e[+-]?\d{1,3})?\s*([^\d\s].*)?$/i
const LONGEST = 80

/**
 * Reads typed text in a field's unit.
 *
 * `parseTyped('12,5', 'millimetre')` is 12.5 mm; `parseTyped('1/2 in', ...)` is refused;
 * `parseTyped('0.5 in', 'millimetre')` is 12.7 mm; `parseTyped('1,234', 'gram')` is refused as
 * ambiguous, while with the habit of a decimal comma it is 1.234 g.
 *
 * @param text as typed, any length; longer than 80 characters is no number
 * @param unit the field's unit; another unit of the same quantity may be typed after the number
 */
export function parseTyped(text: string, unit: Unit, { decimalMark = 'point' }: TypingHabit = {}): Typed {
  const trimmed = text.replace(/[\u2212\u2013]/g, '-').replace(SPACES, ' ').trim()
  if (trimmed === '') return refuse(text, 'empty', 'type a number', {})
  const match = trimmed.length > LONGEST ? null : NUMBER.exec(trimmed)
  if (!match || !/\d/.test(match[2] ?? '')) {
    return refuse(text, 'notANumber', `"${shorten(trimmed)}" is not a number: type digits, like 12.5 or 12,5`, {})
  }
  const [, sign = '', body = '', exponent = '', suffix = ''] = match
  const found = suffix === '' ? unit : unitTyped(suffix.trim(), unit)
  if (found === null) return refuseUnit(text, suffix.trim(), unit)
  const digits = plainDigits(body.trim(), decimalMark)
  if (typeof digits !== 'string') return { ...digits, text }
  const shown = Number(`${sign}${digits}${exponent}`)
  if (!Number.isFinite(shown) || Math.abs(shown) > 1e15) {
    return refuse(text, 'tooLarge', 'this number is too large to be a reading', {})
  }
  return { ok: true, text, kept: toKept(shown, found), shown, unit: found }
}

/** The digits with a decimal point and nothing else, or why they cannot be read. */
function plainDigits(body: string, decimalMark: DecimalMark): string | Typed {
  const spaced = /^\d{1,3}([ '\u2019]\d{3})+([.,]\d*)?$/.test(body)
  if (/[ '\u2019]/.test(body) && !spaced) {
    return refuse(body, 'spaceInNumber', `there is a space inside "${body}": type one number`, { typed: body })
  }
  const packed = body.replace(/[ '\u2019]/g, '')
  const marks = packed.replace(/\d/g, '')
  if (marks === '') return packed
  if (marks.length === 1) return oneMark(packed, marks, decimalMark, spaced)
  return severalMarks(packed, marks)
}

function oneMark(packed: string, mark: string, decimalMark: DecimalMark, spaced: boolean): string | Typed {
  const own = mark === (decimalMark === 'point' ? '.' : ',')
  const looksGrouped = /^[1-9]\d{0,2}[.,]\d{3}$/.test(packed)
  if (looksGrouped && !own && !spaced) {
    const whole = packed.replace(mark, '')
    const decimal = packed.replace(mark, mark === '.' ? ',' : '.')
    return refuse(
      packed, 'ambiguousThousands', `"${packed}" may mean two numbers: type ${whole} or ${decimal}`,
      { typed: packed, whole, decimal },
    )
  }
  return packed.replace(mark, '.')
}

/** "1,234.5", "1.234.567": the groups of three tell which mark is which; anything else is no number. */
function severalMarks(packed: string, marks: string): string | Typed {
  const last = marks.at(-1) as string
  const group = marks[0] as string
  const allSame = [...marks].every((each) => each === group)
  const grouped = allSame
    ? /^\d{1,3}([.,]\d{3})+$/.test(packed)
    : [...marks.slice(0, -1)].every((each) => each === group) && group !== last && /^\d{1,3}([.,]\d{3})+[.,]\d*$/.test(packed)
  if (!grouped) {
    return refuse(packed, 'notANumber', `"${packed}" is not a number: use one decimal mark, like 12.5 or 12,5`, {})
  }
  const whole = packed.replaceAll(group, '')
  return allSame ? whole : whole.replace(last, '.')
}

/** The unit meant by a suffix, among those of the field's quantity; null where it is none of them. */
function unitTyped(suffix: string, field: Unit): Unit | null {
  const same = siblings(field)
  const exactly = same.find((each) => symbolOf(each) === suffix)
  if (exactly) return exactly
  const lower = suffix.toLowerCase()
  return same.find((each) =>
    symbolOf(each).toLowerCase() === lower || (UNITS[each].typed as readonly string[]).includes(lower)) ?? null
}

const siblings = (field: Unit): Unit[] =>
  (Object.keys(UNITS) as Unit[]).filter((each) => quantityOf(each) === quantityOf(field) && symbolOf(each) !== '')

function refuseUnit(text: string, suffix: string, field: Unit): Typed {
  const known = siblings(field).map(symbolOf).join(', ')
  const hint = quantityOf(field) === 'force' && /^(k?g|lbs?|oz)$/i.test(suffix) ? ` (${suffix} is a mass)` : ''
  return refuse(
    text, 'unknownUnit', `"${shorten(suffix)}" is no unit for this field${hint}: use ${known}, or no unit`,
    { typed: shorten(suffix), known },
  )
}

const shorten = (text: string): string => (text.length > 24 ? `${text.slice(0, 24)}…` : text)

const refuse = (
  text: string, problem: TypedProblem, message: string, values: Record<string, string>,
): Extract<Typed, { ok: false }> => ({ ok: false, text, problem, message, values })
