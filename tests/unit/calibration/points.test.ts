/** From readings to points: zeros, branches and turns, repeatability, what is set aside. */
import {
  calibrate, repeatabilityOf, sessionRemarks, squatData, zeroSteps, type CurveOf,
} from '@core/calibration'
import { CORNERS, type SquatSession } from '@core/schema'
import { covariance, standardUncertainty } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { car, loadOf, MADE } from '../chassis/car'
import { remarksWith } from '../remarkWith'
import { squat, squatPoints } from './squats'

const FRONT: CurveOf = { kind: 'axle', axle: 'front' }
const aside = { at: MADE, why: 'misread' }
const changed = (session: SquatSession, change: (draft: SquatSession) => void): SquatSession => {
  const draft = structuredClone(session)
  change(draft)
  return draft
}

describe('points of a session without errors', () => {
  const { session, chassis } = squat({ front: { curve: { kind: 'linear', rateNPerMm: 2.5 }, frictionN: 0.3, touchMm: null } })

  it('are force over rate, mid-branch, where the car was tapped', () => {
    const points = squatPoints(session, chassis, FRONT)
    expect(points).toHaveLength(9)
    for (const { forceN, dropMm, branch } of points) {
      expect(dropMm.value).toBeCloseTo(forceN.value / 2.5, 2)
      expect(branch).toBe('mid')
    }
  })

  it('share the zero: two drops are correlated by its variance', () => {
    const [one, other] = squatPoints(session, chassis, FRONT)
    const zero = one!.dropMm.parts.filter(({ source }) => source.id.startsWith('zero:squat:'))
    expect(zero.length).toBeGreaterThan(0)
    const square = zero.reduce((sum, { contribution }) => sum + contribution ** 2, 0)
    const scale = one!.dropMm.value * other!.dropMm.value * 0.002 ** 2
    expect(covariance(one!.dropMm, other!.dropMm)).toBeCloseTo(square + scale, 12)
  })

  it('lose the gauge zero, and carry the gauge scale by the drop alone', () => {
    const { dropMm } = squatPoints(session, chassis, FRONT)[3]!
    expect(dropMm.parts.some(({ source }) => source.group === 'gaugeZero')).toBe(false)
    const scale = dropMm.parts.find(({ source }) => source.id === 'gauge:gauge:scale')!
    expect(scale.contribution).toBeCloseTo(dropMm.value * 0.002, 6)
  })

  it('keep a load that stays where it lies at one placement, and give it a new one when laid anew', () => {
    const two = squat({ ramps: 2 })
    const points = squatPoints(two.session, two.chassis, FRONT)
    const placements = new Set(points.flatMap(({ forceN }) => forceN.parts.map(({ source }) => source.id))
      .values())
    expect([...placements].filter((id) => id.startsWith('place:'))).toEqual([])
    const placed = changed(two.session, (draft) => draft.steps.forEach((step) =>
      step.placed.forEach((each) => { each.uPlaceMm = 1 })))
    const ids = new Set(squatPoints(placed, two.chassis, FRONT).flatMap(({ forceN }) =>
      forceN.parts.map(({ source }) => source.id)).filter((id) => id.startsWith('place:squat:bag-1:')))
    expect([...ids]).toEqual(['place:squat:bag-1:1:x', 'place:squat:bag-1:2:x'])
  })
})

