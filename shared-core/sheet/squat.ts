/** A table of a squat test: what lay on the car, and the heights of the corners. */
import type { UnitChoice } from '../units'
import type { SheetRows } from './cut'
import { heightsIn, rowGroups, type SheetHeight } from './heights'
import { loadsNamed, loadsWeighing, sumsAround, type LaidLoad, type SheetLoad } from './loadCell'
import type { SheetMap } from './map'
import { plainWord, SheetReader, type Taken } from './reader'

export type SheetBranch = 'zero' | 'loading' | 'unloading'

/** One step of a squat test out of a table. */
export interface SheetStep {
  /** Row of the table, from 1. */
  readonly row: number
  readonly session: string
  /** Its number in the table; null where it has none. */
  readonly number: number | null
  /** Null where the table does not tell what lay on the car: the heights belong to steps that are there. */
  readonly laid: {
    readonly branch: SheetBranch
    readonly ramp: number | null
    readonly loads: readonly PlacedInSheet[]
  } | null
  readonly touched: { readonly front: boolean; readonly rear: boolean } | null
  readonly aside: string | null
  readonly heights: readonly SheetHeight[]
}

export interface PlacedInSheet { readonly loadId: string; readonly xMm: number; readonly yMm: number }

/** What of the car a table of a squat test is read against. */
export interface SquatContext {
  readonly units: UnitChoice
  readonly loads: readonly SheetLoad[]
  readonly wheelbaseMm: number
  /** Where loads lay last, mm; null where none lay yet. */
  readonly lastPlace: { readonly xMm: number; readonly yMm: number } | null
  /** What lies on the car before the first row. */
  readonly before: readonly string[]
}

const BRANCHES: Readonly<Record<SheetBranch, readonly string[]>> = {
  zero: ['zero', 'null', '0', 'empty', 'leer', 'none'],
  loading: ['loading', 'up', 'on', 'auf', 'rauf', 'hoch', 'belasten', 'beladen', 'increasing'],
  unloading: ['unloading', 'down', 'off', 'ab', 'runter', 'entlasten', 'entladen', 'decreasing'],
}
const NOTHING = ['', '0', 'none', 'nothing', 'zero', 'empty', 'leer', 'nichts', 'keine', 'null']
const PLACES = {
  front: ['front', 'vorn', 'vorne', 'frontaxle', 'vorderachse', 'f', 'v'],
  middle: ['middle', 'centre', 'center', 'mid', 'mitte', 'm', 'c'],
  rear: ['rear', 'back', 'hinten', 'rearaxle', 'hinterachse', 'r', 'h'],
} as const

/** Reads a table of a squat test. Rows with a refused cell keep what of them could be read. */
export function readSquat(rows: SheetRows, map: SheetMap, context: SquatContext): Taken<SheetStep[]> {
  const reader = new SheetReader(rows, map, context.units)
  const told = reader.has('load')
  let before = context.before
  let place = context.lastPlace
  const made = rowGroups(reader, (row) => `${reader.text(row, 'session')}\n${reader.text(row, 'step')}`).map((group) => {
    const [row = 0] = group
    const number = Number(reader.text(row, 'step').replace(/\D/g, '')) || null
    const laid = told ? laidIn(reader, row, before, place, context) : null
    if (laid) before = laid.loads.map(({ loadId }) => loadId)
    place = laid?.loads[0] ?? place
    const aside = reader.text(row, 'stepAside')
    return {
      row: row + 1, session: reader.named(row, 'session'), number, laid: laid && { ...laid, ramp: rampIn(reader, row) },
      touched: reader.has('touchedFront') || reader.has('touchedRear')
        ? { front: reader.yes(row, 'touchedFront'), rear: reader.yes(row, 'touchedRear') } : null,
      aside: aside === '' ? null : aside, heights: group.flatMap((each) => heightsIn(reader, each)),
    }
  })
  return reader.done(made)
}

function rampIn(reader: SheetReader, row: number): number | null {
  const ramp = Number(reader.text(row, 'ramp'))
  return Number.isInteger(ramp) && ramp >= 1 && ramp <= 1000 ? ramp : null
}

function laidIn(
  reader: SheetReader, row: number, before: readonly string[], place: SquatContext['lastPlace'], context: SquatContext,
): { branch: SheetBranch; loads: PlacedInSheet[] } | null {
  const loads = loadsIn(reader, row, before, context)
  if (loads === null) return null
  const said = reader.oneOf(row, 'branch', BRANCHES)
  if (loads.length === 0) return { branch: 'zero', loads: [] }
  const spot = spotIn(reader, row, loads, place, context)
  const weighed = new Map(context.loads.map(({ id, massKg }) => [id, massKg]))
  const mass = (ids: readonly string[]) => ids.reduce((sum, id) => sum + (weighed.get(id) ?? 0), 0)
  const lighter = mass(loads.map(({ loadId }) => loadId)) < mass(before)
  return {
    branch: said === null || said === 'zero' ? lighter ? 'unloading' : 'loading' : said,
    loads: loads.map(({ loadId, xMm, yMm }) => ({ loadId, xMm: xMm ?? spot.xMm, yMm: yMm ?? spot.yMm })),
  }
}

function loadsIn(
  reader: SheetReader, row: number, before: readonly string[], { loads, units }: SquatContext,
): readonly LaidLoad[] | null {
  const text = reader.text(row, 'load')
  const zero = BRANCHES.zero.includes(plainWord(reader.text(row, 'branch')))
  if (text === '' && !zero && row > reader.first) return reader.refuse(row, 'load', 'loadMissing')
  if (NOTHING.includes(plainWord(text))) return []
  const named = loadsNamed(text, loads)
  if (!('unknown' in named)) return named
  if (!/^[-+]?[\d.,]/.test(text)) return reader.refuse(row, 'load', 'unknownLoad', { load: named.unknown, known: `${loads.slice(0, 3).map(({ name }) => name).join(', ')}, …` })
  const massKg = reader.number(row, 'load', 0, 1000)
  if (massKg === null) return null
  const found = loadsWeighing(massKg, loads, before)
  if (found) return found
  const [low, high] = sumsAround(massKg, loads)
  return reader.refuse(row, 'load', 'noSuchMass', { lowKg: low ?? 0, highKg: high ?? low ?? 0, decimalMark: units.decimalMark })
}

/** Where the loads of a row lie: as told, as the row before, or amidst the axles, which is a guess. */
function spotIn(
  reader: SheetReader, row: number, loads: readonly LaidLoad[], place: SquatContext['lastPlace'], { wheelbaseMm }: SquatContext,
): { xMm: number; yMm: number } {
  const middle = Math.round(wheelbaseMm / 2)
  const yMm = reader.number(row, 'y', -1000, 1000) ?? place?.yMm ?? 0
  const text = reader.text(row, 'x')
  const named = (Object.keys(PLACES) as (keyof typeof PLACES)[])
    .find((each) => (PLACES[each] as readonly string[]).includes(plainWord(text)))
  if (named) return { yMm, xMm: { front: 0, middle, rear: wheelbaseMm }[named] }
  if (/^\p{L}/u.test(text)) reader.refuse(row, 'x', 'unknownWord', { known: 'front, middle, rear' })
  const typed = /^\p{L}/u.test(text) ? null : reader.number(row, 'x', -1000, 3000)
  if (typed === null && loads.some(({ xMm }) => xMm === null) && !place) reader.guesses.add('place')
  return { xMm: typed ?? place?.xMm ?? middle, yMm }
}
