/**
 * What the track says beside its levels, on paper, in files and in JSON: every figure is the one that was worked out.
 * Figures on paper are read back from the printed text, and may be off by half of their last digit.
 */
import Papa from 'papaparse'
import { describe, expect, it } from 'vitest'
import { analyse, DEFAULT_OPTIONS } from '@core/analysis'
import { csvText, reportHtml, resultTables } from '@core/report'
import type { Statement } from '@core/uncertainty'
import { asJson } from '@electron/headless/asJson'
import { asTable } from '@electron/headless/asTable'
import type { Results } from '@electron/headless/results'
import { reportInput } from './demo'
import { drivenExchange } from './driven'

const exchange = drivenExchange()
const analysis = analyse(exchange, { ...DEFAULT_OPTIONS, speedsMs: [] })
const [track] = analysis.tracks
const { gradients, gradientChanges, corners } = track!
const [comparison] = track!.groups[0]!.comparisons
const { agreement, paired, covariates } = comparison!
const nameOf = (id: string): string => exchange.chassis.configurations.find((each) => each.id === id)!.name

const tables = resultTables(exchange, analysis)
type Row = Record<string, string>
const parsed = (fileName: string): Row[] =>
  Papa.parse<Row>(csvText(tables.find((each) => each.fileName === fileName)!), { header: true, skipEmptyLines: true })
    .data

/** The six cells of a statement in a file. */
function expectCells(row: Row, name: string, unit: string, said: Statement): void {
  const number = (head: string) => (row[head] === '' ? null : Number(row[head]))
  const cells = ['value', 'u', 'low', 'high'].map((part) => number(`${name} ${part}${unit}`))
  const says = row[`${name} says`]
  switch (said.kind) {
    case 'interval':
      return expect([says, ...cells]).toEqual(['value', said.value, said.u, said.interval.low, said.interval.high])
    case 'atLeast': return expect([says, ...cells]).toEqual(['at least', null, null, said.bound, null])
    case 'atMost': return expect([says, ...cells]).toEqual(['at most', null, null, null, said.bound])
    case 'between': return expect([says, ...cells]).toEqual(['between', null, null, said.low, said.high])
    case 'untold': return expect([says, ...cells]).toEqual(['untold', null, null, null, null])
  }
}

describe('a day of laps', () => {
  it('tells loads, pairs, covariates, gradients, their change and corners, all of them', () => {
    expect(agreement!.neededN.statement.kind).toBe('interval')
    expect(paired!.pairs).toHaveLength(4)
    expect(covariates!.gain.kind).toBe('interval')
    expect(gradients.map(({ statement }) => statement.kind)).toEqual(['interval', 'interval'])
    expect(gradientChanges).toHaveLength(1)
    expect(corners).toHaveLength(2)
  })
})

describe('files', () => {
  it('hold the load that the gain needs beside the bench’s', () => {
    const [row, ...more] = parsed('track-loads.csv')
    expect(more).toEqual([])
    expect([row!.before, row!.after]).toEqual([nameOf('tray-plain'), nameOf('tray-skirts')])
    expect(Number(row!['speed/(m/s)'])).toBe(agreement!.atSpeedMs)
    expectCells(row!, 'load needed', '/N', agreement!.neededN.statement)
    expectCells(row!, 'load by the bench', '/N', agreement!.expected.afterN.statement)
    expectCells(row!, 'bench less needed', '/N', agreement!.loadDifferenceN)
  })

  it('hold pairs and covariates', () => {
    const [row] = parsed('track-pairs.csv')
    expect(Number(row!.pairs)).toBe(4)
    expect(Number(row!['p of no difference'])).toBe(paired!.pValue)
    expectCells(row!, 'gain by pairs', '/1', paired!.gain)
    expectCells(row!, 'gain with order and tyres taken out', '/1', covariates!.gain)
    expectCells(row!, 'level per kelvin', '/1', covariates!.perKelvin)
  })

  it('hold gradients and their change', () => {
    const rows = parsed('gradients.csv')
    expect(rows.map((row) => [row.run, row['set-up'], row['tends to']]))
      .toEqual(gradients.map((each) => [each.name, nameOf(each.configurationId), each.tendency]))
    rows.forEach((row, i) => expectCells(row, 'gradient rad/(m/s2)', '', gradients[i]!.statement))
    const [change] = parsed('gradient-changes.csv')
    expect(change!.understeers).toBe('less')
    expectCells(change!, 'change of gradient rad/(m/s2)', '', gradientChanges[0]!.difference)
  })

  it('hold what each set-up does in the corner', () => {
    parsed('corners.csv').forEach((row, i) => {
      const { configurationId, speedMs, carried, frontOverRear, tendency } = corners[i]!
      expect([row['set-up'], Number(row['speed/(m/s)']), row['tends to']]).toEqual([nameOf(configurationId), speedMs, tendency])
      expectCells(row, 'front carries', '/1', carried.front)
      expectCells(row, 'rear carries', '/1', carried.rear)
      expectCells(row, 'front over rear', '/1', frontOverRear)
    })
    expect(parsed('corners.csv')).toHaveLength(2)
  })
})

