/** Cells of pasted tables: where they are cut, how their numbers are read, and what is said of a refused one. */
import { describe, expect, it } from 'vitest'
import { DEFAULT_UNITS, type UnitChoice } from '@core/units'
import { cutSheet, isWhole, kindByHead, mapByHead, mapInOrder, readAir, readLaps, readLoads, readSquat, readTraverse, type SquatContext } from '@core/sheet'

const COMMA: UnitChoice = { ...DEFAULT_UNITS, decimalMark: 'comma' }
const LOADS = [250, 230, 210].map((grams, i) => ({ id: `bag-${i + 1}`, name: `Bag ${i + 1}`, massKg: grams / 1000 }))
const CAR: SquatContext = { units: DEFAULT_UNITS, loads: LOADS, wheelbaseMm: 260, lastPlace: null, before: [] }
const squat = (text: string, context: Partial<SquatContext> = {}) => {
  const rows = cutSheet(text)
  return readSquat(rows, mapByHead('squat', rows)!, { ...CAR, ...context })
}
const heights = (text: string, units: UnitChoice = DEFAULT_UNITS) => {
  const rows = cutSheet(text)
  return readSquat(rows, mapInOrder(['frontLeft', 'frontRight', 'rearLeft', 'rearRight'], rows[0]!.length), { ...CAR, units })
}

describe('a table', () => {
  it('is cut at tabs, and a decimal comma stays in its cell', () => {
    expect(cutSheet('5,50\t6,00\r\n5,40\t5,90\r\n')).toEqual([['5,50', '6,00'], ['5,40', '5,90']])
    expect(cutSheet('5,50\n6,00')).toEqual([['5,50'], ['6,00']])
    expect(cutSheet('5,50;6,00')).toEqual([['5,50', '6,00']])
  })

  it('is cut at commas only where these can be no decimal marks', () => {
    expect(cutSheet('fl,fr\n5.5,6')).toEqual([['fl', 'fr'], ['5.5', '6']])
    expect(cutSheet('5,5')).toEqual([['5,5']])
    expect(cutSheet('a,"5,5"')).toEqual([['a', '5,5']])
  })

  it('keeps empty cells in their places and lets empty rows at the end go', () => {
    expect(cutSheet('\t6\t\n5\t\t\n\t\t\n')).toEqual([['', '6'], ['5', '']])
  })

  it('is known by its heads in both languages, with their units', () => {
    const rows = cutSheet('VL [mm]\tVR [mm]\tHL [mm]\tHR [mm]\tLast (g)\n1\t1\t1\t1\t0')
    expect(kindByHead(rows)).toBe('squat')
    const map = mapByHead('squat', rows)!
    expect(map.columns.map((each) => each?.field)).toEqual(['frontLeft', 'frontRight', 'rearLeft', 'rearRight', 'load'])
    expect(map.columns.map((each) => each?.unit)).toEqual(['millimetre', 'millimetre', 'millimetre', 'millimetre', 'gram'])
    expect(isWhole(map, rows)).toBe(true)
    expect(mapByHead('squat', cutSheet('5\t6'))).toBeNull()
  })
})

describe('a number', () => {
  it('has the decimal mark that the whole table shows', () => {
    expect(heights('5,5\t5,500\t6\t6').made[0]!.heights.map(({ shownMm }) => shownMm)).toEqual([5.5, 5.5, 6, 6])
    expect(heights('5.5\t5.500\t6\t6', COMMA).made[0]!.heights.map(({ shownMm }) => shownMm)).toEqual([5.5, 5.5, 6, 6])
  })

  it('is refused by its cell where its comma may be either, and the others stay', () => {
    const { made, problems } = heights('5\t6\t7\t8\n5\t1,234\t7\t8')
    expect(problems).toEqual([{
      row: 2, column: 2, field: 'frontRight', fault: 'ambiguousThousands', typed: '1,234',
      values: { typed: '1,234', whole: '1234', decimal: '1.234' },
    }])
    expect(made.map((row) => row.heights.length)).toEqual([4, 3])
    expect(heights('1,234\t6\t7\t8', COMMA).made[0]!.heights[0]!.shownMm).toBe(1.234)
  })

  it('is read in the unit of its head, else in the builder’s', () => {
    expect(squat('fl in\tload (g)\n0.5\t0').made[0]!.heights[0]!.shownMm).toBeCloseTo(12.7, 12)
    expect(squat('fl\tload\n0.5\t0', { units: { ...DEFAULT_UNITS, length: 'inch' } }).made[0]!.heights[0]!.shownMm).toBeCloseTo(12.7, 12)
  })

  it('is no height beyond what a gauge can show', () => {
    expect(heights('5\t6\t7\t8000').problems).toMatchObject([{ row: 1, column: 4, fault: 'high', values: { limit: 1000 } }])
  })
})

