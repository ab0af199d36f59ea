import { id } from '@core/schema'
import { z } from 'zod'

const file = z.object({ chassis: z.object({ id }) })

/** Id of the car in an exchange file's text; null where it is none. */
export function carIdIn(text: string): string | null {
  try {
    const read = file.safeParse(JSON.parse(text))
    return read.success ? read.data.chassis.id : null
  } catch {
    return null
  }
}

const NAME_LENGTH = 200

/** `wanted`, or with the least number from 2 behind it that none of `taken` has: "Heron (2)". */
export function freeName(wanted: string, taken: readonly string[]): string {
  for (let count = 1; ; count++) {
    const mark = count === 1 ? '' : ` (${count})`
    const name = wanted.slice(0, NAME_LENGTH - mark.length) + mark
    if (!taken.includes(name)) return name
  }
}

/** The exchange file's text with its car's name marked where one of `taken` is the same; `text` must hold a car. */
export function namedApart(text: string, taken: readonly string[]): string {
  const read = z.looseObject({ chassis: z.looseObject({ name: z.string() }) }).safeParse(JSON.parse(text))
  if (!read.success) return text
  const { chassis, ...rest } = read.data
  return JSON.stringify({ ...rest, chassis: { ...chassis, name: freeName(chassis.name, taken) } })
}
