/**
 * A level that swings with the ground's fall: it is found by itself, cut into whole swings, and the level's u is
 * that of whole laps; plain noise is not taken for a swing. The drives are of `tests/worlds`.
 */
import { describe, expect, it } from 'vitest'
import type { LogRun } from '@core/schema'
import { DEFAULT_REDUCTION, proposeRest, reduceLog, regularise, runLevel, type ReduceOptions } from '@core/track'
import { CALM, drive, type Drive } from '../../worlds/logs/drive'

function reduced(world: Partial<Drive>, options: Partial<ReduceOptions> = {}) {
  const { timeS, x, y, z } = drive({ ...CALM, rateHz: 50, vibrationMs2: 1.5, ...world })
  const log = regularise({
    count: timeS.length, timeS, axes: { x, y, z }, speedMs: null, line: Uint32Array.from(timeS, (_, i) => i + 1),
    bad: { total: 0, byReason: {}, listed: [] }, blankLines: 0, lineCount: timeS.length,
  })!
  return reduceLog(log, { ...DEFAULT_REDUCTION, signal: 'main', rest: proposeRest(log).rest, ...options })
}

describe('a level that swings', () => {
  it('is cut into whole swings, each one lap of the circle', () => {
    const { taken, windows, remarks } = reduced({ slopeDeg: 3, seed: 4, vibrationMs2: 0.5 })
    // 5 m and 6.2 m/s2: 2 pi sqrt(5/6.2) s.
    const lapS = 2 * Math.PI * Math.sqrt(5 / 6.2)
    expect(taken).toBe('swings')
    const said = remarks.find(({ code }) => code === 'levelSwings')
    const swingS = (said?.values as { swingS: number }).swingS
    expect(Math.abs(swingS / lapS - 1)).toBeLessThan(0.03)
    for (const { fromS, toS } of windows) expect(Math.abs(toS - fromS - swingS)).toBeLessThan(0.1)
  })

  it('is not seen in noise alone, nor where laps are told', () => {
    const found = Array.from({ length: 20 }, (_, seed) => reduced({ seed, rateHz: 25, lengthS: 45 }).taken)
    expect(found.filter((taken) => taken === 'swings').length).toBeLessThanOrEqual(1)
    expect(reduced({ slopeDeg: 3, seed: 4 }, { lap: { radiusM: 5 } }).taken).toBe('laps')
  })

  it('scatters by its noise then, not by the swing', () => {
    const u = (world: Partial<Drive>): number => {
      const { windows } = reduced({ seed: 9, ...world })
      const mean = windows.reduce((sum, { levelMs2 }) => sum + levelMs2, 0) / windows.length
      return Math.sqrt(windows.reduce((sum, { levelMs2 }) => sum + (levelMs2 - mean) ** 2, 0)) / windows.length
    }
    expect(u({ swingShare: 0.2 })).toBeLessThan(1.6 * u({}))
  })
})

describe('a zero that both ways round cancel', () => {
  const run = (zero: number): LogRun => ({
    kind: 'log', id: 'r', name: 'r', configurationId: 'a', order: 1, surfaceTemperatureK: null, tyreNote: '', note: '',
    setAside: null, fileName: 'r.csv', fingerprint: '', manoeuvre: 'circle', cutoffHz: 3, sustainS: 2, sensorScaleU: 0,
    speedMs: null, zeroUMs2: 0.1, levelSigns: [1, 1, -1, -1],
    levelsMs2: [6.19, 6.21].flatMap((each) => [each + zero]).concat([6.19, 6.21].map((each) => each - zero))
      .map((value) => ({ value, u: 0.01 })),
  })
  const levelOf = (zero: number) => {
    const level = runLevel({ id: 's' }, run(zero), null)
    if (!('statement' in level) || level.statement.kind !== 'interval') throw new Error('no level')
    return level.statement
  }

  it('leaves the level, and a part of second order in its u', () => {
    expect(levelOf(1).value).toBeCloseTo(6.2, 12)
    const own = levelOf(0).u
    expect(levelOf(0.05).u / own).toBeLessThan(1.01)
    // 1 m/s2 to the side, and the same ahead at right angles: sqrt(6.2^2 + 1) - 6.2 = 0.080.
    expect(Math.sqrt(levelOf(1).u ** 2 - own ** 2)).toBeCloseTo(Math.hypot(6.2, 1) - 6.2, 2)
  })
})
