/** Slips of the pen are found before the fit; readings of faultless sessions are left alone. */
import { calibrateAxles, implausibleReadings, sessionRemarks, squatData, zeroSteps } from '@core/calibration'
import { exchange as exchangeDocument, type Chassis, type SquatSession } from '@core/schema'
import { standardUncertainty } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { makeDemo } from '../../../seeds/demo'
import { makeProject } from '../../studies/projects/world'
import { studySession, WORLDS } from '../../studies/simulated/worlds'
import { squat } from './squats'

const { session, chassis } = squat({ noiseMm: 0.01, settle: 'none' })
const gauge = chassis.gauges[0]!
const at = (step: number, corner = 'frontLeft') =>
  session.readings.findIndex((each) => each.stepId === session.steps[step]!.id && each.corner === corner)

function typed(index: number, change: (shownMm: number) => number, of: SquatSession = session): SquatSession {
  const readings = of.readings.map((each, i) => (i === index ? { ...each, shownMm: change(each.shownMm) } : each))
  return { ...of, readings }
}
const found = (of: SquatSession, car: Chassis = chassis) => implausibleReadings(of, car, gauge)

describe('a slip', () => {
  it.each([
    ['a point left out', 10], ['a point too far right by two', 100], ['a point too far left', 0.1], ['a sign', -1],
  ])('%s is found in its cell, with what was meant', (_, factor) => {
    const index = at(3)
    const right = session.readings[index]!.shownMm
    const [one, ...others] = found(typed(index, (shown) => shown * factor))
    expect(others).toEqual([])
    expect(one).toMatchObject({ reading: { id: session.readings[index]!.id, corner: 'frontLeft', stepId: session.steps[3]!.id } })
    expect(one!.suggestedMm).toBeCloseTo(right, 2)
    expect(Math.abs(one!.expectedMm - right)).toBeLessThan(1)
  })

  it('does not take the curve away, and is said with its cell', () => {
    const bad = typed(at(3), (shown) => shown * 10)
    const whole = calibrateAxles(session, chassis).front
    const curve = calibrateAxles(bad, chassis).front
    if (curve.refused || whole.refused) throw new Error('no curve')
    const rate = (of: typeof curve) => {
      const linear = of.candidates.find(({ shape }) => shape === 'linear')!
      return linear.fitted ? linear.parameters[0]!.estimate : null
    }
    expect(Math.abs(rate(curve)!.value - rate(whole)!.value)).toBeLessThan(3 * standardUncertainty(rate(whole)!))
    expect(sessionRemarks(squatData(bad, chassis)!)).toContainEqual(expect.objectContaining({
      code: 'readingSlipped', severity: 'stop', about: {
        kind: 'reading', readingId: session.readings[at(3)]!.id, corrections: 0, corner: 'frontLeft', stepId: session.steps[3]!.id,
      },
    }))
  })

  it('in the only zero is told from slips in every reading after it', () => {
    const zero = at(zeroSteps(session)[0]!)
    const slipped = found(typed(zero, (shown) => shown * 10))
    expect(slipped.map(({ reading }) => reading.id)).toContain(session.readings[zero]!.id)
    expect(slipped[0]!.suggestedMm).toBeCloseTo(session.readings[zero]!.shownMm, 2)
  })

  it('is found in the first loaded step already', () => {
    const started: SquatSession = {
      ...session, steps: session.steps.slice(0, 2),
      readings: session.readings.filter(({ stepId }) => session.steps.slice(0, 2).some(({ id }) => id === stepId)),
    }
    expect(found(typed(at(1), (shown) => shown * 10, started))).toHaveLength(1)
  })

  it('in the very first loaded height is asked back as a height, never as one below nothing', () => {
    const zeros = new Set(zeroSteps(session).map((index) => session.steps[index]!.id))
    const first = session.readings[at(3)]!
    const shown = Number(first.shownMm.toFixed(1))
    const alone: SquatSession = {
      ...session,
      readings: [...session.readings.filter(({ stepId }) => zeros.has(stepId)), { ...first, shownMm: shown * 10 }],
    }
    const [one] = found(alone)
    expect(one!.suggestedMm).toBeCloseTo(shown, 9)
    expect(one!.expectedMm).toBeGreaterThanOrEqual(0)
    const right = { ...alone, readings: alone.readings.map((each) => (each.id === first.id ? first : each)) }
    expect(found(right)).toEqual([])
  })

  it('of a sign is asked back where the gauge shows drops', () => {
    const drops = { ...gauge, reads: 'drop' as const }
    const zero = session.readings[at(zeroSteps(session)[0]!)]!.shownMm
    const asDrops: SquatSession = {
      ...session, readings: session.readings.map((each) => ({ ...each, shownMm: zero - each.shownMm })),
    }
    const index = at(5)
    const right = asDrops.readings[index]!.shownMm
    const [one] = implausibleReadings(typed(index, (shown) => -shown, asDrops), chassis, drops)
    expect(one!.suggestedMm).toBeCloseTo(right, 2)
  })

  it('is none where readings past the tray’s room fit their loads: the tray was off, which is asked once', () => {
    const low: Chassis = { ...chassis, trayTouchMm: { front: { value: 0.3, u: 0.05 }, rear: { value: 0.3, u: 0.05 } } }
    expect(found(session, low)).toEqual([])
    const remarks = sessionRemarks(squatData(session, low)!).filter(({ code }) => code === 'deeperThanTray')
    expect(remarks).toHaveLength(2)
    expect(sessionRemarks(squatData(session, chassis)!).some(({ code }) => code === 'deeperThanTray')).toBe(false)
    const off = typed(at(3), (shown) => shown - 6)
    expect(found(off, low)).toHaveLength(1)
  })

  it('beyond the tray’s clearance is one, and has no suggestion where no moved point fits', () => {
    const low: Chassis = { ...chassis, trayTouchMm: { front: { value: 2, u: 0.1 }, rear: null } }
    const index = at(2)
    const [one] = found(typed(index, (shown) => shown - 4.5), low)
    expect(one).toMatchObject({ reading: { id: session.readings[index]!.id }, suggestedMm: null })
  })

  it('that somebody kept is believed', () => {
    const bad = typed(at(3), (shown) => shown * 10)
    const kept: SquatSession = { ...bad, readings: bad.readings.map((each, i) => (i === at(3) ? { ...each, keptAt: '2026-05-02T10:00:00Z' } : each)) }
    expect(found(kept)).toEqual([])
  })
})

