/**
 * What was changed of a document, in pieces small enough to be kept beside it: a top-level value, or one
 * thing of a list of things with an id, each as it was and as it is.
 */
import { z } from 'zod'
import { hasIds, same, type Plain, type PlainObject } from '../merge'

/** `was` is missing where it is new, `is` where it was taken out. */
export const piece = z.strictObject({
  key: z.string().regex(/^[A-Za-z]{1,60}$/),
  id: z.string().max(200).nullable(),
  was: z.json().optional(),
  is: z.json().optional(),
})
export type Piece = z.infer<typeof piece>

const oneOf = (key: string, id: string | null, was: Plain | undefined, is: Plain | undefined): Piece =>
  ({ key, id, ...(was !== undefined && { was }), ...(is !== undefined && { is }) })

function ofList(key: string, before: PlainObject[], after: PlainObject[]): Piece[] {
  const old = new Map(before.map((each) => [each['id'] as string, each]))
  const made = new Map(after.map((each) => [each['id'] as string, each]))
  return [...new Set([...old.keys(), ...made.keys()])]
    .filter((id) => !same(old.get(id), made.get(id)))
    .map((id) => oneOf(key, id, old.get(id), made.get(id)))
}

/** Two lists without the things that both begin or end with: of thousands of readings one is looked at. */
function unshared(was: readonly Plain[], is: readonly Plain[]): [Plain[], Plain[]] {
  const shorter = Math.min(was.length, is.length)
  let begin = 0
  while (begin < shorter && was[begin] === is[begin]) begin += 1
  let end = 0
  while (end < shorter - begin && was[was.length - 1 - end] === is[is.length - 1 - end]) end += 1
  return [was.slice(begin, was.length - end), is.slice(begin, is.length - end)]
}

/** What turns one state of a document into another; its revision is not part of it. */
export function piecesBetween(before: object, after: object): Piece[] {
  const [old, made] = [before as PlainObject, after as PlainObject]
  return [...new Set([...Object.keys(old), ...Object.keys(made)])].flatMap((key) => {
    const [was, is] = [old[key], made[key]]
    if (key === 'revision' || was === is) return []
    const [ofWas, ofIs] = Array.isArray(was) && Array.isArray(is) ? unshared(was, is) : [was, is]
    if (hasIds(ofWas) && hasIds(ofIs)) return ofList(key, ofWas, ofIs)
    return same(was, is) ? [] : [oneOf(key, null, was, is)]
  })
}

/** A document with each piece as it was, or as it is. */
export function withPieces<T extends object>(document: T, pieces: readonly Piece[], side: 'was' | 'is'): T {
  const made = { ...document } as PlainObject
  for (const { key, id, [side]: value } of pieces) {
    if (id !== null) made[key] = withThing(hasIds(made[key]) ? made[key] : [], id, value as PlainObject | undefined)
    else if (value === undefined) delete made[key]
    else made[key] = value as Plain
  }
  return made as T
}

function withThing(list: PlainObject[], id: string, thing: PlainObject | undefined): PlainObject[] {
  if (thing === undefined) return list.filter((each) => each['id'] !== id)
  const known = list.some((each) => each['id'] === id)
  return known ? list.map((each) => (each['id'] === id ? thing : each)) : [...list, thing]
}
