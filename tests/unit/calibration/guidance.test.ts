/** Remarks, the verdict, the next load and the theoretical route. */
import {
  axleTheory, calibrate, calibrateAxles, nextLoad, readForce, sessionRemarks, springTheory, squatData, verdict,
  type Calibration, type CurveOf,
} from '@core/calibration'
import type { Remark } from '@core/remark'
import { CORNERS, type Corner, type SquatSession } from '@core/schema'
import { exact, standardUncertainty } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { ladder, type TrueAxle } from '../../../seeds/simulator'
import { car, MADE, scaleOf } from '../chassis/car'
import { remarksWith, remarkWith } from '../remarkWith'
import { BAGS_KG, fineGauge, midwayRungs, squat, type SquatSpec } from './squats'

const FRONT: CurveOf = { kind: 'axle', axle: 'front' }
const codes = (remarks: readonly Remark[]) => remarks.map(({ code }) => code)

function front(spec: SquatSpec): Calibration {
  const { session, chassis } = squat(spec)
  const result = calibrate(session, chassis, FRONT)
  if (result.refused) throw new Error(result.code)
  return result
}

function misread(session: SquatSession, step: number, corner: Corner, byMm: number): SquatSession {
  const draft = structuredClone(session)
  draft.readings.find((each) => each.stepId === draft.steps[step]!.id && each.corner === corner)!.shownMm += byMm
  return draft
}

describe('remarks on readings', () => {
  const { session, chassis } = squat({ noiseMm: 0.005, ramps: 2 })

  it('are silent on a good session', () => {
    const { front: one, rear } = calibrateAxles(session, chassis)
    expect([...one.remarks, ...rear.remarks].filter(({ severity }) => severity !== 'note')).toEqual([])
    expect(codes(sessionRemarks(squatData(session, chassis)!))).toEqual(['scaleUnchecked'])
  })

  it.each(CORNERS)('name the one misread corner, %s, and how far it is off', (corner) => {
    const bad = misread(session, 4, corner, -0.2)
    const axle = corner.startsWith('front') ? 'front' : 'rear'
    const { remarks } = calibrateAxles(bad, chassis)[axle]
    const found = remarkWith(remarks, 'suspiciousReading')
    expect(found).toMatchObject({ about: { kind: 'reading', stepId: session.steps[4]!.id, corner }, severity: 'warning' })
    // A height read too low is a drop too large.
    expect(found.values.offMm).toBeCloseTo(0.2, 1)
    expect(Math.abs(found.values.sigma)).toBeGreaterThan(5)
    expect(sessionRemarks(squatData(bad, chassis)!)).toContainEqual(
      expect.objectContaining({ code: 'twist', about: { kind: 'step', stepId: session.steps[4]!.id } }))
  })

  it('name the step but no corner where both corners moved together', () => {
    const bad = misread(misread(session, 4, 'frontLeft', -0.2), 4, 'frontRight', -0.2)
    const found = remarkWith(calibrateAxles(bad, chassis).front.remarks, 'suspiciousStep')
    expect(found.about).toEqual({ kind: 'step', stepId: session.steps[4]!.id })
  })

  it('tell a flexing chassis from one misread', () => {
    const twisted = structuredClone(session)
    for (const each of twisted.readings) if (each.corner === 'rearLeft' && each.shownMm < 6.3) each.shownMm -= 0.1
    expect(codes(sessionRemarks(squatData(twisted, chassis)!))).toContain('chassisTwists')
  })

  it('see the sides differ', () => {
    const soft = structuredClone(session)
    for (const each of soft.readings) {
      if (each.corner === 'frontLeft') each.shownMm = 6 - (6 - each.shownMm) * 1.2
      if (each.corner === 'rearLeft') each.shownMm = 6.5 - (6.5 - each.shownMm) * 1.2
    }
    const found = remarksWith(sessionRemarks(squatData(soft, chassis)!), 'sidesDiffer')
    expect(found.map(({ values }) => values.axle)).toEqual(['front', 'rear'])
    expect(found[0]!.values.offMm).toBeGreaterThan(0)
  })
})

