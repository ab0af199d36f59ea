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
