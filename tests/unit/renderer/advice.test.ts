/** The one next thing to do, from the first zero to good enough. */
import { describe, expect, it } from 'vitest'
import type { SquatResult } from '@core/analysis'
import { CORNERS, squatSession, type SquatSession, type SquatStep } from '@core/schema'
import { missingInSquat } from '@renderer/paths/missing'
import { adviceFor } from '@renderer/screens/squat/advice'
import { nextStep, typeReading, zeroStep } from '@renderer/screens/squat/steps'
import { sampleSquat } from '../../harness/sample'

const LOAD = { loadId: 'bag', xMm: 100, yMm: 0, uPlaceMm: 1 }

function session(settle: SquatSession['setup']['settle'] = 'none'): SquatSession {
  const made = sampleSquat('mule', 's', [])
  return { ...made, setup: { ...made.setup, settle, order: 'upDown' }, steps: [zeroStep(1)] }
}
function readAll(squat: SquatSession, step: SquatStep): void {
  for (const corner of CORNERS) typeReading(squat, step.id, corner, 5, '')
}
function step(squat: SquatSession, branch: 'loading' | 'unloading' | 'zero'): SquatStep {
  const made = branch === 'zero' ? zeroStep(2) : nextStep(squat, [LOAD], branch)
  squat.steps.push(made)
  return made
}
const now = (squat: SquatSession, result?: SquatResult) => adviceFor(squat, squat.steps.at(-1), result)

describe('the advice of a squat test', () => {
  it('walks from the first zero up, down and back to zero', () => {
    const squat = session()
    expect(now(squat)).toMatchObject({ key: 'firstZero', corners: CORNERS })
    typeReading(squat, squat.steps[0]!.id, 'frontLeft', 5.5, '')
    expect(now(squat).corners).toEqual(['frontRight', 'rearLeft', 'rearRight'])
    readAll(squat, squat.steps[0]!)
    expect(now(squat).key).toBe('moreLoads')
    for (let count = 0; count < 3; count++) readAll(squat, step(squat, 'loading'))
    expect(now(squat).key).toBe('wayDown')
    expect(missingInSquat(squat)).toEqual([{ key: 'wayDown', count: 1 }])
    readAll(squat, step(squat, 'unloading'))
    expect(now(squat).key).toBe('zeroReturn')
    readAll(squat, step(squat, 'zero'))
    expect(now(squat).key).toBe('enough')
    expect(missingInSquat(squat)).toEqual([])
  })

  it('names the settle routine before the first corner of a loaded step', () => {
    const squat = session('bounce')
    readAll(squat, squat.steps[0]!)
    const loaded = step(squat, 'loading')
    expect(now(squat).key).toBe('settleBounce')
    typeReading(squat, loaded.id, 'frontLeft', 5, '')
    expect(now(squat).key).toBe('read')
  })

  it('says when it is good enough, else which load is worth most', () => {
    const squat = session()
    readAll(squat, squat.steps[0]!)
    for (let count = 0; count < 3; count++) readAll(squat, step(squat, 'loading'))
    readAll(squat, step(squat, 'unloading'))
    readAll(squat, step(squat, 'zero'))
    const result = (goodEnough: boolean) => ({
      verdict: { front: { goodEnough }, rear: null }, nextLoad: { loadIds: ['bag'], names: ['Bag'], xMm: 100 },
    }) as unknown as SquatResult
    expect(now(squat, result(true)).key).toBe('goodEnough')
    expect(now(squat, result(false))).toMatchObject({ key: 'usefulLoad', loads: ['Bag'] })
  })

  it('keeps the old value of a corrected reading', () => {
    const squat = session()
    typeReading(squat, squat.steps[0]!.id, 'rearLeft', 5.5, 'typed again')
    typeReading(squat, squat.steps[0]!.id, 'rearLeft', 5.6, 'typed again')
    expect(squat.readings).toHaveLength(1)
    expect(squat.readings[0]).toMatchObject({ shownMm: 5.6, corrections: [{ was: 5.5, why: 'typed again' }] })
  })

  it('goes on in a fresh reading where no more corrections fit, so that the document can still be saved', () => {
    const squat = session()
    const type = (shownMm: number) => typeReading(squat, squat.steps[0]!.id, 'rearLeft', shownMm, 'typed again')
    for (let count = 0; count <= 10_001; count += 1) type(count / 1000)
    const held = squat.readings.map(({ shownMm, corrections }) => [shownMm, corrections.length])
    expect(held).toEqual([[10, 10_000], [10.001, 0]])
    expect(squat.readings.map(({ setAside }) => setAside?.why)).toEqual(['typed again', undefined])
    expect(squatSession.safeParse(squat).success).toBe(true)
  })
})
