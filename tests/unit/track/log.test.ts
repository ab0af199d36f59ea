import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import {
  DEFAULT_REDUCTION, envelope, LogReader, proposeLayout, proposeMapping, proposeRest, reduceLog, regularise, seriesMean,
  type LogLayout, type LogMapping, type LogTable, type RegularLog,
} from '@core/track'
import type { DemoTruth } from '../../../seeds/demo'
import { logText, PLAIN_WORLD, truth } from './log-text'

/** Reads a text in pieces of a given size with the proposed layout and mapping. */
function read(text: string, { piece = 10_000, mapping, layout }: {
  piece?: number; mapping?: LogMapping; layout?: LogLayout
} = {}): LogTable {
  const cut = layout ?? proposeLayout(text.slice(0, 65_536))!
  const reader = new LogReader(cut, mapping ?? proposeMapping(text.slice(0, 65_536), cut).mapping)
  for (let at = 0; at < text.length; at += piece) reader.push(text.slice(at, at + piece))
  return reader.end()
}

const regular = (text: string): RegularLog => regularise(read(text))!

describe('layout and mapping proposed', () => {
  it('finds comma, point, names and units', () => {
    const text = logText(PLAIN_WORLD)
    const layout = proposeLayout(text)!
    expect(layout).toMatchObject({ delimiter: ',', decimal: 'point', firstLine: 2, names: ['time (s)', 'ax (m/s2)', 'ay (m/s2)', 'az (m/s2)'] })
    expect(proposeMapping(text, layout)).toEqual({
      guesses: [],
      mapping: {
        time: { column: 0, unit: 'second' }, axes: { x: 1, y: 2, z: 3 }, accelerationUnit: 'metrePerSecondSquared',
        countsPerG: null, speed: null,
      },
    })
  })

  it.each([
    [';', true], ['\t', true], ['\t', false], [';', false], ['|', false], [' ', false],
  ] as const)('reads the same numbers with separator %j and decimal comma %s', (delimiter, comma) => {
    const world = { ...PLAIN_WORLD, lengthS: 4 }
    const head = delimiter === ' ' ? ['time ax ay az'] : ['time (s),ax (m/s2),ay (m/s2),az (m/s2)']
    const table = read(logText(world, { delimiter, comma, head }))
    expect(table.bad.total).toBe(0)
    expect([...table.axes.z!]).toEqual([...read(logText(world)).axes.z!])
  })

  it('skips a preamble and joins a row of units to the names', () => {
    const text = ['Logger 7', 'Started 09:30', '', 'Uhrzeit;Quer;Laengs;Speed', 'hh:mm:ss;g;g;km/h',
      ...Array.from({ length: 40 }, (_, i) => `09:30:${String(10 + Math.floor(i / 10))},${i % 10}00;0,5${i % 10};0,01;36,0`), ''].join('\r\n')
    const layout = proposeLayout(text)!
    expect(layout).toMatchObject({ delimiter: ';', decimal: 'comma', firstLine: 6 })
    expect(layout.names).toEqual(['Uhrzeit [hh:mm:ss]', 'Quer [g]', 'Laengs [g]', 'Speed [km/h]'])
    const { mapping, guesses } = proposeMapping(text, layout)
    expect(guesses).toEqual([])
    expect(mapping).toEqual({
      time: { column: 0, unit: 'clock' }, axes: { x: 2, y: 1, z: null }, accelerationUnit: 'standardGravity', countsPerG: null,
      speed: { column: 3, unit: 'kilometrePerHour' },
    })
    const table = read(text)
    expect(table.count).toBe(40)
    expect(table.timeS[39]! - table.timeS[0]!).toBeCloseTo(3.9, 9)
    expect(table.axes.y![0]).toBeCloseTo(0.5 * 9.80665, 12)
    expect(table.speedMs![0]).toBeCloseTo(10, 12)
  })

  it('takes quoted decimal commas between commas', () => {
    const text = `"t","ay"\n${Array.from({ length: 30 }, (_, i) => `"0,${100 + i}","1,${i}"`).join('\n')}\n`
    const table = read(text)
    expect([table.count, table.timeS[3], table.axes.y![3]]).toEqual([30, 0.103, 1.3 * 9.80665])
  })

  it('tells milliseconds, microseconds and unlabelled g by size', () => {
    const rows = (step: number, unit: number) => Array.from({ length: 50 }, (_, i) => `${i * step},${unit}`).join('\n')
    const of = (text: string) => proposeMapping(text, proposeLayout(text)!).mapping
    expect(of(`time,acc\n${rows(5, 1.01)}\n`)).toMatchObject({ time: { unit: 'millisecond' }, accelerationUnit: 'standardGravity' })
    expect(of(`time,acc\n${rows(5000, 9.9)}\n`)).toMatchObject({ time: { unit: 'microsecond' }, accelerationUnit: 'metrePerSecondSquared' })
    expect(of(`time,acc\n${rows(0.005, 1000)}\n`)).toMatchObject({ time: { unit: 'second' }, accelerationUnit: 'milliGravity' })
  })

  it('proposes nothing for a text without numbers', () => {
    expect(proposeLayout('once upon\na time\n')).toBeNull()
    expect(proposeLayout('')).toBeNull()
  })
})

