/** The stream: traverse, gates, and air without a barometer. */
import { ASSUMED_UNEVENNESS, readAir, readTiming, readTraverse } from '@core/airflow'
import { covariance, standardUncertainty, variance } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { AIR, chassis } from './bench'

const traverse = (shown: readonly (readonly number[])[], weights?: readonly number[]) => ({
  anemometerId: 'cups',
  points: shown.map((shownMs, i) => ({ id: `p-${i}`, yMm: 10 * i, zMm: 0, weight: weights?.[i] ?? null, shownMs: [...shownMs] })),
})
const part = (of: ReturnType<typeof readTraverse>, ending: string) =>
  of!.meanSquareM2S2.parts.find(({ source }) => source.id.endsWith(ending))?.contribution ?? 0

describe('traverse', () => {
  it('averages V squared, not V', () => {
    expect(readTraverse(traverse([[10], [20]]), chassis(), 's', 'full')!.meanSquareM2S2.value).toBeCloseTo(250, 12)
  })

  it('weighs the points by the share of the jet they stand for', () => {
    const read = readTraverse(traverse([[10], [20]], [3, 1]), chassis(), 's', 'full')!
    expect(read.meanSquareM2S2.value).toBeCloseTo((3 * 100 + 400) / 4, 12)
  })

  it('unevenness is the standard deviation of the mean over the points', () => {
    const read = readTraverse(traverse([[10], [20], [15]]), chassis(), 's', 'full')
    const squares = [100, 400, 225]
    const mean = 725 / 3
    const deviation = Math.sqrt(squares.reduce((sum, each) => sum + (each - mean) ** 2, 0) / 2)
    expect(part(read, ':unevenness')).toBeCloseTo(deviation / Math.sqrt(3), 9)
    expect(read!.unevenness).toBeCloseTo(deviation / mean, 9)
  })

  it('the anemometer\'s factor counts twice, relative, and is shared between jets', () => {
    const one = readTraverse(traverse([[10], [10]]), chassis(), 's', 'half')!.meanSquareM2S2
    const other = readTraverse(traverse([[20], [20]]), chassis(), 's', 'full')!.meanSquareM2S2
    expect(covariance(one, other)).toBeCloseTo(0.04 * 100 * 0.04 * 400, 9)
  })

  it('one point is taken as uneven as jets are, and says so', () => {
    const read = readTraverse(traverse([[10]]), chassis(), 's', 'full')!
    expect(part(read, ':unevenness')).toBeCloseTo(ASSUMED_UNEVENNESS * 100, 9)
    expect(read.remarks.map(({ code }) => code)).toContain('onePointTraverse')
  })

  it('the same traverse entered for two runs is one measurement; a second one over the same grid shares the jet only', () => {
    const first = readTraverse(traverse([[10, 10.2], [12, 12.4]]), chassis(), 's', 'full')!.meanSquareM2S2
    const copied = readTraverse(traverse([[10, 10.2], [12, 12.4]]), chassis(), 's', 'full')!.meanSquareM2S2
    const second = readTraverse(traverse([[10.1, 10.2], [12, 12.3]]), chassis(), 's', 'full')!.meanSquareM2S2
    expect(covariance(first, copied)).toBeCloseTo(variance(first), 9)
    const repeats = first.parts.find(({ source }) => source.id.endsWith(':repeats'))!
    expect(second.parts.some(({ source }) => source.id === repeats.source.id)).toBe(false)
    const uneven = first.parts.find(({ source }) => source.id.endsWith(':unevenness'))!
    expect(second.parts.some(({ source }) => source.id === uneven.source.id)).toBe(true)
  })

  it('nothing read tells nothing', () => {
    expect(readTraverse(traverse([[], []]), chassis(), 's', 'full')).toBeNull()
  })
})

describe('gates', () => {
  const gates = {
    distanceMm: { value: 1000, u: 2 }, distanceFarMm: { value: 3000, u: 2 }, firstS: 1, secondS: 1.1, thirdS: null,
    uTimeS: 0.001,
  }

  it('speed with its uncertainty: relative squares of distance and of two moments', () => {
    const { speedMs } = readTiming(gates, 's', 'a')!
    expect(speedMs.value).toBeCloseTo(10, 12)
    expect(standardUncertainty(speedMs)).toBeCloseTo(10 * Math.hypot(0.002, (Math.SQRT2 * 0.001) / 0.1), 9)
  })

  it('a constant acceleration is found exactly from three gates', () => {
    const timeTo = (metres: number) => (-9 + Math.sqrt(81 + 2 * 3 * metres)) / 3
    const { accelerationMs2 } = readTiming({
      ...gates, firstS: 0, secondS: timeTo(1), thirdS: timeTo(3),
    }, 's', 'a')!
    expect(accelerationMs2!.value).toBeCloseTo(3, 9)
  })

  it('the speed is the one midway between the outer gates, where the heights are read', () => {
    const timeTo = (metres: number) => (-9 + Math.sqrt(81 + 2 * 3 * metres)) / 3
    const { speedMs } = readTiming({ ...gates, firstS: 0, secondS: timeTo(1), thirdS: timeTo(3) }, 's', 'a')!
    expect(speedMs.value).toBeCloseTo(Math.sqrt(81 + 2 * 3 * 1.5), 9)
  })

  it('moments out of order tell nothing', () => {
    expect(readTiming({ ...gates, secondS: 0.9 }, 's', 'a')).toBeNull()
  })
})

describe('air without a barometer', () => {
  it('takes the pressure of the height and carries the weather', () => {
    const air = readAir({ ...AIR, pressurePa: null, heightM: { value: 420, u: 5 } }, 's')
    expect(air.pressurePa.value).toBeGreaterThan(96_000)
    expect(standardUncertainty(air.pressurePa)).toBeGreaterThan(1000)
    expect(air.remarks.map(({ code }) => code)).toEqual(['pressureFromHeight'])
  })

  it('instruments are shared within a session', () => {
    const air = { ...AIR, temperatureK: { value: 293, u: 0.5 } }
    const [one, other] = [readAir(air, 's').densityKgM3, readAir(air, 's').densityKgM3]
    expect(covariance(one, other)).toBeCloseTo(variance(one), 15)
    expect(covariance(one, readAir(air, 't').densityKgM3)).toBeLessThan(variance(one) / 1000)
  })
})
