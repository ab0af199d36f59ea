/** A table of heights read in moving air, and one of speeds across the jet. */
import type { UnitChoice } from '../units'
import type { SheetRows } from './cut'
import { heightsIn, rowGroups, type SheetHeight } from './heights'
import type { SheetMap } from './map'
import { SheetReader, type Taken } from './reader'

/** One row of heights of a run. */
export interface SheetState {
  readonly row: number
  readonly session: string
  /** Name of its run; empty where the table is about the run in hand. */
  readonly run: string
  /** Name of its set-up; empty where the table does not say. */
  readonly setUp: string
  readonly kind: 'blower' | 'driveBy' | null
  readonly control: boolean | null
  /** Number of the state in its run; null where each row is a state of its own. */
  readonly number: number | null
  readonly air: 'off' | 'on' | null
  readonly atS: number | null
  readonly touched: { readonly front: boolean; readonly rear: boolean } | null
  readonly aside: string | null
  readonly heights: readonly SheetHeight[]
}

const AIR = {
  off: ['off', 'aus', '0', 'no', 'nein', 'atrest', 'stand', 'ruhe', 'still'],
  on: ['on', 'an', 'ein', '1', 'yes', 'ja', 'blowing', 'passing', 'fahrt', 'pass'],
} as const
const KINDS = { blower: ['blower', 'geblase'], driveBy: ['driveby', 'vorbeifahrt'] } as const

/** Reads a table of heights in moving air. */
export function readAir(rows: SheetRows, map: SheetMap, units: UnitChoice): Taken<SheetState[]> {
  const reader = new SheetReader(rows, map, units)
  const keyOf = (row: number) => [reader.text(row, 'session'), reader.text(row, 'run'), reader.text(row, 'step')].join('\n')
  const made = rowGroups(reader, keyOf).map((group) => {
    const [row = 0] = group
    const aside = reader.text(row, 'stepAside')
    return {
      row: row + 1, session: reader.named(row, 'session'), run: reader.named(row, 'run'), setUp: reader.named(row, 'setUp'),
      kind: reader.oneOf(row, 'runKind', KINDS), control: reader.has('control') ? reader.yes(row, 'control') : null,
      number: Number(reader.text(row, 'step').replace(/\D/g, '')) || null,
      air: reader.oneOf(row, 'air', AIR), atS: reader.number(row, 'stateAt', 0, 1e6),
      touched: reader.has('touchedFront') || reader.has('touchedRear')
        ? { front: reader.yes(row, 'touchedFront'), rear: reader.yes(row, 'touchedRear') } : null,
      aside: aside === '' ? null : aside, heights: group.flatMap((each) => heightsIn(reader, each)),
    }
  })
  return reader.done(made)
}

/** One point of a traverse, or one of its speeds, out of a table. */
export interface SheetPoint {
  readonly row: number
  readonly session: string
  readonly run: string
  /** Null where the table has speeds alone: they belong to points that are there. */
  readonly at: { readonly yMm: number; readonly zMm: number } | null
  readonly weight: number | null
  readonly shownMs: readonly number[]
}

/** Reads a table of a traverse; rows at one point are further speeds of it. */
export function readTraverse(rows: SheetRows, map: SheetMap, units: UnitChoice): Taken<SheetPoint[]> {
  const reader = new SheetReader(rows, map, units)
  const placed = reader.has('pointY') || reader.has('pointZ')
  const points = new Map<string, SheetPoint>()
  for (const row of reader.filled) {
    const at = {
      yMm: reader.number(row, 'pointY', -5000, 5000) ?? 0, zMm: reader.number(row, 'pointZ', -5000, 5000) ?? 0,
    }
    const [session, run] = [reader.named(row, 'session'), reader.named(row, 'run')]
    const key = placed ? JSON.stringify([session, run, at]) : String(row)
    const held = points.get(key)
    const shown = reader.columnsOf('speed').flatMap((column) => reader.number(row, 'speed', 0, 200, column) ?? [])
    points.set(key, {
      row: held?.row ?? row + 1, session, run, at: placed ? at : null,
      weight: reader.number(row, 'weight', 0, 1e6) ?? held?.weight ?? null, shownMs: [...(held?.shownMs ?? []), ...shown],
    })
  }
  return reader.done([...points.values()])
}
