/**
 * A rest inside a log of driving: found where the car stands, and nowhere else. The drives are of `tests/worlds`;
 * a stand between two of them is the first seconds of one that begins with a rest.
 */
import { describe, expect, it } from 'vitest'
import { DEFAULT_REDUCTION, proposeRest, reduceLog, regularise, type LogTable, type RegularLog } from '@core/track'
import { CALM, drive, type Drive } from '../../worlds/logs/drive'
import { remarkWith } from '../remarkWith'

const RATE_HZ = 50
/** The drive before the stand, s, and the stand. */
const [BEFORE_S, STAND_S] = [20, 6]

/** Drives one after the other as one log. */
function logOf(parts: readonly Partial<Drive>[], speed: ((i: number, shownMs: number) => number) | null): RegularLog {
  const driven = parts.map((part, i) =>
    drive({ ...CALM, rateHz: RATE_HZ, vibrationMs2: 1.5, ways: 'one', seed: 31 + i, ...part }))
  const joined = (of: 'x' | 'y' | 'z' | 'speedMs') => Float64Array.from(driven.flatMap((each) => [...each[of]]))
  const [x, y, z, shown] = [joined('x'), joined('y'), joined('z'), joined('speedMs')]
  const timeS = Float64Array.from(x, (_, i) => i / RATE_HZ)
  const table: LogTable = {
    count: x.length, timeS, axes: { x, y, z }, speedMs: speed && shown.map((each, i) => speed(i, each)),
    line: Uint32Array.from(x, (_, i) => i + 1), bad: { total: 0, byReason: {}, listed: [] }, blankLines: 0,
    lineCount: x.length,
  }
  return regularise(table)!
}

const DRIVES: Partial<Drive> = { restS: 0, lengthS: BEFORE_S }
const standsThen = (more: Partial<Drive> = {}): Partial<Drive> =>
  ({ restS: STAND_S, lengthS: STAND_S + BEFORE_S, ...more })
const asShown = (_: number, shownMs: number): number => shownMs
const said = (log: RegularLog) => proposeRest(log)

describe('a rest inside a log of driving', () => {
  it.each([['with a speed column', asShown], ['without one', null]] as const)('is found where the car stands, %s', (_, speed) => {
    const { rest, why } = said(logOf([DRIVES, standsThen()], speed))
    expect(why).toBe('found')
    expect(rest!.fromS).toBeGreaterThan(BEFORE_S - 0.1)
    expect(rest!.toS).toBeLessThan(BEFORE_S + STAND_S + 0.1)
    expect(rest!.toS - rest!.fromS).toBeGreaterThan(STAND_S - 1.5)
  })

  it('is found where the speed column says that the car stands, though elsewhere it is quieter', () => {
    // It rolls along smoothly in the first quiet stretch, and stands in the second, engine running.
    const parts = [DRIVES, standsThen(), standsThen({ vibrationMs2: 3 })]
    const second = BEFORE_S + STAND_S + BEFORE_S
    const rolls = (i: number, shownMs: number): number => (i / RATE_HZ < second ? Math.max(3, shownMs) : shownMs)
    const quiet = said(logOf(parts, null)).rest!
    expect(quiet.toS).toBeLessThan(second)
    const { rest, why } = said(logOf(parts, rolls))
    expect(why).toBe('found')
    expect(rest!.fromS).toBeGreaterThan(second - 0.1)
    expect(rest!.toS).toBeLessThan(second + STAND_S + 0.1)
  })

  it.each([
    ['speedNeverZero', 'its speed never comes down', logOf([DRIVES, standsThen()], (_, shownMs) => Math.max(2, shownMs))],
    ['neverQuiet', 'it never shakes less', logOf([DRIVES, { ...DRIVES, seed: 77 }], null)],
    ['neverQuiet', 'the speed says it stands but it shakes as ever', logOf([DRIVES], (i, shownMs) => (i > 500 && i < 750 ? 0 : shownMs))],
    ['meanDoesNotFit', 'it is quiet on a smooth curve', logOf([DRIVES, standsThen({ restSideMs2: 4 })], null)],
    ['tooShort', 'there is too little of it', logOf([{ restS: 1, lengthS: 1.5 }], null)],
  ] as const)('is not found, %s, where %s', (why, _, log) => {
    expect(said(log)).toEqual({ rest: null, why })
  })
})

describe('a log without a rest', () => {
  /** 2 degrees of lean, of gravity: what stays in a level one way round. */
  const COST_MS2 = 9.80665 * Math.sin((2 * Math.PI) / 180)
  const reduced = (ways: Drive['ways'], restS = 0) => {
    const log = logOf([{ restS, lengthS: 60 + restS, ways }], null)
    const { rest } = said(log)
    return { rest, ...reduceLog(log, { ...DEFAULT_REDUCTION, signal: 'y', rest }) }
  }

  it('says what it costs one way round, and has it in the level', () => {
    const { rest, zeroUMs2, remarks } = reduced('one')
    expect(rest).toBeNull()
    expect(remarkWith(remarks, 'restMissing').values).toMatchObject({ costMs2: expect.closeTo(COST_MS2, 9) as number })
    expect(zeroUMs2).toBeCloseTo(COST_MS2, 9)
  })

  it('says that it cancels both ways round', () => {
    const codes = reduced('both').remarks.map(({ code }) => code)
    expect(codes).toContain('restMissingBothWays')
    expect(codes).not.toContain('restMissing')
  })

  it('costs four times what one on ground level within half a degree does', () => {
    const { rest, zeroUMs2, remarks } = reduced('one', 5)
    expect(rest).not.toBeNull()
    expect(zeroUMs2).toBeGreaterThan(COST_MS2 / 4.1)
    expect(zeroUMs2).toBeLessThan(COST_MS2 / 3.5)
    expect(remarks.map(({ code }) => code)).not.toContain('restMissing')
  })
})
