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

const CLOCK = /(?:(\d{4})-(\d{2})-(\d{2})[T ])?(\d{1,2}):(\d{2})(?::(\d{2}(?:[.,]\d*)?))?/

/** Seconds of a clock time such as `09:30:12.250`, counted on from a date before it where there is one. */
export function clockSeconds(text: string): number {
  const match = CLOCK.exec(text)
  if (!match) return NaN
  const [, year, month, day, hours, minutes, seconds = '0'] = match
  const days = year ? Date.UTC(Number(year), Number(month) - 1, Number(day)) / 86_400_000 : 0
  return days * 86_400 + Number(hours) * 3600 + Number(minutes) * 60 + Number(seconds.replace(',', '.'))
}
