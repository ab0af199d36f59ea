/**
 * Two windows changed one document: keeps what both wrote. Lists of things with an id are joined by
 * id; where both changed the same plain value, this window's stands.
 */
type Plain = null | string | number | boolean | Plain[] | { [key: string]: Plain }

const isObject = (value: Plain | undefined): value is { [key: string]: Plain } =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

const hasIds = (value: Plain | undefined): value is { [key: string]: Plain }[] =>
  Array.isArray(value) && value.every((each) => isObject(each) && typeof each['id'] === 'string')

const same = (a: Plain | undefined, b: Plain | undefined): boolean => JSON.stringify(a) === JSON.stringify(b)

function mergeLists(
  base: { [key: string]: Plain }[], mine: { [key: string]: Plain }[], theirs: { [key: string]: Plain }[],
): Plain[] {
  const byId = (list: { [key: string]: Plain }[]) => new Map(list.map((each) => [each['id'] as string, each]))
  const [ofBase, ofMine, ofTheirs] = [byId(base), byId(mine), byId(theirs)]
  const order = [...theirs.map((each) => each['id'] as string), ...mine.map((each) => each['id'] as string)]
  const merged: Plain[] = []
  for (const id of new Set(order)) {
    const [was, own, other] = [ofBase.get(id), ofMine.get(id), ofTheirs.get(id)]
    if (own && other) merged.push(merge(was ?? null, own, other))
    else if (own && !(was && same(was, own))) merged.push(own)
    else if (other && !(was && same(was, other))) merged.push(other)
  }
  return merged
}

function merge(base: Plain, mine: Plain, theirs: Plain): Plain {
  if (same(mine, theirs) || same(base, theirs)) return mine
  if (same(base, mine)) return theirs
  if (hasIds(mine) && hasIds(theirs)) return mergeLists(hasIds(base) ? base : [], mine, theirs)
  if (!isObject(mine) || !isObject(theirs)) return mine
  const was = isObject(base) ? base : {}
  const keys = new Set([...Object.keys(theirs), ...Object.keys(mine)])
  return Object.fromEntries([...keys].map((key) => [key, merge(was[key] ?? null, mine[key] ?? null, theirs[key] ?? null)]))
}

/**
 * Joins this window's document with what another window wrote meanwhile. The result carries the
 * other's revision, so that it can be saved on top of it.
 *
 * @param base the document both started from
 * @param mine this window's
 * @param theirs as it stands on disk
 */
export function mergeDocuments<T extends { revision: number }>(base: T, mine: T, theirs: T): T {
  const merged = merge(base as unknown as Plain, mine as unknown as Plain, theirs as unknown as Plain) as unknown as T
  return { ...merged, revision: theirs.revision }
}