describe('rows that cannot be read', () => {
  const lines = logText({ ...PLAIN_WORLD, lengthS: 1 }).split('\n')
  const broken = [...lines]
  broken[5] = '0.0200,broken,1,9.8'
  broken[9] = '0.0400,0.1'
  broken[20] = '0.0950,,0.1,9.8'
  broken[30] = 'noon,0,0,9.8'
  broken[40] = ''
  broken[50] = '0.2450,Infinity,0,9.8'
  broken[60] = '0.2950,1,0x10,9.8'

  it('are counted and listed with line, text, reason and column; the rest is kept', () => {
    const table = read(broken.join('\n'))
    expect(table.bad.total).toBe(6)
    expect(table.bad.byReason).toEqual({ notANumber: 3, tooFewColumns: 1, emptyField: 1, timeUnreadable: 1 })
    expect(table.bad.listed).toEqual([
      { line: 6, text: '0.0200,broken,1,9.8', why: 'notANumber', column: 'ax (m/s2)' },
      { line: 10, text: '0.0400,0.1', why: 'tooFewColumns', column: null },
      { line: 21, text: '0.0950,,0.1,9.8', why: 'emptyField', column: 'ax (m/s2)' },
      { line: 31, text: 'noon,0,0,9.8', why: 'timeUnreadable', column: 'time (s)' },
      { line: 51, text: '0.2450,Infinity,0,9.8', why: 'notANumber', column: 'ax (m/s2)' },
      { line: 61, text: '0.2950,1,0x10,9.8', why: 'notANumber', column: 'ay (m/s2)' },
    ])
    expect(table.count + table.bad.total + table.blankLines + 1).toBe(table.lineCount)
    expect(table.blankLines).toBe(1)
  })

  it('do not depend on how the text is cut into pieces, nor on the line ends', () => {
    const whole = read(broken.join('\n'))
    for (const piece of [1, 7, 64, 1000]) expect(read(broken.join('\r\n'), { piece })).toEqual(whole)
    expect(read(broken.join('\r'), { piece: 13 })).toEqual(whole)
  })

  it('cost no more than their own line where a quote is never closed', () => {
    const odd = [...lines]
    odd[7] = '0.0300,"0.1,0.2,9.8'
    const table = read(odd.join('\n'))
    expect(table.bad.listed.map((each) => each.line)).toEqual([8])
    expect(table.count).toBe(199)
  })

  it('are listed up to a thousand, and all counted', () => {
    const layout = proposeLayout(lines.join('\n'))!
    const mapping = proposeMapping(lines.join('\n'), layout).mapping
    const table = read(lines.slice(0, 150).join('\n') + '\nx,y'.repeat(3000), { layout, mapping })
    expect(table.bad.total).toBe(3000)
    expect(table.bad.listed).toHaveLength(1000)
  })
})

