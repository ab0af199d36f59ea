/** An order as it is driven: places taken, the next set-up, strays; and what a bend of the drift leaves open. */
import { describe, expect, it } from 'vitest'
import { bendCorrelation, bendFollows, gradientChanges, planProgress, trackCheck, understeerGradient } from '@core/track'
import type { TrackSession } from '@core/schema'
import { circleRun, trackSession } from './sessions'

const laps = (timeS: number): number[] => [0.998, 1, 1.002].map((factor) => factor * timeS)

const ABBA = ['a', 'b', 'b', 'a']
const plan = (order: readonly string[], afterOrder?: number): NonNullable<TrackSession['plan']> =>
  ({ beforeId: 'a', afterId: 'b', wishedShare: 0.05, order: [...order], ...(afterOrder ? { afterOrder } : {}) })

describe('a planned order', () => {
  it('begins with its first set-up, and goes on run by run', () => {
    const none = planProgress(plan(ABBA), [])
    expect(none).toMatchObject({ nextId: 'a', driven: 0 })
    expect(none.steps.map(({ state }) => state)).toEqual(['next', 'later', 'later', 'later'])
    const one = planProgress(plan(ABBA), [circleRun('r1', 'a', 1, laps(6)), circleRun('r2', 'b', 2, [])])
    expect(one).toMatchObject({ nextId: 'b', driven: 2 })
    expect(one.steps.map(({ state }) => state)).toEqual(['driven', 'begun', 'next', 'later'])
  })

  it('leaves out what was driven before it and what was set aside, and marks a stray', () => {
    const aside = { ...circleRun('r5', 'a', 5, laps(6)), setAside: { at: '2031-05-04T09:30:00.000Z', why: '' } }
    const found = planProgress(plan(ABBA, 2), [
      circleRun('r1', 'b', 1, laps(6)), circleRun('r2', 'a', 2, laps(6)), circleRun('r4', 'b', 4, laps(6)), aside,
      circleRun('r6', 'b', 6, laps(6)),
    ])
    expect(found.steps.map(({ state }) => state)).toEqual(['strayed', 'driven', 'next', 'later'])
    expect(found.steps[0]!.run!.id).toBe('r4')
  })

  it('is done when every place is taken', () => {
    const runs = ABBA.map((id, i) => circleRun(`r${i}`, id, i + 1, laps(6)))
    expect(planProgress(plan(ABBA), runs)).toMatchObject({ nextId: null, driven: 4 })
  })
})

describe('a drift that bends', () => {
  const runs = (order: string) => [...order].map((configurationId, i) => ({ configurationId, order: i + 1 }))

  it.each([['abba', 1], ['aba', 1], ['abbabaab', 0]] as const)('follows the device in %s by %d', (order, correlation) => {
    expect(bendCorrelation(runs(order), 'a', 'b')).toBeCloseTo(correlation, 12)
  })

  it('is said of one block, and not of two opposite ones', () => {
    const codes = (order: string) => trackCheck(
      trackSession([...order].map((id, i) => circleRun(`r${i}`, id, i + 1, laps(id === 'a' ? 6.2 : 6)))),
      { bench: null, weight: null },
    ).groups[0]!.comparisons[0]!.remarks.map(({ code }) => code)
    expect(codes('abba')).toContain('bendConfounded')
    expect(codes('abbabaab')).not.toContain('bendConfounded')
    expect(bendFollows(runs('ababab'), 'a', 'b')).toBe(false)
  })
})

describe('understeer gradients before and after', () => {
  /**
   * Steady circles of 5 m in the manner of ISO 4138 (constant radius: slope of the steering angle beyond L/R
   * against lateral acceleration; the standard's equations from memory). Angles from scipy.optimize.fsolve 1.17 on
   * force and moment of a car with two axles and exact trigonometry, wheelbase 0.26 m, mass 1.5 kg, 7 N on the
   * front; cornering stiffness 70 and 95 N/rad before, 78 and 90 after; gradients by numpy.polyfit 2.4.
   */
  const CIRCLES = {
    before: { degrees: [3.066807, 3.152404, 3.23529, 3.334162, 3.448976], numpy: 0.0019435107697994987 },
    after: { degrees: [2.997732, 3.016931, 3.035417, 3.057332, 3.082593], numpy: 0.0004315279682441843 },
  }
  const LAPS_S = [15.707963, 11.219974, 9.239978, 7.853982, 6.829549]
  const gradientOf = (which: keyof typeof CIRCLES, at = which as string) => understeerGradient({
    kind: 'steady', id: `run-${at}`, name: at, configurationId: at, order: 1, surfaceTemperatureK: null, tyreNote: '',
    note: '', setAside: null, steering: 'logged', uRadiusM: 0.005, uTimeS: 0, uSteerDeg: 0.02,
    points: CIRCLES[which].degrees.map((steerDeg, i) =>
      ({ id: `p${i}`, radiusM: 5, lapS: LAPS_S[i]!, steerDeg, setAside: null })),
  }, { wheelbaseMm: { value: 260, u: 0.5 } })!

  it.each(['before', 'after'] as const)('%s: the slope of numpy', (which) => {
    expect(gradientOf(which).value.value).toBeCloseTo(CIRCLES[which].numpy, 9)
  })

  it('tell by how much, and that it understeers less', () => {
    const [change] = gradientChanges([gradientOf('before'), gradientOf('after')])
    expect(change).toMatchObject({ beforeId: 'before', afterId: 'after', tendency: 'less' })
    expect(change!.difference).toMatchObject({
      kind: 'interval', value: expect.closeTo(CIRCLES.after.numpy - CIRCLES.before.numpy, 9) as number,
    })
  })

  it('tell no change between equals', () => {
    expect(gradientChanges([gradientOf('before', 'x'), gradientOf('before', 'y')])[0]!.tendency).toBe('same')
    expect(gradientChanges([gradientOf('before')])).toEqual([])
  })
})