describe('friction in play', () => {
  const { session, chassis } = squat({
    settle: 'none', ramps: 2, front: { curve: { kind: 'linear', rateNPerMm: 2.5 }, frictionN: 0.4, touchMm: null },
  })
  const points = squatPoints(session, chassis, FRONT)

  it('starts from rest, turns at the top, and starts the second ramp from the bottom', () => {
    const top = Math.max(...points.map(({ forceN }) => forceN.value))
    const of = (ramp: number, branch: string) => points.filter((each) => each.ramp === ramp && each.branch === branch)
    expect(of(1, 'loading').every(({ turnN }) => turnN === null)).toBe(true)
    expect(of(1, 'unloading').every(({ turnN }) => turnN === top)).toBe(true)
    expect(of(2, 'loading').every(({ turnN }) => turnN === 0)).toBe(true)
  })

  it('takes only the zero before the first load as zero; the others are held off it and are points', () => {
    expect(zeroSteps(session)).toEqual([0])
    const held = points.filter(({ forceN }) => forceN.value === 0)
    expect(held).toHaveLength(2)
    for (const each of held) {
      expect(each.branch).toBe('unloading')
      expect(each.dropMm.value).toBeCloseTo(0.4 / 2.5, 2)
    }
  })

  it('is found again from the two branches', () => {
    const calibration = calibrate(session, chassis, FRONT)
    if (calibration.refused) throw new Error(calibration.code)
    const linear = calibration.candidates.find(({ shape }) => shape === 'linear')!
    if (!linear.fitted) throw new Error(linear.code)
    expect(linear.frictionFrom).toBe('branches')
    expect(linear.frictionN.value).toBeCloseTo(0.4, 2)
    expect(linear.parameters[0]!.estimate.value).toBeCloseTo(2.5, 2)
  })
})

describe('zeros', () => {
  it('are averaged where they agree', () => {
    const { session, chassis } = squat({ ramps: 3, noiseMm: 0.005 })
    const { zeros } = squatData(session, chassis)!
    expect(zeros.frontLeft).toMatchObject({ followed: false, count: 4 })
    expect(zeros.frontLeft!.at(1)).toBe(zeros.frontLeft!.at(9))
  })

  it('are followed where they clearly wander, with a remark at each corner', () => {
    const { session, chassis } = squat({ ramps: 3, driftMmPerStep: 0.01 })
    const data = squatData(session, chassis)!
    expect(data.zeros.frontLeft!.followed).toBe(true)
    expect(remarksWith(sessionRemarks(data), 'zeroFollowed').map(({ about }) => about))
      .toEqual(CORNERS.map((corner) => ({ kind: 'corner', corner })))
    for (const { forceN, dropMm } of squatPoints(session, chassis, FRONT)) {
      expect(Math.abs(dropMm.value - forceN.value / 2.5)).toBeLessThan(0.004)
    }
  })

  it('are missed by name where a corner has none', () => {
    const { session, chassis } = squat()
    const zero = new Set(zeroSteps(session).map((i) => session.steps[i]!.id))
    const bad = changed(session, (draft) => {
      draft.readings = draft.readings.filter((each) => !(zero.has(each.stepId) && each.corner === 'rearLeft'))
    })
    expect(sessionRemarks(squatData(bad, chassis)!)).toContainEqual(
      expect.objectContaining({ code: 'zeroNotRead', severity: 'stop', about: { kind: 'corner', corner: 'rearLeft' } }))
    // Three corners still tell both axle lines.
    expect(calibrate(bad, chassis, { kind: 'axle', axle: 'rear' }).refused).toBe(false)
    expect(calibrate(bad, chassis, { kind: 'corner', corner: 'rearLeft' })).toMatchObject({ refused: true })
  })

  it('may be left out with a gauge that reads drops, and its own zero then counts', () => {
    const base = car().gauges[0]!
    const { session, chassis } = squat({ chassis: { gauges: [{ ...base, reads: 'drop', zeroUMm: 0.03 }] } })
    const unzeroed = changed(session, (draft) => {
      const zero = new Set(zeroSteps(draft).map((i) => draft.steps[i]!.id))
      draft.readings = draft.readings.filter(({ stepId }) => !zero.has(stepId))
    })
    const point = squatPoints(unzeroed, chassis, FRONT)[2]!
    const part = point.dropMm.parts.find(({ source }) => source.group === 'gaugeZero')!
    expect(part.contribution).toBeCloseTo(0.03, 12)
  })
})