describe('sampling', () => {
  it('keeps exact samples as they are', () => {
    const log = regular(logText({ ...PLAIN_WORLD, lengthS: 10 }))
    expect(log.report).toMatchObject({ interpolated: false, gapCount: 0, restartCount: 0 })
    expect(log.report.rateHz).toBeCloseTo(200, 6)
    expect(log.report.jitter).toBeLessThan(0.01)
  })

  it('finds the true rate behind times rounded to milliseconds', () => {
    const text = `t (ms),ay (g)\n${Array.from({ length: 3000 }, (_, i) => `${Math.round((i * 1000) / 333.3)},0.1`).join('\n')}\n`
    const log = regular(text)
    expect(log.report.rateHz).toBeCloseTo(333.3, 1)
    expect(log.report.interpolated).toBe(false)
  })

  it('interpolates jittered samples onto a grid without moving a straight line', () => {
    const times = Array.from({ length: 500 }, (_, i) => i * 0.01 + 0.004 * Math.sin(i * 1.7))
    const log = regular(`t (s),ay (m/s2)\n${times.map((t) => `${t.toFixed(6)},${(2 * t).toFixed(8)}`).join('\n')}\n`)
    expect(log.report.interpolated).toBe(true)
    const values = log.axes.y!
    for (let i = 1; i < values.length; i++) expect(values[i]! - values[i - 1]!).toBeCloseTo(2 / log.rateHz, 5)
  })

  it('breaks at a gap and says where, lists repeated and backward times, moves a restarted clock on', () => {
    const rows = Array.from({ length: 400 }, (_, i) => [i * 0.01, 1])
    const cut = rows.filter((_, i) => i < 100 || i >= 150)
    cut.splice(20, 0, [0.19, 5])
    cut.splice(40, 0, [0.3755, 5])
    const again = [...cut, ...rows.slice(0, 50)]
    const log = regular(`t (s),ay (m/s2)\n${again.map(([t, a]) => `${t},${a}`).join('\n')}\n`)
    expect(log.report.gapCount).toBe(1)
    expect(log.report.gaps[0]).toMatchObject({ missing: 50, line: 103 })
    expect(log.report.gaps[0]!.lengthS).toBeCloseTo(0.51, 9)
    expect(log.report.restarts).toHaveLength(1)
    expect(log.bad.byReason).toEqual({ timeRepeated: 1, timeBackwards: 1 })
    expect(log.segments).toHaveLength(3)
  })

  it('keeps the clock of its rate where single rows are missing, and fills them from their neighbours', () => {
    const rows = Array.from({ length: 400 }, (_, i) => `${i * 5},${(i % 7) / 10}`).filter((_, i) => i % 50 !== 49)
    const log = regular(`t (ms),ay (m/s2)\n${rows.join('\n')}\n`)
    expect(log.report.rateHz).toBeCloseTo(200, 9)
    expect(log.report).toMatchObject({ interpolated: false, filled: 7 })
    expect(log.axes.y).toHaveLength(399)
    expect(log.axes.y![48]).toBeCloseTo((48 % 7) / 10, 9)
    expect(log.axes.y![50]).toBeCloseTo((50 % 7) / 10, 9)
    expect(log.axes.y![49]).toBeCloseTo(((48 % 7) + (50 % 7)) / 20, 9)
  })

  it('goes on over midnight', () => {
    const text = `clock,ay (g)\n${Array.from({ length: 40 }, (_, i) => {
      const s = 23 * 3600 + 59 * 60 + 50 + i
      return `${String(Math.floor(s / 3600) % 24).padStart(2, '0')}:${String(Math.floor(s / 60) % 60).padStart(2, '0')}:${String(s % 60).padStart(2, '0')},0.1`
    }).join('\n')}\n`
    const log = regular(text)
    expect([log.segments.length, log.report.rateHz, log.bad.total]).toEqual([1, 1, 0])
  })

  it('has nothing to say of fewer than ten rows', () => {
    expect(regularise(read('t,ay\n0,1\n1,1\n2,1\n'))).toBeNull()
  })
})