describe('remarks on loads', () => {
  const rung = (n: number, xMm: number) =>
    BAGS_KG.slice(0, n).map((_, i) => ({ loadId: `bag-${i + 1}`, xMm, yMm: 0, uPlaceMm: 1 }))

  it('see a front load move the rear axle line', () => {
    const steps = ladder([rung(1, 0), rung(3, 0), rung(5, 0)], 1, false)
    const { session, chassis } = squat({ noiseMm: 0.002, steps })
    expect(codes(sessionRemarks(squatData(session, chassis)!))).not.toContain('crossTalk')
    const leaning = structuredClone(session)
    leaning.steps.forEach((step, i) => {
      if (step.placed.length === 0) return
      for (const each of leaning.readings) {
        if (each.stepId === leaning.steps[i]!.id && each.corner.startsWith('rear')) each.shownMm -= 0.1
      }
    })
    const found = remarkWith(sessionRemarks(squatData(leaning, chassis)!), 'crossTalk')
    expect(found.values).toMatchObject({ axle: 'rear' })
    expect(found.values.offMm).toBeCloseTo(0.1, 2)
  })

  it('count too few loads and show the widest gap', () => {
    const few = front({ noiseMm: 0.005, steps: ladder([rung(1, 130), rung(5, 130)], 2, true) })
    expect(codes(few.remarks)).toEqual(expect.arrayContaining(['tooFewLoads', 'loadsBadlySpread']))
    const gap = remarkWith(few.remarks, 'loadsBadlySpread')
    expect(gap.values.toN).toBeGreaterThan(gap.values.fromN)
  })

  it('see the scale dominate, and ask for a check', () => {
    const coarse = front({ noiseMm: 0.002, chassis: { scales: [scaleOf({ gainU: 0.03 })] } })
    expect(codes(coarse.remarks)).toContain('scaleGainDominates')
    const stepped = front({
      noiseMm: 0.002, chassis: { scales: [scaleOf({ gainU: 0.0001, resolutionKg: 0.02 })] },
    })
    expect(codes(stepped.remarks)).toContain('scaleResolutionDominates')
  })

  it('say where gravity is the standard one', () => {
    const { session, chassis } = squat({ chassis: { place: null } })
    expect(codes(sessionRemarks(squatData(session, chassis)!))).toContain('standardGravity')
    expect(front({ chassis: { place: null } }).gravityFrom).toBe('standard')
  })

  it('doubt scale checks that disagree', () => {
    const check = (id: string, shown: number) =>
      ({ id, at: MADE, name: id, knownMassKg: { value: 0.5, u: 0.0001 }, shownKg: [shown] })
    const scales = [scaleOf({ checks: [check('a', 0.5), check('b', 0.47)] })]
    const { session, chassis } = squat({ chassis: { scales } })
    expect(codes(sessionRemarks(squatData(session, chassis)!))).toContain('scaleChecksDisagree')
  })
})

describe('remarks on the fit', () => {
  it('see scatter that the stated repeatability does not explain, and enlarge by it', () => {
    const rough = front({ noiseMm: 0.03, ramps: 3 })
    const found = remarkWith(rough.remarks, 'scatterBeyondStated')
    expect(found.values.factor).toBeGreaterThan(2)
    const noise = rough.sources.filter(({ id }) => /^curve:.*:(repeatability|gaugeReading):\d+$/.test(id))
    expect(noise.some(({ shape, dof }) => shape === 't' && Number.isFinite(dof))).toBe(true)
  })

  it('see a curve that no shape follows, by pure error', () => {
    const { session, chassis } = squat({ noiseMm: 0.004, ramps: 6 })
    const odd = structuredClone(session)
    // Sinks and rises again along the ramp, alike in every ramp.
    const bend = [0, -0.06, 0.06, -0.06, 0.06]
    odd.steps.forEach((step) => {
      if (step.placed.length === 0) return
      for (const each of odd.readings) if (each.stepId === step.id) each.shownMm += bend[step.placed.length - 1]!
    })
    const result = calibrate(odd, chassis, FRONT)
    expect(codes(result.remarks)).toContain('lackOfFit')
  })

  it('ask for the other branch where friction is not told', () => {
    const rest: TrueAxle = { curve: { kind: 'linear', rateNPerMm: 2.5 }, frictionN: 0.2, touchMm: null }
    const steps = ladder(midwayRungs(), 1, false).slice(0, -1)
    const up: SquatSpec = { settle: 'none', noiseMm: 0.005, front: rest, steps }
    expect(codes(front(up).remarks)).toContain('frictionUnknown')
    const withZero: SquatSpec = { settle: 'none', noiseMm: 0.005, front: rest, down: false }
    expect(codes(front(withZero).remarks)).toContain('frictionFromZero')
  })

  it('doubt a touch-down of the profile that the session contradicts', () => {
    const touching: TrueAxle = { curve: { kind: 'linear', rateNPerMm: 2.5 }, frictionN: 0, touchMm: 1.2 }
    const said = (value: number) => codes(front({
      front: touching, noiseMm: 0.005, chassis: { trayTouchMm: { front: { value, u: 0.02 }, rear: null } },
    }).remarks)
    expect(said(1.2)).not.toContain('touchDisagrees')
    expect(said(1.5)).toContain('touchDisagrees')
  })
})

