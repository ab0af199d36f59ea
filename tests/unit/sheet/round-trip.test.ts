/** What the tables of readings write can be read back: the demo's, taken into a car that has none of them. */
import { describe, expect, it } from 'vitest'
import demoJson from '../../../seeds/demo.json'
import { exchange as exchangeSchema, session as sessionSchema, type Exchange, type Session } from '@core/schema'
import { csvText, readingTables, type CsvTable } from '@core/report'
import {
  cutSheet, isWhole, kindByHead, mapByHead, readAir, readLaps, readLoads, readSquat, readTraverse, type SheetKind,
  type SheetMap,
} from '@core/sheet'
import { DEFAULT_UNITS } from '@core/units'
import { newAirflow } from '@renderer/screens/airflow/makeRun'
import { massOfLoad, newSquat } from '@renderer/screens/squat/steps'
import { newTrack } from '@renderer/screens/track/makeTrack'
import { newSetUps, takePoints, takeStates } from '@renderer/sheet/takeAir'
import { takeSteps } from '@renderer/sheet/takeSquat'
import { addSetUps, takeBags, takeRuns } from '@renderer/sheet/takeTrack'

const demo = exchangeSchema.parse(demoJson)

/** The demo's car with its instruments, and nothing that was ever read. */
const bare: Exchange = { ...structuredClone(demo), sessions: [] }
bare.chassis.loads = []
const { chassis } = bare

const COMMA = { ...DEFAULT_UNITS, decimalMark: 'comma' } as const

function tableOf(fileName: string): { rows: string[][]; map: SheetMap; kind: SheetKind } {
  const rows = cutSheet(csvText(readingTables(demo).find((each) => each.fileName === fileName)!))
  const kind = kindByHead(rows)!
  return { rows, kind, map: mapByHead(kind, rows)! }
}

/** Takes the rows of each session into one of its own. */
function bySession<R extends { readonly session: string }, S extends Session>(
  rows: readonly R[], make: (name: string) => S, take: (draft: S, own: R[]) => void,
): void {
  for (const name of new Set(rows.map(({ session }) => session))) {
    const made = make(name)
    take(made, rows.filter(({ session }) => session === name))
    bare.sessions.push(sessionSchema.parse(made))
  }
}

const RIGHTLY_LOST = ['from', 'corrected times']
/** A table without the columns that tell of a reading's history, which only the exchange file carries. */
function readingsOf(exchange: Exchange, fileName: string): unknown[] {
  const table = readingTables(exchange).find((each) => each.fileName === fileName) as CsvTable
  const kept = table.heads.flatMap((head, index) => (RIGHTLY_LOST.includes(head) ? [] : [index]))
  return table.rows.map((row) => kept.map((index) => row[index]))
}

describe('the tables of readings, read back', () => {
  it('are known by their heads, every column, whatever the builder’s decimal mark', () => {
    const files = ['loads.csv', 'squat-readings.csv', 'air-readings.csv', 'traverse-readings.csv', 'track-readings.csv']
    const found = files.map(tableOf)
    expect(found.map(({ kind }) => kind)).toEqual(['loads', 'squat', 'air', 'traverse', 'laps'])
    for (const { map, rows } of found) expect(isWhole(map, rows)).toBe(true)
  })

  it('give the loads', () => {
    const { rows, map } = tableOf('loads.csv')
    const read = readLoads(rows, map, COMMA)
    expect(read.problems).toEqual([])
    takeBags(chassis, read.made, chassis.scales[0]!.id, String)
    expect(readingsOf(bare, 'loads.csv')).toEqual(readingsOf(demo, 'loads.csv'))
  })

  it('give the squat tests', () => {
    const { rows, map } = tableOf('squat-readings.csv')
    const read = readSquat(rows, map, {
      units: COMMA, wheelbaseMm: chassis.wheelbaseMm.value, lastPlace: null, before: [],
      loads: chassis.loads.map(({ id, name }) => ({ id, name, massKg: massOfLoad(chassis, id).kg })),
    })
    expect(read.problems).toEqual([])
    expect(read.guesses).toEqual([])
    bySession(read.made, (name) => newSquat(chassis, name), (draft, own) => takeSteps(draft, own, null, ''))
    expect(readingsOf(bare, 'squat-readings.csv')).toEqual(readingsOf(demo, 'squat-readings.csv'))
  })

  it('give the runs in moving air and their traverses', () => {
    const { rows, map } = tableOf('air-readings.csv')
    const read = readAir(rows, map, COMMA)
    expect(read.problems).toEqual([])
    addSetUps(chassis, newSetUps(read.made, chassis))
    const speeds = tableOf('traverse-readings.csv')
    const points = readTraverse(speeds.rows, speeds.map, COMMA)
    expect(points.problems).toEqual([])
    const hand = { runId: null, fromStateId: null }
    bySession(read.made, (name) => newAirflow(chassis, name), (draft, own) => {
      takeStates(draft, chassis, own, hand, '')
      takePoints(draft, points.made.filter(({ session }) => session === draft.name), { runId: null, fromPoint: 0 })
    })
    expect(readingsOf(bare, 'air-readings.csv')).toEqual(readingsOf(demo, 'air-readings.csv'))
    expect(readingsOf(bare, 'traverse-readings.csv')).toEqual(readingsOf(demo, 'traverse-readings.csv'))
  })

  it('give the laps of the track', () => {
    const { rows, map } = tableOf('track-readings.csv')
    const read = readLaps(rows, map, COMMA)
    expect(read.problems).toEqual([])
    bySession(read.made, (name) => newTrack(chassis, name), (draft, own) =>
      takeRuns(draft, chassis, own, { runId: null, fromLap: null }, String))
    expect(readingsOf(bare, 'track-readings.csv')).toEqual(readingsOf(demo, 'track-readings.csv'))
  })
})
