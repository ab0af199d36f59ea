/** What the decision screen makes of the core's answers: whole runs, the end that touches first, what is kept. */
import { describe, expect, it } from 'vitest'
import { repeatsNeeded, type Comparison, type ConfigurationAero, type TouchDowns } from '@core/aero'
import { firstToTouch } from '@core/answer'
import { questionsOf } from '@renderer/screens/decide/kept'
import { runsNeeded } from '@renderer/screens/decide/runsNeeded'

/** Runs of a set-up, some of which told only a bound and took no part in the fit. */
function setUp(taken: number, bounds = 0): ConfigurationAero {
  const points = [...Array<number>(taken).fill(1), ...Array<number>(bounds).fill(0)].map((weight) => ({ weight }))
  return { measure: 'lessControl', total: { points } } as unknown as ConfigurationAero
}
type Square = number | null
const comparison = (shrinksM2: Square, staysM2: Square, smallestDetectableM2: Square): Comparison =>
  ({ measure: 'lessControl', shrinksM2, staysM2, smallestDetectableM2 }) as unknown as Comparison

describe('runs needed', () => {
  const one = comparison(1e-4, 0, 3e-4)
  it('are the present ones where the difference is found already', () => {
    expect(runsNeeded(one, [setUp(3), setUp(4)], 3e-4)).toEqual({ kind: 'enough' })
  })
  it('are whole runs of each, of those that took part', () => {
    const needed = repeatsNeeded(one, 2e-4)
    if (needed.kind !== 'times') throw new Error('out of reach')
    // (1.960 + 0.842)^2 / 2^2 = 1.96: the factor of the usual power analysis.
    expect(needed.factor).toBeCloseTo(1.962, 2)
    expect(runsNeeded(one, [setUp(3, 2), setUp(4)], 2e-4)).toEqual({ kind: 'runs', runs: [6, 8], now: [3, 4] })
  })
  it('are one more at the least where few degrees of freedom leave the factor at 1', () => {
    expect(runsNeeded(comparison(1e-5, 0, 3e-4), [setUp(2), setUp(2)], 2.9e-4))
      .toEqual({ kind: 'runs', runs: [3, 3], now: [2, 2] })
  })
  it('do not help where what stays is too large', () => {
    expect(runsNeeded(comparison(1e-5, 1e-3, 3e-3), [setUp(2), setUp(2)], 1e-4)).toMatchObject({ kind: 'outOfReach' })
  })
  it('are untold from bounds', () => {
    expect(runsNeeded(comparison(null, null, null), [setUp(2), setUp(2)], 1e-4)).toEqual({ kind: 'untold' })
  })
})

describe('the end that touches first', () => {
  const at = (speed: number, divergesMs: number | null = null) =>
    ({ divergesMs, speedMs: { kind: 'atLeast', bound: speed } })
  const never = { divergesMs: null, speedMs: { kind: 'untold' } }
  const told = (front: unknown, rear: unknown, frontFirst: number | null): TouchDowns =>
    ({ axles: { front, rear }, frontFirst }) as unknown as TouchDowns
  it.each([
    ['the likelier one', told(at(20), at(10), 0.9), 'front'],
    ['the likelier one', told(at(10), at(20), 0.1), 'rear'],
    ['the lower speed without a chance', told(at(20), at(18), null), 'rear'],
    ['the one that is sucked down', told(at(20), at(99, 12), null), 'rear'],
    ['the only one that touches', told(never, at(30), null), 'rear'],
    ['the front where neither is told', told(never, never, null), 'front'],
  ] as const)('is %s', (_, touchDowns, expected) => { expect(firstToTouch(touchDowns)).toBe(expected) })
})

describe('what was asked', () => {
  it('stays with the car, and begins anew with another', () => {
    questionsOf('one').courseId = 'oval'
    expect(questionsOf('one').courseId).toBe('oval')
    expect(questionsOf('other').courseId).toBe('')
    expect(questionsOf('one').courseId).toBe('')
  })
})