describe('refusals', () => {
  it('say what is missing', () => {
    const { session, chassis } = squat()
    const empty: SquatSession = { ...session, steps: [], readings: [] }
    expect(calibrate(empty, chassis, FRONT)).toMatchObject({ refused: true, code: 'noReadings' })
    const unzeroed = { ...session, readings: session.readings.filter(({ stepId }) => {
      const step = session.steps.find(({ id }) => id === stepId)!
      return step.placed.length > 0
    }) }
    const refusal = calibrate(unzeroed, chassis, FRONT)
    expect(refusal).toMatchObject({ refused: true, code: 'noZero' })
    expect(refusal.remarks.map(({ code }) => code)).not.toContain('noZero')
    const two = { ...session, steps: session.steps.slice(0, 2) }
    expect(calibrate(two, chassis, FRONT)).toMatchObject({ refused: true, code: 'tooFewPoints' })
    const lost = { ...session, setup: { ...session.setup, gaugeId: 'lost' } }
    expect(calibrate(lost, chassis, FRONT)).toMatchObject({ refused: true, code: 'unknownGauge' })
  })
})

describe('the verdict', () => {
  const withWish = (halfWidthN: number) => {
    const { session, chassis } = squat({ noiseMm: 0.005, ramps: 2, wished: { forceN: 2, halfWidthN } })
    const result = calibrate(session, chassis, FRONT)
    if (result.refused) throw new Error(result.code)
    return verdict(result, session, chassis.gauges[0]!)!
  }

  it.each(['none', 'tap'] as const)('reads the wished force back as itself, settle %s', (settle) => {
    const axle = { curve: { kind: 'linear', rateNPerMm: 2.5 } as const, frictionN: 0.5, touchMm: null }
    const { session, chassis } = squat({
      noiseMm: 0.005, settle, front: axle, rear: axle, wished: { forceN: 2, halfWidthN: 1 },
    })
    const result = calibrate(session, chassis, FRONT)
    if (result.refused) throw new Error(result.code)
    const { statement } = verdict(result, session, chassis.gauges[0]!)!
    expect(statement.kind === 'interval' && statement.value).toBeCloseTo(2, 1)
  })

  it('is good enough, or not, against the wished half-width', () => {
    const { halfWidthN } = withWish(1)
    expect(withWish(halfWidthN * 1.01).goodEnough).toBe(true)
    expect(withWish(halfWidthN * 0.99).goodEnough).toBe(false)
  })

  it('tells a wish that no further step can reach, and what stands in the way', () => {
    const { floorHalfWidthN, halfWidthN } = withWish(1)
    expect(floorHalfWidthN).toBeLessThan(halfWidthN)
    expect(withWish(floorHalfWidthN * 0.9)).toMatchObject({ withinReach: false, goodEnough: false })
    expect(withWish(1).limitedBy).not.toBeNull()
  })

  it('is silent beyond the range and without a wish', () => {
    const { session, chassis } = squat({ noiseMm: 0.005, wished: { forceN: 50, halfWidthN: 1 } })
    const result = calibrate(session, chassis, FRONT) as Calibration
    expect(verdict(result, session, chassis.gauges[0]!)).toBeNull()
    expect(verdict(result, { ...session, setup: { ...session.setup, wished: null } }, chassis.gauges[0]!)).toBeNull()
  })
})