describe('levels held', () => {
  const log = regular(logText(PLAIN_WORLD))
  const rest = proposeRest(log).rest!
  const reduced = reduceLog(log, { ...DEFAULT_REDUCTION, signal: 'y', rest })

  it('finds the rest by itself and takes bias and tilt out', () => {
    expect(rest.toS).toBeLessThanOrEqual(5.01)
    expect(reduced.tilt.how).toBe('rotated')
    expect(reduced.tilt.vertical).toBe('z')
    expect(Math.abs(reduced.tilt.tiltDeg! - 4)).toBeLessThan(0.3)
    expect(Math.abs(reduced.tilt.gravityError!)).toBeLessThan(0.005)
  })

  it('states the level within its own uncertainty, and no kerb', () => {
    // Seven circles with six seconds between their ramps, a kerb in the middle of each.
    expect(reduced.windows.length).toBeGreaterThanOrEqual(12)
    expect(reduced.windows.length).toBeLessThanOrEqual(21)
    expect(new Set(reduced.windows.map((each) => each.sign))).toEqual(new Set([1, -1]))
    for (const each of reduced.windows) {
      expect(Math.abs(each.levelMs2 - 6.2)).toBeLessThan(4 * each.uMs2 + 0.05)
      expect(each.heldMs2).toBeLessThan(each.levelMs2)
    }
  })

  const meanLevel = (windows: typeof reduced.windows): number =>
    windows.reduce((sum, each) => sum + each.levelMs2, 0) / windows.length

  it.each([0, 25, 60, 200])('does not move with a kerb of %i m/s2', (peakMs2) => {
    const { windows } = reduceLog(regular(logText({ ...PLAIN_WORLD, peakMs2 })), { ...DEFAULT_REDUCTION, signal: 'y', rest })
    expect(windows.length).toBeGreaterThanOrEqual(10)
    expect(Math.abs(meanLevel(windows) - 6.2)).toBeLessThan(0.06)
  })

  it('leaves the samples of a blow out of a window that holds one, and says how many', () => {
    const at = { ...DEFAULT_REDUCTION, signal: 'y' as const, rest, chosen: [{ fromS: 8, toS: 10 }] }
    const [hit] = reduceLog(regular(logText({ ...PLAIN_WORLD, peakMs2: 60 })), at).windows
    const [still] = reduceLog(regular(logText({ ...PLAIN_WORLD, peakMs2: 0 })), at).windows
    expect([7, 8, 9]).toContain(hit!.leftOut - still!.leftOut)
    expect(hit!.levelMs2).toBeCloseTo(still!.levelMs2, 1)
  })

  it('does not grow with the length of the log: where a window lies is not chosen by its height', () => {
    const biases = [1, 2, 3, 4].map((seed) => {
      const long = regular(logText({ ...PLAIN_WORLD, seed, lengthS: 600, rateHz: 50, memory: 0.7, peakMs2: 0 }))
      const { windows } = reduceLog(long, { ...DEFAULT_REDUCTION, signal: 'y', rest: { fromS: 0, toS: 4.9 } })
      expect(windows.length).toBeGreaterThan(35)
      const u = Math.sqrt(windows.reduce((sum, each) => sum + each.uMs2 ** 2, 0)) / windows.length
      return (meanLevel(windows) - 6.2) / u
    })
    console.log(`mean level less truth, in u of the mean: ${biases.map((each) => each.toFixed(1)).join(', ')}`)
    for (const each of biases) expect(Math.abs(each)).toBeLessThan(3.5)
  })

  it('takes a window chosen by hand, and its speed where there is one', () => {
    const chosen = reduceLog(log, { ...DEFAULT_REDUCTION, signal: 'y', rest, chosen: [{ fromS: 6.5, toS: 8.5 }] })
    expect(chosen.windows).toHaveLength(1)
    expect(chosen.windows[0]!.levelMs2).toBeGreaterThan(5.8)
    expect(chosen.windows[0]!.speedMs).toBeNull()
  })

  it('leaves out what gravity a leaning body adds, by the roll gradient', () => {
    const lean = reduceLog(log, { ...DEFAULT_REDUCTION, signal: 'y', rest, rollDegPerG: 2 })
    expect(lean.windows[0]!.levelMs2 / reduced.windows[0]!.levelMs2).toBeCloseTo(1 / (1 + (2 * Math.PI) / 180), 9)
  })

  it('says that nothing was held rather than inventing a level', () => {
    const none = reduceLog(log, { ...DEFAULT_REDUCTION, signal: 'y', rest, sustainS: 100 })
    expect(none.windows).toEqual([])
    expect(none.remarks.map((each) => each.code)).toContain('nothingHeld')
  })

  it('warns where nothing was taken out, or the axis is the vertical one', () => {
    const codes = (signal: 'y' | 'z', at: typeof rest | null) =>
      reduceLog(log, { ...DEFAULT_REDUCTION, signal, rest: at }).remarks.map((each) => each.code)
    expect(codes('y', null)).toContain('restMissingBothWays')
    expect(codes('z', rest)).toContain('signalIsVertical')
  })

  it('covers the true level in nineteen of twenty logs (noise with memory, 200 windows)', () => {
    let inside = 0
    let all = 0
    for (let seed = 1; seed <= 100; seed++) {
      const world = { ...PLAIN_WORLD, seed, lengthS: 15, rateHz: 50, memory: 0.5, peakMs2: 0 }
      const each = regular(logText(world))
      for (const chosen of [[6.5, 8.5], [8.5, 11.5]]) {
        const { windows } = reduceLog(each, {
          ...DEFAULT_REDUCTION, signal: 'y', rest: { fromS: 0, toS: 4.9 }, chosen: [{ fromS: chosen[0]!, toS: chosen[1]! }],
        })
        const expected = truth(world, (chosen[0]! + chosen[1]!) / 2)
        all++
        if (Math.abs(windows[0]!.levelMs2 - expected) <= 2.05 * windows[0]!.uMs2) inside++
      }
    }
    console.log(`levels covered: ${inside} of ${all}`)
    expect(inside / all).toBeGreaterThan(0.9)
  })
})

