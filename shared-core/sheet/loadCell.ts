/** What lay on the car, out of one cell: names of loads, as our tables write them, or their mass together. */

/** A load of the car with its mass, kg. */
export interface SheetLoad {
  readonly id: string
  readonly name: string
  readonly massKg: number
}

/** A load and, where the cell tells it, its place, mm. */
export interface LaidLoad {
  readonly loadId: string
  readonly xMm: number | null
  readonly yMm: number | null
}

/** Most loads of which every set is tried. */
const MOST_TRIED = 14
/** A mass in a notebook is told to so much: a share of it, and grams for each bag. */
const NEAR_SHARE = 0.004
const NEAR_KG = 0.0015

/** Loads by name, apart by `+`, `,` or `;`; null where a name is none of the car's, with that name. */
export function loadsNamed(text: string, loads: readonly SheetLoad[]): LaidLoad[] | { readonly unknown: string } {
  const byName = new Map(loads.map((load) => [load.name.trim().toLowerCase(), load.id]))
  const whole = byName.get(text.trim().toLowerCase())
  if (whole !== undefined) return [{ loadId: whole, xMm: null, yMm: null }]
  const placed = [...text.matchAll(/(.+?) at (-?[\d.]+)[; ](-?[\d.]+)(?:, |$)/g)]
  const parts = placed.length > 0
    ? placed.map(([, name = '', x, y]) => ({ name, xMm: Number(x), yMm: Number(y) }))
    : text.split(/\s*(?:[+,;&]|\bund\b|\band\b)\s*/).filter((name) => name !== '').map((name) => ({ name, xMm: null, yMm: null }))
  const found: LaidLoad[] = []
  for (const { name, xMm, yMm } of parts) {
    const loadId = byName.get(name.trim().toLowerCase())
    if (loadId === undefined || found.some((each) => each.loadId === loadId)) return { unknown: name.trim() }
    found.push({ loadId, xMm, yMm })
  }
  return found
}

/**
 * The loads that weigh so much together: of the sets that come near enough the one that changes least from what lay
 * before, then the nearest. Null where none does.
 *
 * @param before ids of what lay on the car in the row before
 */
export function loadsWeighing(
  massKg: number, loads: readonly SheetLoad[], before: readonly string[],
): LaidLoad[] | null {
  const sets = loads.length <= MOST_TRIED ? allSets(loads) : nextSets(loads, before)
  const near = sets.flatMap((set) => {
    const total = set.reduce((sum, each) => sum + each.massKg, 0)
    const off = Math.abs(total - massKg)
    const ids = set.map(({ id }) => id)
    const changes = ids.filter((id) => !before.includes(id)).length + before.filter((id) => !ids.includes(id)).length
    return off <= NEAR_SHARE * massKg + NEAR_KG * set.length ? [{ set, off, changes }] : []
  })
  near.sort((a, b) => a.changes - b.changes || a.off - b.off)
  return near[0]?.set.map(({ id }) => ({ loadId: id, xMm: null, yMm: null })) ?? null
}

const allSets = (loads: readonly SheetLoad[]): SheetLoad[][] =>
  loads.reduce<SheetLoad[][]>((sets, load) => [...sets, ...sets.map((set) => [...set, load])], [[]])

/** Of very many loads: those that lay before, with one of them taken off or some laid on in the car's order. */
function nextSets(loads: readonly SheetLoad[], before: readonly string[]): SheetLoad[][] {
  const lying = loads.filter(({ id }) => before.includes(id))
  const others = loads.filter(({ id }) => !before.includes(id))
  return [
    ...lying.map((load) => lying.filter((each) => each !== load)), ...others.map((load) => [...lying, load]),
    ...loads.map((_, count) => loads.slice(0, count + 1)),
  ]
}

/** The two masses that loads of the car have together next to a mass, kg; for what to say where none fits. */
export function sumsAround(massKg: number, loads: readonly SheetLoad[]): readonly number[] {
  const sums = [...new Set((loads.length <= MOST_TRIED ? allSets(loads) : loads.map((_, i) => loads.slice(0, i + 1)))
    .map((set) => set.reduce((sum, each) => sum + each.massKg, 0)))].sort((a, b) => a - b)
  const above = sums.findIndex((sum) => sum > massKg)
  return above < 0 ? sums.slice(-1) : sums.slice(Math.max(0, above - 1), above + 1)
}