describe('the next load', () => {
  const gauges = [{ ...car().gauges[0]!, ...fineGauge, repeatabilityUMm: 0.03 }]
  const { session, chassis, bench } = squat({ noiseMm: 0.03, chassis: { gauges } })

  it('shrinks the interval as foretold, and more than other loads do', () => {
    const results = calibrateAxles(session, chassis)
    const next = nextLoad(results, session, chassis)!
    expect(next.shrink).toBeLessThan(1)
    const after = (loadIds: readonly string[], xMm: number) => {
      // The same reading as the curve foretells, so that only its weight counts.
      const step = {
        ...session.steps[1]!, id: 'next', placed: loadIds.map((loadId) => ({ loadId, xMm, yMm: 0, uPlaceMm: 0 })),
      }
      const forces = bench.forcesOf(step.placed)
      const readings = session.readings.slice(0, 4).map((each) => ({
        ...each, id: `next-${each.corner}`, stepId: 'next',
        shownMm: each.shownMm - (each.corner.startsWith('front') ? forces.front : forces.rear) / 2.5,
      }))
      const longer = { ...session, steps: [...session.steps, step], readings: [...session.readings, ...readings] }
      const { front: one, rear } = calibrateAxles(longer, chassis)
      return Math.sqrt([one, rear].reduce((sum, each) => sum + uAt(each as Calibration) ** 2, 0) / 2)
    }
    const onlyLinear = (curve: Calibration): Calibration => ({
      ...curve,
      candidates: curve.candidates.map((each) => (each.fitted ? { ...each, weight: Number(each.shape === 'linear') } : each)),
    })
    const uAt = (curve: Calibration) =>
      standardUncertainty(readForce(onlyLinear(curve), { dropMm: exact(1), branch: 'mid', touched: false }).forceN!)
    const both = [results.front, results.rear] as Calibration[]
    const now = Math.sqrt(both.reduce((sum, each) => sum + uAt(each) ** 2, 0) / 2)
    const best = after(next.loadIds, next.xMm) / now
    expect(best).toBeLessThan(1)
    expect(best).toBeLessThan(after(['bag-1'], 130) / now)
  })

  it('never proposes a load that would put the tray on the ground', () => {
    const low = squat({ noiseMm: 0.03, chassis: { gauges, trayTouchMm: { front: { value: 1, u: 0.01 }, rear: null } } })
    const next = nextLoad(calibrateAxles(low.session, low.chassis), low.session, low.chassis)!
    expect(next.forceN.front / 2.5).toBeLessThan(1)
  })

  it('has nothing to say without a curve', () => {
    const empty = { ...session, steps: [], readings: [] }
    expect(nextLoad(calibrateAxles(empty, chassis), empty, chassis)).toBeNull()
  })
})

describe('the theoretical route', () => {
  const spring = {
    id: 'spring', name: 'Spring', axle: 'front' as const, fitted: true, wireMm: { value: 1.4, u: 0.01 },
    meanCoilMm: { value: 13.2, u: 0.05 }, activeCoils: { value: 6.5, u: 0.2 },
    shearModulusPa: { value: 79.3e9, u: 1e9 }, rateNPerMm: null, motionRatio: { value: 0.6, u: 0.02 },
  }

  it('propagates by the exponents of the formula: 4 of the wire, 3 of the coil, 1 of turns and modulus', () => {
    const { springRateNPerMm: k } = springTheory(spring)!
    const relative = Math.hypot((4 * 0.01) / 1.4, (3 * 0.05) / 13.2, 0.2 / 6.5, 1 / 79.3)
    expect(standardUncertainty(k) / k.value).toBeCloseTo(relative, 12)
  })

  it('takes the seller\'s rate without dimensions, and nothing without either', () => {
    const bare = { ...spring, wireMm: null, rateNPerMm: { value: 2.6, u: 0.1 } }
    expect(springTheory(bare)).toMatchObject({ route: 'seller', wheelRateNPerMm: { value: 2.6 * 0.36 } })
    expect(springTheory({ ...bare, rateNPerMm: null })).toBeNull()
  })

  it('lists the springs of an axle, the fitted first', () => {
    const springs = [{ ...spring, id: 'spare', fitted: false }, spring, { ...spring, id: 'r', axle: 'rear' as const }]
    const chassis = car({ springs })
    expect(axleTheory(chassis, 'front').map(({ springId }) => springId)).toEqual(['spring', 'spare'])
  })
})
