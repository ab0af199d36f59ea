/** Where loads lie: kept over a zero, at the front axle line too, and put right with the old place kept. */
import { produce } from 'immer'
import { describe, expect, it } from 'vitest'
import { session as sessionSchema, type SquatSession, type SquatStep } from '@core/schema'
import {
  gaugeStepMm, lastPlaced, lieTogether, massStepKg, movePlaced, newSquat, nextStep, placeCount, placedAlike, zeroStep,
} from '@renderer/screens/squat/steps'
import { someChassis } from '../../harness/documents'
import { shownWith } from '../../harness/shown'

const load = (loadId: string, xMm: number, yMm = 0) => ({ loadId, xMm, yMm, uPlaceMm: 1 })
const squat = (...placed: SquatStep['placed'][]): SquatSession => {
  const session = newSquat(someChassis('a'), 'Squat')
  for (const each of placed) session.steps.push(each.length > 0 ? nextStep(session, each, 'loading') : zeroStep(1))
  return session
}

describe('where the next loads lie', () => {
  it('is where the last did, over a zero, at the front axle line too', () => {
    expect(lastPlaced(squat([load('bag', 155)], [load('bag', 0)], []))).toMatchObject({ xMm: 0, yMm: 0 })
  })

  it('is nobody’s before the first', () => {
    expect(lastPlaced(squat([], []))).toBeUndefined()
  })
})

describe('a place put right', () => {
  const session = squat([load('bag', 155)], [load('bag', 155), load('other', 155)], [load('bag', 0)], [], [load('bag', 155, 20)])
  const [, first, second, front] = session.steps as [SquatStep, SquatStep, SquatStep, SquatStep]

  it('finds the other steps whose loads lay there', () => {
    expect(placedAlike(session, first).map(({ id }) => id)).toEqual([second.id])
    expect(placedAlike(session, front)).toEqual([])
  })

  it('keeps the old place, for every load of the step, and fits the document', () => {
    const moved = produce(session, (draft) => movePlaced(draft.steps[2]!, null, { xMm: 310 }, 'typed again'))
    for (const each of moved.steps[2]!.placed) {
      expect(each).toMatchObject({ xMm: 310, yMm: 0, corrections: [{ was: { xMm: 155, yMm: 0 }, why: 'typed again' }] })
    }
    expect(sessionSchema.safeParse(moved).success).toBe(true)
    const again = produce(moved, (draft) => movePlaced(draft.steps[2]!, 'bag', { yMm: 12 }, 'typed again'))
    expect(again.steps[2]!.placed[0]!.corrections).toHaveLength(2)
    expect(again.steps[2]!.placed[1]!.corrections).toHaveLength(1)
    expect(lieTogether(again.steps[2]!.placed)).toBe(false)
  })

  it('typed as it was changes nothing', () => {
    expect(produce(session, (draft) => movePlaced(draft.steps[1]!, null, { xMm: 155 }, ''))).toBe(session)
  })
})

describe('how many places are told', () => {
  it('counts the places, not the loads', () => {
    expect(placeCount([load('a', 0), load('b', 0), load('c', 155)])).toBe(2)
    expect(placeCount([load('a', 0), load('b', 0, 20), load('c', 155)])).toBe(3)
    expect(placeCount([])).toBe(0)
  })
})

describe('the step that masses and readings are told to', () => {
  const car = someChassis('a')
  const scale = { id: 's', name: 'Scale', resolutionKg: 0.001, gainU: 0, checks: [] }
  it('is the finest scale’s', () => {
    expect(massStepKg({ ...car, scales: [scale, { ...scale, id: 't', resolutionKg: 0.0001 }] })).toBe(0.0001)
    expect(massStepKg({ ...car, scales: [] })).toBe(0.001)
  })
  it('is the chosen gauge’s', () => {
    expect(gaugeStepMm({ ...car, gauges: [{ ...car.gauges[0]!, id: 'g', resolutionMm: 0.05 }] }, 'g')).toBe(0.05)
    expect(gaugeStepMm({ ...car, gauges: [] }, 'g')).toBe(0.01)
  })
  it('never makes 352 g nothing', () => {
    expect(shownWith({ mass: 'kilogram' }).shownTo(0.352, 'mass', 0.001)).toBe('0.352\u00a0kg')
    expect(shownWith({ mass: 'ounce' }).shownTo(0.352, 'mass', 0.001)).toBe('12.42\u00a0oz')
  })
  it('tells a wish with three digits at the most', () => {
    expect(shownWith({ force: 'poundForce' }).short(0.3, 'force')).toBe('0.0674\u00a0lbf')
    expect(shownWith({ force: 'poundForce', decimalMark: 'comma' }).short(4, 'force')).toBe('0,899\u00a0lbf')
  })
})