describe('JSON', () => {
  const value = (said: Statement, unit: string) =>
    (said.kind === 'interval' ? { [`value${unit}`]: said.value, [`u${unit}`]: said.u } : {})
  const results: Results = {
    exchange, analysis, springs: {}, ranking: null, repeats: () => null,
    wishes: {
      speedsMs: [], heightsToMs: 10, holdMm: 3, holdAtMs: 10, findM2: null, rank: null, radiusM: 9, course: null,
    },
  }
  const text = JSON.stringify(asJson(results))
  const table = asTable(results)

  it.each([
    ['loadNeeded', agreement!.neededN.statement, 'N'], ['loadLessNeeded', agreement!.loadDifferenceN, 'N'],
    ['gain', paired!.gain, ''], ['gain', covariates!.gain, ''], ['perKelvin', covariates!.perKelvin, ''],
    ['gradient', gradients[0]!.statement, 'RadPerMs2'], ['gradient', gradients[1]!.statement, 'RadPerMs2'],
    ['difference', gradientChanges[0]!.difference, 'RadPerMs2'], ['front', corners[0]!.carried.front, ''],
    ['rear', corners[1]!.carried.rear, ''], ['frontOverRear', corners[1]!.frontOverRear, ''],
  ] as const)('holds %s', (key, said, unit) => {
    const found: unknown[] = []
    JSON.parse(text, (name, each: unknown) => {
      if (name === key) found.push(each)
      return each
    })
    expect(found).toContainEqual(expect.objectContaining({ kind: 'interval', ...value(said, unit) }))
  })

  it('stands beside the same tables in plain text', () => {
    for (const title of ['load that the gain needs', 'pairs of neighbours', 'understeer gradient', 'in the chosen corner']) {
      expect(table).toContain(`Track: ${title}`)
    }
  })
})

describe('paper', () => {
  const page = reportHtml(reportInput(exchange, analysis)).replace(/[\u00a0\u202f]/g, ' ')
  const plain = (markup: string): string => markup.replace(/<br>/g, ' ').replace(/<[^>]+>/g, '').replace(/−/g, '-').trim()
  /** Rows of the table under these heads: cells by head. */
  function rowsUnder(head: string): Row[] {
    const headsOf = (each: string) => plain(each.slice(0, each.indexOf('</thead>')).replace(/<\/th>/g, '|')).split('|')
    const markup = page.split('<table>').find((each) => headsOf(each).includes(head))
    if (!markup) throw new Error(`no table with ${head}`)
    const heads = [...markup.matchAll(/<th scope="col"[^>]*>(.*?)<\/th>/g)].map(([, text]) => plain(text!))
    const body = markup.slice(markup.indexOf('<tbody>'), markup.indexOf('</tbody>'))
    return body.split('<tr>').slice(1).map((row) => {
      const cells = [...row.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/g)].map(([, text]) => plain(text!))
      return Object.fromEntries(heads.map((each, i) => [each, cells[i] ?? '']))
    })
  }
  /** The figure before its unit and interval, in `per` of the kept unit. */
  function expectPrinted(cell: string, said: Statement, per = 1): void {
    if (said.kind !== 'interval') throw new Error('no value')
    const [figure] = /-?\+?\d+(\.\d+)?/.exec(cell)!
    const decimals = figure.split('.')[1]?.length ?? 0
    expect(Math.abs(Number(figure) / per - said.value)).toBeLessThanOrEqual((0.5001 * 10 ** -decimals) / per)
    expect(said.u * per).toBeGreaterThan(0.5 * 10 ** -decimals)
  }

  it('prints loads, pairs and covariates', () => {
    const [loads] = rowsUnder('Load that the gain needs')
    expectPrinted(loads!['Load that the gain needs']!, agreement!.neededN.statement)
    expectPrinted(loads!['Load by the bench']!, agreement!.expected.afterN.statement)
    expectPrinted(loads!['Bench less needed']!, agreement!.loadDifferenceN)
    const [pairs] = rowsUnder('Pairs of neighbours')
    expect(pairs!['Pairs of neighbours']).toBe('4')
    expectPrinted(pairs!['Gain by pairs']!, paired!.gain, 100)
    expectPrinted(pairs!['Gain, order and tyres taken out']!, covariates!.gain, 100)
    expectPrinted(pairs!['Level per kelvin of the tyres']!, covariates!.perKelvin, 100)
  })

  it('prints gradients, their change and the corner', () => {
    rowsUnder('Understeer gradient, rad per m/s²').forEach((row, i) =>
      expectPrinted(row['Understeer gradient, rad per m/s²']!, gradients[i]!.statement))
    const [change] = rowsUnder('Change of the understeer gradient, rad per m/s²')
    expectPrinted(change!['Change of the understeer gradient, rad per m/s²']!, gradientChanges[0]!.difference)
    expect(change!.Understeers).toBe('less than before')
    const inCorner = rowsUnder('Front carries')
    expect(inCorner).toHaveLength(2)
    inCorner.forEach((row, i) => {
      expectPrinted(row['Front carries']!, corners[i]!.carried.front, 100)
      expectPrinted(row['Rear carries']!, corners[i]!.carried.rear, 100)
      expectPrinted(row['Front over rear']!, corners[i]!.frontOverRear, 100)
    })
  })
})
