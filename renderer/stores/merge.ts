/**
 * Three-way joining of documents: what was changed on either side since a common start is kept. Used
 * where another window wrote meanwhile, and to take back one change from below later ones.
 */
export type Plain = null | string | number | boolean | Plain[] | PlainObject
export interface PlainObject { [key: string]: Plain }

/** When and why a value of the other side was put among the corrections. */
export interface MergeNote { readonly at: string; readonly why: string }

const isObject = (value: Plain | undefined): value is PlainObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** True for a list of things with an id, the empty one included. */
export const hasIds = (value: Plain | undefined): value is PlainObject[] =>
  Array.isArray(value) && value.every((each) => isObject(each) && typeof each['id'] === 'string')

/** True where both hold the same. */
export function same(a: Plain | undefined, b: Plain | undefined): boolean {
  if (a === b) return true
  if (Array.isArray(a) && Array.isArray(b)) {
    return a.length === b.length && a.every((each, index) => same(each, b[index]))
  }
  if (!isObject(a) || !isObject(b)) return false
  const keys = Object.keys(a)
  return keys.length === Object.keys(b).length && keys.every((key) => key in b && same(a[key], b[key]))
}

const byId = (list: readonly PlainObject[]): Map<string, PlainObject> =>
  new Map(list.map((each) => [each['id'] as string, each]))

function mergeLists(base: PlainObject[], mine: PlainObject[], theirs: PlainObject[], note: MergeNote): Plain[] {
  const [ofBase, ofMine, ofTheirs] = [byId(base), byId(mine), byId(theirs)]
  const merged: Plain[] = []
  for (const id of new Set([...ofTheirs.keys(), ...ofMine.keys()])) {
    const [was, own, other] = [ofBase.get(id), ofMine.get(id), ofTheirs.get(id)]
    if (own && other) merged.push(merge(was, own, other, note))
    else if (own && !(was && same(was, own))) merged.push(own)
    else if (other && !(was && same(was, other))) merged.push(other)
  }
  return merged
}

/** Corrections of both sides in the order of their making, none twice. */
function mergeHistories(mine: Plain[], theirs: Plain[]): Plain[] {
  const extra = theirs.filter((each) => !mine.some((held) => same(held, each)))
  return [...mine, ...extra].sort((a, b) => (String((a as PlainObject)['at']) < String((b as PlainObject)['at']) ? -1 : 1))
}

/** The key of the value that a reading or weighing corrects. */
const correctedKey = (item: PlainObject): string | undefined =>
  Array.isArray(item['corrections']) ? ['shownMm', 'massKg'].find((key) => key in item) : undefined

function mergeObjects(was: PlainObject, mine: PlainObject, theirs: PlainObject, note: MergeNote): PlainObject {
  const merged: PlainObject = {}
  for (const key of new Set([...Object.keys(theirs), ...Object.keys(mine)])) {
    const [own, other] = [mine[key], theirs[key]]
    const grew = key === 'corrections' && !same(was[key], own) && !same(was[key], other)
    const histories = grew && Array.isArray(own) && Array.isArray(other)
    const joined = histories ? mergeHistories(own, other) : merge(was[key], own, other, note)
    if (joined !== undefined) merged[key] = joined
  }
  const corrected = correctedKey(mine)
  if (corrected === undefined) return merged
  const [before, own, other] = [was[corrected], mine[corrected], theirs[corrected] ?? null]
  if (!same(own, other) && !same(before, other) && !same(before, own)) {
    merged['corrections'] = [...(merged['corrections'] as Plain[]), { was: other, at: note.at, why: note.why }]
  }
  return merged
}

/** A value that a side lacks is undefined, and so is the result where it is to be left out. */
function merge<T extends Plain | undefined>(base: Plain | undefined, mine: T, theirs: T, note: MergeNote): T {
  if (same(mine, theirs) || same(base, theirs)) return mine
  if (same(base, mine)) return theirs
  if (hasIds(mine) && hasIds(theirs)) return mergeLists(hasIds(base) ? base : [], mine, theirs, note) as T
  if (!isObject(mine) || !isObject(theirs)) return mine
  return mergeObjects(isObject(base) ? base : {}, mine, theirs, note) as T
}

/**
 * Joins two documents that come from one. Lists of things with an id are joined by id; a thing taken
 * out on one side stays if the other side changed it. Where both changed the same plain value, `mine`
 * stands; of a reading or weighing the other value is kept among its corrections, with the note.
 *
 * @param base the document both started from
 * @param mine the side that wins
 * @param theirs the other side; the result carries its revision, so that it can be saved on top of it
 */
export function mergeDocuments<T extends { revision: number }>(base: T, mine: T, theirs: T, note: MergeNote): T {
  const [was, own, other] = [base, mine, theirs].map((each) => each as unknown as Plain) as [Plain, Plain, Plain]
  return { ...(merge(was, own, other, note) as unknown as T), revision: theirs.revision }
}
