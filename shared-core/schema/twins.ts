/** Ids tell the entries of one list apart: two with the same id could not be corrected, undone or merged. */
import type { z } from 'zod'

/** A check for `superRefine`: names each entry of any list in the document whose id an earlier one has. */
export function refuseTwins(document: unknown, context: z.RefinementCtx): void {
  walk(document, [])

  function walk(value: unknown, path: PropertyKey[]): void {
    if (typeof value !== 'object' || value === null) return
    if (!Array.isArray(value)) {
      for (const [key, inner] of Object.entries(value)) walk(inner, [...path, key])
      return
    }
    const firstWithId = new Map<unknown, number>()
    value.forEach((entry: unknown, index) => {
      walk(entry, [...path, index])
      const id: unknown = typeof entry === 'object' && entry !== null && 'id' in entry ? entry.id : undefined
      if (id === undefined) return
      const first = firstWithId.get(id)
      if (first === undefined) return void firstWithId.set(id, index)
      context.addIssue({
        code: 'custom', params: { code: 'twin' }, path: [...path, index, 'id'],
        message: `is the id of entry [${first}], too; give one another id`,
      })
    })
  }
}
