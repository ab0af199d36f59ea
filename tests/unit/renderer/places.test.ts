/** Where loads lie: kept over a zero, at the front axle line too, and put right with the old place kept. */
import { produce } from 'immer'
import { describe, expect, it } from 'vitest'
import { session as sessionSchema, type SquatSession, type SquatStep } from '@core/schema'
import { lastPlaced, lieTogether, movePlaced, newSquat, nextStep, placedAlike, zeroStep } from '@renderer/screens/squat/steps'
import { someChassis } from '../../harness/documents'

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