describe('a squat test', () => {
  it('has its loads by their mass together, going up and coming down', () => {
    const { made, problems, guesses } = squat([
      'load\tplace\tFL\tFR\tRL\tRR', '0\t\t6\t6\t6\t6', '250\tmiddle\t5\t5\t5\t5', '480\tmiddle\t4\t4\t4\t4',
      '690\tmiddle\t3\t3\t3\t3', '480\tmiddle\t4\t4\t4\t4', '0\t\t6\t6\t6\t6',
    ].join('\n'))
    expect([problems, guesses]).toEqual([[], []])
    expect(made.map(({ laid }) => laid!.branch)).toEqual(['zero', 'loading', 'loading', 'loading', 'unloading', 'zero'])
    expect(made.map(({ laid }) => laid!.loads.map(({ loadId }) => loadId).join())).toEqual([
      '', 'bag-1', 'bag-1,bag-2', 'bag-1,bag-2,bag-3', 'bag-1,bag-2', '',
    ])
    expect(made[1]!.laid!.loads[0]).toEqual({ loadId: 'bag-1', xMm: 130, yMm: 0 })
  })

  it('has its loads by their names, and their place as a number or a word', () => {
    const { made, problems } = squat('load\tx\tFL\nBag 1 + bag 3\thinten\t5\nBag 2\t12\t5')
    expect(problems).toEqual([])
    expect(made[0]!.laid!.loads).toEqual([{ loadId: 'bag-1', xMm: 260, yMm: 0 }, { loadId: 'bag-3', xMm: 260, yMm: 0 }])
    expect(made[1]!.laid!.loads).toEqual([{ loadId: 'bag-2', xMm: 12, yMm: 0 }])
  })

  it('says that the place is a guess where the table has none', () => {
    expect(squat('load\tFL\n250\t5').guesses).toEqual(['place'])
    expect(squat('load\tFL\n250\t5', { lastPlace: { xMm: 0, yMm: 0 } }).guesses).toEqual([])
  })

  it('refuses a mass that no loads make, a load that is not there, and a row that says nothing', () => {
    const { problems } = squat('load\tFL\n300\t5\nLead\t5\n\t5', { lastPlace: { xMm: 0, yMm: 0 } })
    expect(problems.map(({ row, column, fault }) => [row, column, fault])).toEqual([
      [2, 1, 'noSuchMass'], [3, 1, 'unknownLoad'], [4, 1, 'loadMissing'],
    ])
    expect(problems[0]!.values).toMatchObject({ lowKg: 0.25, highKg: 0.44 })
  })
})

describe('other tables', () => {
  it('are heights of many runs, with air and set-up', () => {
    const rows = cutSheet('run\tset-up\tair\tFL\tFR\tRL\tRR\nA\tLow\toff\t6\t6\t6\t6\nA\tLow\ton\t5\t5\t5\t5')
    expect(kindByHead(rows, ['air', 'traverse'])).toBe('air')
    const { made, problems } = readAir(rows, mapByHead('air', rows)!, DEFAULT_UNITS)
    expect(problems).toEqual([])
    expect(made.map(({ run, setUp, air, heights: read }) => [run, setUp, air, read.length])).toEqual([['A', 'Low', 'off', 4], ['A', 'Low', 'on', 4]])
  })

  it('are speeds across the jet, several at a point', () => {
    const rows = cutSheet('y\tz\tspeed 1\tspeed 2\n-40\t20\t15,1\t15,3\n0\t20\t16\t')
    const { made } = readTraverse(rows, mapByHead('traverse', rows)!, DEFAULT_UNITS)
    expect(made.map(({ at, shownMs }) => [at, shownMs])).toEqual([
      [{ yMm: -40, zMm: 20 }, [15.1, 15.3]], [{ yMm: 0, zMm: 20 }, [16]],
    ])
  })

  it('are laps under the names of their runs', () => {
    const rows = cutSheet('Low wing\tHigh wing\n6,32\t6,28\n6,35\t6,3')
    const map = { head: true, columns: mapInOrder(['lap', 'lap'], 2).columns }
    const { made, guesses } = readLaps(rows, map, DEFAULT_UNITS)
    expect(guesses).toEqual(['runsByColumn'])
    expect(made.map(({ name, laps }) => [name, laps.map(({ timeS }) => timeS)])).toEqual([['Low wing', [6.32, 6.35]], ['High wing', [6.28, 6.3]]])
  })

  it('are loads on the scale', () => {
    const rows = cutSheet('Shot 1\t250\nShot 2\t230')
    const { made } = readLoads(rows, mapInOrder(['name', 'mass'], 2), DEFAULT_UNITS)
    expect(made.map(({ name, weighings }) => [name, weighings.map(({ massKg }) => massKg)])).toEqual([['Shot 1', [0.25]], ['Shot 2', [0.23]]])
  })
})
