/** The greatest place first; what has none comes last, as it stood. */
export function inOrder<T>(items: readonly T[], placeOf: (item: T) => number | null): T[] {
  const placed = items.map((item) => ({ item, place: placeOf(item) }))
  return placed.sort((one, other) => {
    if (one.place === null || other.place === null) return Number(one.place === null) - Number(other.place === null)
    return other.place - one.place
  }).map(({ item }) => item)
}
