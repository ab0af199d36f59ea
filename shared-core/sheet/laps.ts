/** Tables of laps and levels of the track, and of loads on the scale. */
import type { UnitChoice } from '../units'
import type { SheetRows } from './cut'
import { hasHead, looksLikeNumber, type SheetMap } from './map'
import { SheetReader, type Taken } from './reader'

/** A run of a table of laps. */
export interface SheetRun {
  readonly row: number
  readonly session: string
  /** Empty where the table is about the run in hand. */
  readonly name: string
  readonly setUp: string
  readonly kind: 'circle' | 'typed' | 'log' | 'steady' | null
  readonly order: number | null
  readonly radiusM: number | null
  readonly laps: readonly { readonly timeS: number; readonly radiusM: number | null; readonly aside: string | null }[]
  readonly levels: readonly { readonly ms2: number; readonly u: number | null; readonly aside: string | null }[]
}

const KINDS = {
  circle: ['circle', 'kreis'], typed: ['typed', 'eingetippt'], log: ['log'], steady: ['steady', 'stationar'],
} as const

/** Shortest and longest lap, s; largest level, m/s2; as the documents hold them. */
const LAP_S = [0.05, 3600] as const
const MOST_LEVEL = 500

/**
 * Reads a table of laps. With a column of runs each row belongs to the run it names; without one all rows are laps
 * of the run in hand. Where no head is known and each stands over numbers, each column is a run of that name.
 */
export function readLaps(rows: SheetRows, map: SheetMap, units: UnitChoice): Taken<SheetRun[]> {
  const reader = new SheetReader(rows, map, units)
  if (!reader.has('run') && isRunsByColumn(rows, map)) return lapsByColumn(reader)
  const runs = new Map<string, SheetRun>()
  for (const row of reader.filled) {
    const [session, name] = [reader.named(row, 'session'), reader.named(row, 'run')]
    const order = reader.number(row, 'order', 1, 10_000)
    const key = JSON.stringify([session, name, order])
    const aside = reader.text(row, 'readingAside') || null
    const radiusM = reader.number(row, 'radius', 0.1, 1000)
    const held = runs.get(key)
    const laps = reader.columnsOf('lap').flatMap((column) => {
      const timeS = reader.number(row, 'lap', ...LAP_S, column)
      return timeS === null ? [] : [{ timeS, radiusM, aside }]
    })
    const ms2 = reader.number(row, 'level', 0.001, MOST_LEVEL)
    const levels = ms2 === null ? [] : [{ ms2, u: reader.number(row, 'levelU', 0, 100), aside }]
    runs.set(key, {
      row: held?.row ?? row + 1, session, name, order, setUp: reader.named(row, 'setUp') || (held?.setUp ?? ''),
      kind: reader.oneOf(row, 'runKind', KINDS) ?? held?.kind ?? null, radiusM: held?.radiusM ?? radiusM,
      laps: [...(held?.laps ?? []), ...laps], levels: [...(held?.levels ?? []), ...levels],
    })
  }
  return reader.done([...runs.values()])
}

/** Names of runs or set-ups above columns of numbers. */
export function isRunsByColumn(rows: SheetRows, map: SheetMap): boolean {
  if (!map.head || !hasHead(rows) || rows.length < 2) return false
  const lapColumns = map.columns.filter((each) => each?.field === 'lap').length
  return lapColumns > 1 && lapColumns === map.columns.length
    && !rows[0]!.every((head) => /^(lap|runde|t)\s*\d*/i.test(head)) && rows.slice(1).flat().some(looksLikeNumber)
}

function lapsByColumn(reader: SheetReader): Taken<SheetRun[]> {
  reader.guesses.add('runsByColumn')
  return reader.done(reader.rows[0]!.map((name, column): SheetRun => ({
    row: 1, session: '', name, setUp: name, kind: 'circle', order: null, radiusM: null, levels: [],
    laps: reader.filled.flatMap((row) => {
      const timeS = reader.number(row, 'lap', ...LAP_S, column)
      return timeS === null ? [] : [{ timeS, radiusM: null, aside: null }]
    }),
  })))
}

/** A load with its weighings, kg. */
export interface SheetBag {
  readonly row: number
  readonly name: string
  readonly weighings: readonly {
    readonly massKg: number
    readonly scale: string
    readonly at: string | null
    readonly aside: string | null
  }[]
}

/** Reads a table of loads; rows of one name are further weighings of it, rows without one are loads of their own. */
export function readLoads(rows: SheetRows, map: SheetMap, units: UnitChoice): Taken<SheetBag[]> {
  const reader = new SheetReader(rows, map, units)
  const bags = new Map<string, SheetBag>()
  for (const row of reader.filled) {
    const name = reader.named(row, 'name')
    const key = name === '' ? `\n${row}` : name
    const held = bags.get(key)
    const aside = reader.text(row, 'readingAside') || null
    const weighings = reader.columnsOf('mass').flatMap((column) => {
      const massKg = reader.number(row, 'mass', 0, 100, column)
      return massKg === null ? [] : [{ massKg, scale: reader.named(row, 'scale'), at: reader.moment(row), aside }]
    })
    bags.set(key, { row: held?.row ?? row + 1, name, weighings: [...(held?.weighings ?? []), ...weighings] })
  }
  return reader.done([...bags.values()].filter(({ weighings }) => weighings.length > 0))
}
