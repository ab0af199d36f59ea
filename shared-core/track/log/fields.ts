/** Fields of a log as numbers; NaN where they are none. */

/** Beyond this no logger writes anything, nanoseconds since 1970 included. */
const LARGEST = 1e20

/** A number with the log's decimal mark. Blank, hexadecimal, infinite and absurd fields are no numbers. */
export function fieldNumber(text: string, decimal: 'point' | 'comma'): number {
  const value = Number(decimal === 'comma' ? text.replace(',', '.') : text)
  if (value === 0 && text.trim() === '') return NaN
  if (!(Math.abs(value) <= LARGEST) || text.includes('x')) return NaN
  return value
}

const DATE = String.raw`(?:(\d{4})-(\d{1,2})-(\d{1,2})[T ]+|(\d{1,2})[/.](\d{1,2})[/.](\d{4})[T ]+)?`
const CLOCK = new RegExp(String.raw`^\s*${DATE}(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,:](\d+))?)?\s*(?:Z|[+-]\d{2}:?\d{2})?\s*$`)

/** True for a whole field that is a clock time, with a date before it or not. */
export const isClock = (text: string): boolean => CLOCK.test(text)

/**
 * Seconds of a clock time such as `09:30:12.250`, counted on from a date before it where there is one.
 * The fraction may stand behind a point, a comma or a colon (`09:30:12:2500` is a quarter second).
 */
export function clockSeconds(text: string): number {
  const match = CLOCK.exec(text)
  if (!match) return NaN
  const [, year, month, day, dayFirst, monthSecond, yearLast, hours, minutes, seconds = '0', fraction = ''] = match
  const days = year ? dayNumber(year, month!, day!) : yearLast ? dayNumber(yearLast, monthSecond!, dayFirst!) : 0
  return days * 86_400 + Number(hours) * 3600 + Number(minutes) * 60 + Number(`${seconds}.${fraction || '0'}`)
}

/** Days since 1970; a month above twelve is the day of a date written the other way round. */
function dayNumber(year: string, month: string, day: string): number {
  const [m, d] = Number(month) > 12 ? [Number(day), Number(month)] : [Number(month), Number(day)]
  return Date.UTC(Number(year), m - 1, d) / 86_400_000
}