describe('repeatability', () => {
  const unknown = [{ ...car().gauges[0]!, resolutionMm: 0.01, repeatabilityUMm: null }]

  it('is learned from later ramps, with degrees of freedom', () => {
    const { session, chassis } = squat({ ramps: 4, noiseMm: 0.05, chassis: { gauges: unknown } })
    const learned = repeatabilityOf(session, chassis.gauges[0]!)
    expect(learned.from).toBe('steps')
    // 4 ramps x 9 steps x 4 corners at 5 loads: 36 + 35 repeats a corner less one mean for each load.
    expect(learned.dof).toBe(4 * (4 * 9 - 5))
    expect(learned.uMm).toBeGreaterThan(0.04)
    expect(learned.uMm).toBeLessThan(0.06)
  })

  it('is learned from repeated readings where there is one ramp', () => {
    const { session, chassis } = squat({
      settle: 'none', noiseMm: 0.05, readingsPerStep: 3, down: false, chassis: { gauges: unknown },
    })
    expect(repeatabilityOf(session, chassis.gauges[0]!)).toMatchObject({ from: 'readings', dof: 2 * 7 * 4 })
  })

  it('is taken from the scatter about the curve where nothing repeats', () => {
    const { session, chassis } = squat({ settle: 'none', noiseMm: 0.05, down: false, chassis: { gauges: unknown } })
    const calibration = calibrate(session, chassis, FRONT)
    if (calibration.refused) throw new Error(calibration.code)
    expect(calibration.repeatability.from).toBe('scatter')
    expect(calibration.repeatability.dof).toBeGreaterThan(0)
    expect(calibration.remarks.map(({ code }) => code)).toContain('repeatabilityFromScatter')
    const noise = calibration.sources.filter(({ group }) => group === 'repeatability')
    expect(noise.length).toBeGreaterThan(0)
    expect(noise.every(({ shape, dof }) => shape === 't' && Number.isFinite(dof))).toBe(true)
  })

  it('as given averages down over readings in a step', () => {
    const one = squat({ readingsPerStep: 1 })
    const four = squat({ readingsPerStep: 4 })
    const own = ({ session, chassis }: typeof one) => Math.sqrt(squatPoints(session, chassis, FRONT)[0]!.dropMm.parts
      .filter(({ source }) => source.id.startsWith('reading:')).reduce((sum, each) => sum + each.contribution ** 2, 0))
    expect(own(one) / own(four)).toBeCloseTo(2, 6)
  })
})

describe('what is set aside', () => {
  const { session, chassis } = squat({ noiseMm: 0.005 })

  it('stays in the list when it is a step, not used', () => {
    const less = changed(session, (draft) => { draft.steps[2]!.setAside = aside })
    const points = squatPoints(less, chassis, FRONT)
    expect(points.filter(({ used }) => !used).map(({ stepId }) => stepId)).toEqual([session.steps[2]!.id])
  })

  it('leaves the other readings of a step when it is one reading', () => {
    const doubled = squat({ readingsPerStep: 2, noiseMm: 0.005 })
    const id = doubled.session.steps[3]!.id
    const less = changed(doubled.session, (draft) => {
      const bad = draft.readings.find((each) => each.stepId === id && each.corner === 'frontLeft')!
      bad.shownMm += 3
      bad.setAside = aside
    })
    const before = squatPoints(doubled.session, doubled.chassis, FRONT)[2]!
    const after = squatPoints(less, doubled.chassis, FRONT)[2]!
    expect(after.dropMm.value).toBeCloseTo(before.dropMm.value, 1)
    expect(standardUncertainty(after.dropMm)).toBeGreaterThan(standardUncertainty(before.dropMm))
  })
})

describe('loads without a mass', () => {
  it('drop their steps and are named', () => {
    const { session, chassis } = squat()
    const bare = { ...chassis, loads: chassis.loads.map((each) => (each.id === 'bag-5' ? loadOf('bag-5', []) : each)) }
    const data = squatData(session, bare)!
    expect(sessionRemarks(data)).toContainEqual(expect.objectContaining({
      code: 'loadWithoutMass', severity: 'stop', values: { load: 'bag-5' },
    }))
    expect(squatPoints(session, bare, FRONT)).toHaveLength(8)
  })
})
