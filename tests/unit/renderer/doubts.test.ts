/** Readings in doubt, from remarks made by hand; and what becomes of a reading when it is settled. */
import { describe, expect, it } from 'vitest'
import { aboutReading, remark, type Remark } from '@core/remark'
import type { Chassis, SquatSession } from '@core/schema'
import { doubtsOf, keepReading, turnReading } from '@renderer/parts/doubts'
import {
  asideAt, emptyReading, massOfLoad, massOfLoads, nextStep, readingOf, typeReading, zeroStep,
} from '@renderer/screens/squat/steps'
import { sampleChassis, sampleSquat } from '../../harness/sample'

const NOW = '2026-05-02T10:00:00.000Z'

/** A zero of 5.5 mm and a step that shows `shownMm` at the front left. */
function session(shownMm: number): SquatSession {
  const made = { ...sampleSquat('mule', 's', []), steps: [{ ...zeroStep(1), id: 'zero' }] }
  made.steps.push({ ...nextStep(made, [], 'loading'), id: 'loaded' })
  typeReading(made, 'zero', 'frontLeft', 5.5, '')
  typeReading(made, 'loaded', 'frontLeft', shownMm, '')
  return made
}
const loaded = (squat: SquatSession) => readingOf(squat, 'loaded', 'frontLeft')!
/** What is remarked of the loaded reading as it stands. */
const slipped = (squat: SquatSession): Remark =>
  remark('readingSlipped', { shownMm: loaded(squat).shownMm, expectedMm: 2.7, suggestedMm: 2.6 }, aboutReading(loaded(squat)))
/** Documents are never changed in place: a changed one is a new one. */
const changed = (squat: SquatSession, change: (draft: SquatSession) => void): SquatSession => {
  const draft = structuredClone(squat)
  change(draft)
  return draft
}

describe('a doubt', () => {
  it('is tied to its reading and brings what may have been meant', () => {
    const squat = session(26)
    expect(doubtsOf(squat, [slipped(squat)])).toMatchObject([{ readingId: loaded(squat).id, cell: 'loaded frontLeft', suggestedMm: 2.6 }])
    const implausible = remark('readingImplausible', { shownMm: 26, expectedMm: 2.7 }, aboutReading(loaded(squat)))
    expect(doubtsOf(squat, [implausible])[0]?.suggestedMm).toBeNull()
  })

  it('is raised once for a reading, by the gravest remark, and by no remark about a whole step', () => {
    const squat = session(26)
    const curve = remark('suspiciousReading', { offMm: 9, sigma: 5, ramp: 1 }, aboutReading(loaded(squat)))
    expect(doubtsOf(squat, [curve, slipped(squat)]).map((doubt) => doubt.remark.code)).toEqual(['readingSlipped'])
    const step = remark('suspiciousStep', { offMm: 9, sigma: 5, ramp: 1 }, { kind: 'step', stepId: 'loaded' })
    expect(doubtsOf(squat, [step, remark('zeroNotRead', null, { kind: 'corner', corner: 'frontLeft' })])).toEqual([])
  })

  it('ends when the reading is typed again, emptied, put aside or kept', () => {
    const squat = session(26)
    const { id } = readingOf(squat, 'loaded', 'frontLeft')!
    const after = (change: (draft: SquatSession) => void) => doubtsOf(changed(squat, change), [slipped(squat)])
    expect(after((draft) => typeReading(draft, 'loaded', 'frontLeft', 2.6, ''))).toEqual([])
    expect(after((draft) => emptyReading(draft, 'loaded', 'frontLeft'))).toEqual([])
    expect(after((draft) => turnReading(draft, id, NOW, 'in doubt'))).toEqual([])
    expect(after((draft) => keepReading(draft, id, NOW))).toEqual([])
    expect(after(() => undefined)).toHaveLength(1)
  })

  it('comes up again where a kept reading is typed anew', () => {
    const kept = changed(session(26), (draft) => {
      keepReading(draft, draft.readings[1]!.id, NOW)
      typeReading(draft, 'loaded', 'frontLeft', 27, '')
    })
    expect(doubtsOf(kept, [slipped(kept)])).toHaveLength(1)
  })
})

describe('a reading', () => {
  it('put aside keeps its value, and is seen only where none counts', () => {
    const squat = session(26)
    const { id } = readingOf(squat, 'loaded', 'frontLeft')!
    const aside = changed(squat, (draft) => turnReading(draft, id, NOW, 'in doubt'))
    expect(readingOf(aside, 'loaded', 'frontLeft')).toBeUndefined()
    expect(asideAt(aside, 'loaded', 'frontLeft')?.shownMm).toBe(26)
    const again = changed(aside, (draft) => typeReading(draft, 'loaded', 'frontLeft', 2.6, ''))
    expect(asideAt(again, 'loaded', 'frontLeft')).toBeUndefined()
    expect(readingOf(changed(aside, (draft) => turnReading(draft, id, NOW, 'in doubt')), 'loaded', 'frontLeft')?.shownMm).toBe(26)
  })
})

it('shows a load’s mass with the scale’s check in it', () => {
  const scale: Chassis['scales'][number] = {
    id: 'kitchen', name: 'Kitchen scale', resolutionKg: 0.0001, gainU: 0.01,
    checks: [{ id: 'check', at: NOW, name: 'Coins', knownMassKg: { value: 0.2, u: 0.00001 }, shownKg: [0.202, 0.202] }],
  }
  const weighings = [{ id: 'first', at: NOW, scaleId: scale.id, massKg: 0.202, corrections: [], setAside: null }]
  const chassis: Chassis = { ...sampleChassis('mule'), scales: [scale], loads: [{ id: 'bag', name: 'Bag', note: '', weighings }] }
  expect(massOfLoad(chassis, 'bag').kg).toBeCloseTo(0.2, 4)
  expect(massOfLoads(chassis, ['bag', 'bag'])).toBeCloseTo(0.4, 4)
  expect(massOfLoad(sampleChassis('mule'), 'bag')).toEqual({ kg: 0, u: null })
})