describe('the log of the demo', () => {
  const stored = (name: string) => readFileSync(new URL(`../../../seeds/${name}`, import.meta.url), 'utf8')
  const { log: told } = JSON.parse(stored('demo-truth.json')) as DemoTruth
  const table = read(stored('demo-log.csv'))
  const log = regularise(table)!
  const reduced = reduceLog(log, { ...DEFAULT_REDUCTION, signal: 'y', rest: proposeRest(log).rest })

  it('lists each garbled row', () => {
    const listed = [...table.bad.listed, ...log.bad.listed].map(({ line }) => line).sort((a, b) => a - b)
    expect(listed).toEqual([...told.garbledLines].sort((a, b) => a - b))
    expect(log.report.rateHz).toBeCloseTo(told.rateHz, 6)
  })

  it('gives the level held within its uncertainty', () => {
    const count = reduced.windows.length
    const mean = reduced.windows.reduce((sum, each) => sum + each.levelMs2, 0) / count
    const u = Math.sqrt(reduced.windows.reduce((sum, each) => sum + each.uMs2 ** 2, 0)) / count
    console.log(`demo log: ${count} windows, ${mean.toFixed(3)} m/s2, u ${u.toFixed(3)}, true ${told.levelMs2.toFixed(3)}`)
    expect(count).toBeGreaterThanOrEqual(15)
    expect(Math.abs(mean - told.levelMs2)).toBeLessThan(2.5 * u)
  })
})

describe('mean of a series with memory', () => {
  it('has the standard uncertainty of an AR(1) series, s sqrt((1+r)/(1-r)/n) (closed form)', () => {
    const r = 0.8
    const n = 4000
    const series = new Float64Array(n)
    let state = 12345
    const uniform = () => (state = (state * 48271) % 2147483647) / 2147483647
    const gauss = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
    for (let i = 1; i < n; i++) series[i] = r * series[i - 1]! + gauss()
    const theory = Math.sqrt((1 / (1 - r * r)) * ((1 + r) / (1 - r)) / n)
    expect(seriesMean(series).u / theory).toBeGreaterThan(0.8)
    expect(seriesMean(series).u / theory).toBeLessThan(1.2)
  })

  it('falls to s/sqrt(n) for independent values and to nothing for constant ones', () => {
    expect(seriesMean(new Float64Array(50).fill(3))).toMatchObject({ mean: 3, u: 0 })
    const alternating = Float64Array.from({ length: 100 }, (_, i) => (i % 2 ? 1 : -1))
    expect(seriesMean(alternating).effectiveCount).toBe(100)
  })
})

describe('drawing', () => {
  it('keeps every extreme in few points', () => {
    const log = regular(logText(PLAIN_WORLD))
    const column = log.axes.y!
    const drawn = envelope(log, column, { fromS: 0, toS: 60 }, 800)
    expect(drawn.timeS.length).toBeLessThanOrEqual(801)
    expect(Math.max(...drawn.high)).toBe(Math.max(...column))
    expect(Math.min(...drawn.low)).toBe(Math.min(...column))
  })

  it('shows single samples when zoomed in, and a break where the log has one', () => {
    const log = regular(logText(PLAIN_WORLD))
    const near = envelope(log, log.axes.y!, { fromS: 10, toS: 10.1 }, 800)
    expect(near.timeS.length).toBe(21)
    expect([...near.low]).toEqual([...near.high])
  })
})

describe('speed', () => {
  // Another program may spoil one timing, not three.
  it('reads, filters and reduces 240,000 rows for drawing in under 2 s', { retry: 2 }, () => {
    const text = logText({ ...PLAIN_WORLD, lengthS: 1200 })
    const start = performance.now()
    const table = read(text, { piece: 1 << 20 })
    const parsed = performance.now()
    const log = regularise(table)!
    const reduced = reduceLog(log, { ...DEFAULT_REDUCTION, signal: 'y', rest: proposeRest(log).rest })
    const drawn = envelope(log, reduced.filtered, { fromS: 0, toS: 1200 }, 1200)
    const end = performance.now()
    console.log(`${table.count} rows, ${(text.length / 1e6).toFixed(1)} MB: read ${Math.round(parsed - start)} ms, `
      + `in all ${Math.round(end - start)} ms`)
    expect(table.count).toBe(240_000)
    expect(drawn.timeS.length).toBeLessThanOrEqual(1201)
    expect(reduced.windows.length).toBe(149)
    expect(end - start).toBeLessThan(2000)
  })
})
