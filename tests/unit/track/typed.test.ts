/**
 * A level typed from a display: its own u goes into the level, the comparison and what is claimed beside the bench.
 * Expected figures are the law of propagation written out (JCGM 100:2008, 5.1.2), with u's that are known.
 */
import { describe, expect, it } from 'vitest'
import type { TrackSession } from '@core/schema'
import { trackCheck, type BenchLoads, type CarWeight, type TrackResult } from '@core/track'
import { exact, fromSource, known, standardUncertainty } from '@core/uncertainty'
import { setAsideNow, trackSession } from './sessions'

type Typed = Extract<TrackSession['runs'][number], { kind: 'typed' }>
const typed = (id: string, order: number, shown: readonly number[], more: Partial<Typed> = {}): Typed => ({
  kind: 'typed', id, name: id, configurationId: id, order, surfaceTemperatureK: null, tyreNote: '', note: '', setAside: null,
  manoeuvre: 'circle', radiusM: { value: 2.5, u: 0 }, sensorScaleU: 0, speedMs: null, uShownMs2: 0.12,
  levels: shown.map((shownMs2, i) => ({ id: `${id}-${i}`, shownMs2, setAside: null })), ...more,
})

const ALONE = { bench: null, weight: null }
const WEIGHT: CarWeight = { gravityMs2: 9.80665, totalN: exact(15), axlesN: { front: exact(7.5), rear: exact(7.5) } }
/** A device that presses each axle by 0.03 N per (m/s)^2, known to 2 %; where it touches only as a bound. */
const bench = (touches = false): BenchLoads => ({
  loadAt: (id, { value }) => {
    const load = (c: number) => {
      const size = id === 'after' ? c * value ** 2 : 0
      const told = fromSource(size, 0.02 * size, known('chassis', `cla:${id}`))
      return touches && id === 'after' ? { kind: 'atLeast' as const, low: told, reason: 'touchedGround' as const }
        : { kind: 'value' as const, value: told, extrapolated: false }
    }
    return { axles: { front: load(0.03), rear: load(0.03) }, total: load(0.06) }
  },
})

const levelOf = (run: Typed) => trackCheck(trackSession([run]), ALONE).groups[0]!.runs[0]!
const only = (result: TrackResult) => result.groups[0]!.comparisons[0]!
const pair = (uShownMs2: number, after: readonly number[] = [6.56, 6.56], more: Partial<Typed> = {}): TrackSession =>
  trackSession(
    [typed('before', 1, [6.2, 6.2], { uShownMs2, ...more }), typed('after', 2, after, { uShownMs2, ...more })],
    { tyreLaw: { sensitivity: { value: 0, u: 0 } } })

describe('a level typed from a display', () => {
  it('has the display’s u and the sensor’s scale where it stands alone, and says that it does', () => {
    const level = levelOf(typed('a', 1, [6.2], { sensorScaleU: 0.02 }))
    expect(level.levelMs2.value).toBe(6.2)
    expect(standardUncertainty(level.levelMs2)).toBeCloseTo(Math.hypot(0.12, 0.02 * 6.2), 12)
    expect(level.remarks.map(({ code }) => code)).toContain('loneLap')
  })

  it('rests on the display where the levels scatter less than it can tell, else on their scatter', () => {
    const calm = levelOf(typed('a', 1, [6.2, 6.25, 6.15, 6.2]))
    expect(calm.scatterFrom).toBe('within')
    expect(standardUncertainty(calm.levelMs2)).toBeCloseTo(0.12 / 2, 12)
    // Sample standard deviation of 5.9, 6.5, 6.0, 6.4: sqrt(0.26/3).
    const rough = levelOf(typed('a', 1, [5.9, 6.5, 6, 6.4]))
    expect(rough.scatterFrom).toBe('repeats')
    expect(standardUncertainty(rough.levelMs2)).toBeCloseTo(Math.sqrt(0.26 / 3) / 2, 12)
  })

  it('takes no part where it is set aside', () => {
    const run = typed('a', 1, [6.2, 6.2, 9.9])
    const levels = run.levels.map((each, i) => (i === 2 ? { ...each, setAside: setAsideNow } : each))
    const level = levelOf({ ...run, levels })
    expect(level.levelMs2.value).toBeCloseTo(6.2, 12)
    expect(standardUncertainty(level.levelMs2)).toBeCloseTo(0.12 / Math.SQRT2, 12)
  })

  it('takes its speed from the circle, or as it was typed', () => {
    expect(levelOf(typed('a', 1, [6.2])).speedMs!.value).toBeCloseTo(Math.sqrt(6.2 * 2.5), 12)
    expect(levelOf(typed('a', 1, [6.2], { speedMs: { value: 4, u: 0.2 } })).speedMs).toMatchObject({ value: 4 })
  })
})

describe('typed levels before and after', () => {
  it('give a gain whose u is that of the displays; the scale that they share cancels', () => {
    const { gain, differenceMs2 } = only(trackCheck(pair(0.12), ALONE))
    const own = 0.12 / Math.SQRT2
    if (gain.statement.kind !== 'interval' || differenceMs2.kind !== 'interval') throw new Error('no interval')
    expect(gain.statement.value).toBeCloseTo(6.56 / 6.2 - 1, 12)
    expect(gain.statement.u).toBeCloseTo((6.56 / 6.2) * Math.hypot(own / 6.2, own / 6.56), 9)
    expect(differenceMs2.u).toBeCloseTo(own * Math.SQRT2, 9)
    const scaled = only(trackCheck(pair(0.12, [6.56, 6.56], { sensorScaleU: 0.05 }), ALONE)).gain.statement
    expect(scaled).toMatchObject({ u: expect.closeTo(gain.statement.u, 9) as number })
  })

  it('agree with the bench as the display allows: a fine one contradicts what a coarse one lets stand', () => {
    // The bench at sqrt(2.5 x 6.56) m/s: 0.06 x 16.4/15 = 6.56 % more; 12 % are seen.
    const of = (uShownMs2: number) =>
      only(trackCheck(pair(uShownMs2, [6.944, 6.944]), { bench: bench(), weight: WEIGHT })).agreement!
    expect(of(0.01)).toMatchObject({ verdict: 'trackHigher', weak: false })
    expect(of(0.4)).toMatchObject({ verdict: 'agrees', weak: true })
    expect(of(0.01).normalisedError! / of(0.4).normalisedError!).toBeGreaterThan(10)
    const [fine, coarse] = [of(0.01), of(0.4)].map(({ neededN }) => neededN.statement)
    if (fine?.kind !== 'interval' || coarse?.kind !== 'interval') throw new Error('no load')
    expect(coarse.u / fine.u).toBeCloseTo(40, 3)
  })

  it('are held against a bound as a bound: nothing plain is claimed past touch-down', () => {
    const { expected, difference, normalisedError, verdict } =
      only(trackCheck(pair(0.02, [6.944, 6.944]), { bench: bench(true), weight: WEIGHT })).agreement!
    expect(expected.total.claim.kind).toBe('atLeast')
    expect(expected.afterN.statement).toMatchObject({ kind: 'atLeast' })
    expect(difference.kind).toBe('atMost')
    expect(normalisedError).toBeNull()
    expect(verdict).toBe('compatible')
  })

  it('are not compared with those of another circle', () => {
    const [a, b] = [typed('before', 1, [6.2, 6.2]), typed('after', 2, [6.5, 6.5], { radiusM: { value: 4, u: 0 } })]
    expect(trackCheck(trackSession([a, b]), ALONE).groups.map(({ comparisons }) => comparisons.length)).toEqual([0, 0])
  })
})