describe('faultless sessions', () => {
  it('keep every reading: bump stops, thresholds, friction, loads aside, and the demo', () => {
    let readings = 0
    const judge = (of: SquatSession, car: Chassis) => {
      readings += of.readings.length
      return implausibleReadings(of, car, car.gauges.find(({ id }) => id === of.setup.gaugeId)!)
    }
    for (const world of WORLDS) {
      for (let seed = 1; seed <= 20; seed++) {
        const { session: one, chassis: car } = studySession(world, seed)
        expect(judge(one, car)).toEqual([])
      }
    }
    for (let seed = 1; seed <= 30; seed++) {
      const { squat: one, chassis: car } = makeProject(seed, seed % 2 === 0)
      expect(judge(one, car)).toEqual([])
    }
    for (let seed = 1; seed <= 5; seed++) {
      const { exchange } = makeDemo(seed)
      exchangeDocument.parse(exchange)
      for (const one of exchange.sessions) if (one.kind === 'squat') expect(judge(one, exchange.chassis)).toEqual([])
    }
    const aside = squat({
      noiseMm: 0.01, settle: 'none',
      steps: [
        { branch: 'zero', ramp: 0, placed: [] },
        { branch: 'loading', ramp: 1, placed: [{ loadId: 'bag-5', xMm: 0, yMm: 70, uPlaceMm: 1 }] },
        { branch: 'loading', ramp: 1, placed: [{ loadId: 'bag-5', xMm: 257, yMm: -70, uPlaceMm: 1 }] },
      ],
    })
    expect(judge(aside.session, aside.chassis)).toEqual([])
    expect(readings).toBeGreaterThan(5000)
  })
})
