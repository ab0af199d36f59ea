/** The drops shown while typing are those that the curve is made from. */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { liveDrops, squatData } from '@core/calibration'
import { CORNERS, exchange as exchangeSchema, type Chassis, type SquatSession } from '@core/schema'

const { chassis, sessions } = exchangeSchema.parse(
  JSON.parse(readFileSync(new URL('../../../seeds/demo.json', import.meta.url), 'utf8')),
)
const squat = sessions.find((each): each is SquatSession => each.kind === 'squat')!

function compared(session: SquatSession, car: Chassis = chassis) {
  const data = squatData(session, car)!
  const doubted = new Set(data.implausible.map(({ reading }) => reading.id))
  return data.steps.flatMap(({ step, corners }) => {
    const live = liveDrops(session, car, step.id, doubted)
    const doubtedHere = session.readings.some((each) => each.stepId === step.id && doubted.has(each.id))
    return doubtedHere ? [] : CORNERS.map((corner) => [live[corner]?.value, corners[corner]?.value] as const)
  })
}

const changed = (change: (draft: SquatSession) => void): SquatSession => {
  const draft = structuredClone(squat)
  change(draft)
  return draft
}

describe('live drops', () => {
  it.each<[string, SquatSession]>([
    ['the demo, friction left in: one zero counts', squat],
    ['settled by bouncing: every zero counts', changed((draft) => { draft.setup.settle = 'bounce' })],
    ['settled, and the zero drops from ramp to ramp: it is followed', changed((draft) => {
      draft.setup.settle = 'bounce'
      const ramps = new Map(draft.steps.map(({ id }, index) => [id, index]))
      for (const each of draft.readings) each.shownMm -= 0.02 * (ramps.get(each.stepId) ?? 0)
    })],
    ['two readings in a step', changed((draft) => {
      const first = draft.readings.find((each) => each.stepId === draft.steps[3]!.id)!
      draft.readings.push({ ...first, id: 'again', shownMm: first.shownMm + 0.1 })
    })],
  ])('are the core’s: %s', (_what, session) => {
    const pairs = compared(session)
    expect(pairs.length).toBeGreaterThan(80)
    for (const [live, core] of pairs) expect(live).toBeCloseTo(core!, 12)
  })

  it('take no zero from a reading in doubt, and still show that reading’s own drop', () => {
    const zero = squat.steps.findIndex(({ branch }) => branch === 'zero')
    const session = changed((draft) => {
      draft.setup.settle = 'bounce'
      const later = draft.steps.find(({ branch }, i) => branch === 'zero' && i > zero)!
      const slipped = draft.readings.find((each) => each.stepId === later.id && each.corner === 'frontLeft')!
      slipped.shownMm *= 10
    })
    const data = squatData(session, chassis)!
    const [bad] = data.implausible
    const doubted = new Set([bad!.reading.id])
    const loaded = session.steps[2]!.id
    expect(liveDrops(session, chassis, loaded, doubted).frontLeft!.value)
      .toBeCloseTo(data.steps[2]!.corners.frontLeft!.value, 12)
    expect(liveDrops(session, chassis, bad!.reading.stepId, doubted).frontLeft!.value).toBeLessThan(-40)
    expect(liveDrops(session, chassis, loaded).frontLeft!.value).toBeGreaterThan(5)
  })

  it('are none for a step or gauge that is not there', () => {
    expect(liveDrops(squat, chassis, 'elsewhere')).toEqual({})
    expect(liveDrops(squat, { ...chassis, gauges: [] }, squat.steps[1]!.id)).toEqual({})
  })
})
