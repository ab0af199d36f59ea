/** Twelve kinds of log as phones and loggers write them: read right, or asked, and every guess shown as one. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import {
  isMapped, LogReader, proposeLayout, proposeMapping, regularise, type LogMapping, type ProposedMapping,
  type RegularLog,
} from '@core/track'
import { encodingOf, isZip, logsIn, unpacked } from '../../../renderer/workers/logFile'
import { KINDS, LOGGED } from '../../worlds/logs/kinds'

const bytesOf = (name: string): Uint8Array => readFileSync(join('tests/worlds/logs/files', name))

interface Read extends ProposedMapping {
  readonly log: RegularLog
  readonly bad: Record<string, number>
  readonly rows: number
}

/** The whole way of a file: unpacked, decoded, cut, mapped, read, on a regular grid. */
function read(name: string, settle: (mapping: LogMapping) => LogMapping = (mapping) => mapping): Read {
  const raw = bytesOf(name)
  const bytes = isZip(raw) ? unpacked(raw, logsIn(raw)[0]!) : raw
  const text = new TextDecoder(encodingOf(bytes.subarray(0, 65_536))).decode(bytes)
  const layout = proposeLayout(text.slice(0, 65_536))!
  const proposed = proposeMapping(text.slice(0, 65_536), layout)
  const mapping = settle(proposed.mapping)
  expect(isMapped(mapping)).toBe(true)
  const reader = new LogReader(layout, mapping)
  reader.push(text)
  const table = reader.end()
  const log = regularise(table)!
  expect(table.count + table.bad.total + table.blankLines + layout.firstLine - 1).toBe(table.lineCount)
  return { ...proposed, log, rows: table.count, bad: { ...table.bad.byReason, ...log.bad.byReason } }
}

/** Largest difference from what was driven, m/s2, over an axis. */
function off(log: RegularLog, axis: 'x' | 'y' | 'z'): number {
  const own = log.axes[axis]!
  const from = LOGGED.driven[axis]
  return Math.max(...Array.from(own.subarray(0, 150), (value, i) => Math.abs(value - from[i]!)))
}

describe('the files', () => {
  it.each(KINDS)('$name stands as it is made', ({ name, bytes }) => {
    expect(Buffer.from(bytesOf(name)).equals(Buffer.from(bytes))).toBe(true)
  })
})

describe('twelve kinds of log', () => {
  it.each([
    ['blank-under-units.csv', ['x', 'y'], []],
    ['plain-zyx.csv', ['x', 'y', 'z'], ['accelerationUnit']],
    ['colon-fraction.csv', ['x', 'y', 'z'], []],
    ['comma-fraction.csv', ['x', 'y', 'z'], []],
    ['millimetres.csv', ['x', 'y', 'z'], ['accelerationUnit']],
    ['uptime-nanos.csv', ['x', 'y', 'z'], ['accelerationUnit']],
    ['no-time.csv', ['x', 'y', 'z'], ['rate']],
    ['windows-1252.csv', ['x', 'y', 'z'], []],
    ['phone.zip', ['x', 'y', 'z'], []],
  ] as const)('%s: every sample at its place, at 25 Hz', (name, axes, guessed) => {
    const { log, guesses, rows, bad } = read(name)
    expect(log.rateHz).toBeCloseTo(LOGGED.rateHz, 3)
    expect(rows).toBe(LOGGED.rows)
    expect(bad).toEqual({})
    for (const axis of axes) expect(off(log, axis)).toBeLessThan(0.011)
    expect(guesses.map(({ what }) => what)).toEqual(guessed)
  })

  it('three header rows: the units are taken from the second, each row with a time twice is counted', () => {
    const { log, mapping, guesses, bad } = read('three-heads.csv')
    expect(mapping).toMatchObject({
      axes: { x: 2, y: 1, z: null }, accelerationUnit: 'standardGravity', speed: { column: 3, unit: 'kilometrePerHour' },
    })
    expect(bad).toEqual({ timeRepeated: 5 })
    expect(log.rateHz).toBeCloseTo(LOGGED.rateHz, 1)
    expect(log.report.filled + log.report.gapCount).toBeGreaterThan(0)
    expect(guesses).toEqual([{ what: 'timeUnit', by: 'bySize' }])
  })

  it('whole seconds: rows are spread evenly between the steps of the clock, and it is said how many', () => {
    const { log, bad } = read('whole-seconds.csv')
    expect(bad).toEqual({})
    expect(log.rateHz).toBeCloseTo(LOGGED.rateHz, 1)
    expect(log.report.spread).toBe(LOGGED.rows - 8)
    expect(off(log, 'y')).toBeLessThan(1e-3)
  })

  it('raw counts: the scale is guessed from gravity and shown as a guess', () => {
    const { log, mapping, guesses } = read('counts.csv')
    expect(mapping).toMatchObject({ accelerationUnit: 'counts', countsPerG: 16_384 })
    expect(guesses.map(({ what }) => what)).toEqual(['accelerationUnit', 'countsPerG'])
    expect(off(log, 'z')).toBeLessThan(0.001)
  })

  it('raw counts of an unusual converter are read with the scale that the builder gives', () => {
    const { log } = read('counts.csv', (mapping) => ({ ...mapping, countsPerG: 2 * 16_384 }))
    expect(log.axes.z![0]! / LOGGED.driven.z[0]!).toBeCloseTo(0.5, 3)
  })

  it('no time column and no comment: nothing is read until the rate is said', () => {
    const text = 'acc_x[mg]\tacc_y[mg]\tacc_z[mg]\n' + Array.from({ length: 20 }, () => '1\t2\t1000').join('\n')
    const { mapping } = proposeMapping(text, proposeLayout(text)!)
    expect(mapping.time).toEqual({ rateHz: null })
    expect(isMapped(mapping)).toBe(false)
    expect(isMapped({ ...mapping, time: { rateHz: 50 } })).toBe(true)
  })

  it('a speed without a unit is taken as m/s only as a guess', () => {
    const text = 'time (s),ay (g),speed\n' + Array.from({ length: 20 }, (_, i) => `${i / 10},0.5,40`).join('\n')
    const { guesses } = proposeMapping(text, proposeLayout(text)!)
    expect(guesses).toEqual([{ what: 'speedUnit', by: 'byHabit' }])
  })

  it('a line with a clock time in it is no number: motion logs keep their commas', () => {
    const text = 'loggingTime,loggingSample,since,AccX(G),AccY(G)\n'
      + Array.from({ length: 30 }, (_, i) => `2030-10-30 16:38:${String(10 + i)}.8390,${i},1540931938.8${i},0.0${i},0.5`).join('\n')
    const layout = proposeLayout(text)!
    expect(layout.delimiter).toBe(',')
    expect(layout.names).toHaveLength(5)
  })
})
