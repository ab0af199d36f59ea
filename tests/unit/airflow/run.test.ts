/** Runs to loads: brackets, control, touching, lift, passes. Expected values by hand. */
import { readSession, type RunResult } from '@core/airflow'
import { known, standardUncertainty, variance } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { blower, chassis, curves, driveBy, pass, session, straightCurve } from './bench'

const only = (runs: Parameters<typeof session>[0], car = chassis(), of = curves()): RunResult =>
  readSession(session(runs), car, of).runs[0]!

const value = (statement: RunResult['totalN']['statement']): number => {
  if (statement.kind !== 'interval') throw new Error(`not plain: ${JSON.stringify(statement)}`)
  return statement.value
}
const codes = ({ remarks }: RunResult) => remarks.map(({ code }) => code)

describe('off / on / off', () => {
  it('takes a zero that moves evenly out of the drop', () => {
    const run = only([blower('a', 15, [
      { air: 'off', heights: [6, 6] }, { air: 'on', heights: [4.9, 5.1] }, { air: 'off', heights: [5.8, 6.2] },
    ])])
    // The zero at the reading is 5.9 and 6.1: drops of 1 mm each.
    expect(value(run.axles.front.netN.statement)).toBeCloseTo(2, 9)
    expect(value(run.axles.rear.netN.statement)).toBeCloseTo(3, 9)
    expect(run.axles.front.driftMm!.value).toBeCloseTo(0.2, 12)
    expect(codes(run)).toContain('zeroDrift')
  })

  it('follows several brackets and averages them', () => {
    const run = only([blower('a', 15, [
      { air: 'off', heights: [6, 6] }, { air: 'on', heights: [5, 5] }, { air: 'off', heights: [6, 6] },
      { air: 'on', heights: [5.02, 5] }, { air: 'off', heights: [6.04, 6] },
    ])])
    expect(run.axles.front.dropMm!.value).toBeCloseTo(1, 9)
  })

  it('says that a bracket is open', () => {
    expect(codes(only([blower('a', 15, [{ air: 'off', heights: [6, 6] }, { air: 'on', heights: [5, 5] }])])))
      .toContain('openBracket')
  })

  it('without a settle routine, only the zero before the first air counts', () => {
    const run = only([blower('a', 15, [
      { air: 'off', heights: [6, 6] }, { air: 'on', heights: [5, 5] }, { air: 'off', heights: [5.6, 6] },
    ], { settle: 'none' })])
    expect(run.axles.front.dropMm!.value).toBeCloseTo(1, 12)
    expect(run.axles.front.branch).toBe('loading')
    expect(codes(run)).toContain('zeroHeldByFriction')
  })

  it('is held by friction only where it stays lower, and by more than chance makes of many', () => {
    const after = (height: number) => codes(only([blower('a', 15, [
      { air: 'off', heights: [6, 6] }, { air: 'on', heights: [5, 5] }, { air: 'off', heights: [height, 6] },
    ], { settle: 'none' })]))
    const { driftMm } = only([blower('a', 15, [
      { air: 'off', heights: [6, 6] }, { air: 'on', heights: [5, 5] }, { air: 'off', heights: [6, 6] },
    ], { settle: 'none' })]).axles.front
    const u = standardUncertainty(driftMm!)
    // Friction holds an axle where the air pressed it, never above where it stood.
    expect(after(6.4)).not.toContain('zeroHeldByFriction')
    // Two standard uncertainties are no news among many runs; four are.
    expect(after(6 - 2.5 * u)).not.toContain('zeroHeldByFriction')
    expect(after(6 - 4 * u)).toContain('zeroHeldByFriction')
  })

  it('the gauge\'s common zero drops out; rounding and repeatability stay', () => {
    const run = only([blower('a', 15, [
      { air: 'off', heights: [6, 6] }, { air: 'on', heights: [5, 5] }, { air: 'off', heights: [6, 6] },
    ])])
    expect(run.axles.front.dropMm!.parts.some(({ source }) => source.group === 'gaugeZero')).toBe(false)
    // Two corners; a reading with air and the mean of two zeros: u^2 = (r^2 + s^2) (1 + 1/2) / 2.
    const one = 0.02 ** 2 + 0.01 ** 2 / 12
    expect(variance(run.axles.front.dropMm!)).toBeCloseTo((one * 1.5) / 2, 12)
  })

  const twice = (id: string, first: number, second: number) => blower(id, 15, [
    { air: 'off', heights: [6, 6] }, { air: 'on', heights: [first, first] }, { air: 'off', heights: [6, 6] },
    { air: 'on', heights: [second, second] }, { air: 'off', heights: [6, 6] },
  ])

  it('one run whose states scatter far more than the others\' is taken by its own scatter, and named', () => {
    const { runs } = readSession(session([
      twice('wild', 5, 4.6), twice('a', 5, 5.01), twice('b', 5.01, 5), twice('c', 5, 4.99),
    ]), chassis(), curves())
    expect(codes(runs[0]!)).toContain('statesScatter')
    expect(standardUncertainty(runs[0]!.axles.front.dropMm!)).toBeGreaterThan(0.15)
    expect(codes(runs[1]!)).not.toContain('statesScatter')
    expect(standardUncertainty(runs[1]!.axles.front.dropMm!)).toBeLessThan(0.02)
  })

  it('where all runs scatter more than their readings say, the session\'s scatter counts in all', () => {
    const { runs } = readSession(session([
      twice('a', 5, 4.9), twice('b', 4.95, 5.04), twice('c', 5.1, 5.02), twice('d', 4.97, 5.08),
    ]), chassis(), curves())
    for (const run of runs) {
      expect(codes(run)).toContain('sessionScatters')
      const drop = run.axles.front.dropMm!
      expect(standardUncertainty(drop)).toBeGreaterThan(0.03)
      expect(drop.parts.some(({ source }) => source.pool === 'scatter:air' && source.dof > 3)).toBe(true)
    }
  })
})

describe('control run', () => {
  const off = { air: 'off', heights: [6, 6] } as const
  const control = blower('control', 15, [off, { air: 'on', heights: [5.8, 5.9] }, off], { control: true })
  const run = blower('run', 15, [off, { air: 'on', heights: [5, 5] }, off])

  it('is taken off, axle by axle', () => {
    const { runs } = readSession(session([control, run]), chassis(), curves())
    const net = runs.find(({ runId }) => runId === 'run')!
    expect(net.controlRunIds).toEqual(['control'])
    expect(value(net.axles.front.netN.statement)).toBeCloseTo(2 - 0.4, 9)
    expect(value(net.axles.rear.netN.statement)).toBeCloseTo(3 - 0.3, 9)
    expect(value(net.totalN.statement)).toBeCloseTo(4.3, 9)
    expect(value(net.grossTotalN.statement)).toBeCloseTo(5, 9)
  })

  it('is scaled by the dynamic pressure where its speed was another, and says so', () => {
    const slower = blower('control', 14, [off, { air: 'on', heights: [5.8, 5.9] }, off], { control: true })
    const net = readSession(session([slower, run]), chassis(), curves()).runs[1]!
    expect(value(net.axles.front.netN.statement)).toBeCloseTo(2 - 0.4 * (15 / 14) ** 2, 9)
    expect(codes(net)).toContain('controlScaled')
  })

  it('cancels what both share: the rate of the spring', () => {
    const rate = {
      value: 2, parts: [{
        source: known('ballast', 'rate'),
        contribution: 0.1,
      }],
    }
    const net = readSession(session([control, run]), chassis(), { ...curves(), front: straightCurve('front', rate) }).runs[1]!
    const claim = net.axles.front.netN.claim
    if (claim.kind !== 'value') throw new Error(claim.kind)
    // The load is rate x (1 - 0.2): the rate's error counts on the difference of the drops only.
    expect(claim.value.parts.find(({ source }) => source.id === 'rate')!.contribution).toBeCloseTo(0.08, 12)
  })

  it('is missed where there is none, and not for its own', () => {
    const { runs } = readSession(session([run]), chassis(), curves())
    expect(codes(runs[0]!)).toContain('noControlRun')
    expect(codes(readSession(session([control]), chassis(), curves()).runs[0]!)).not.toContain('noControlRun')
  })

  it('says with each blower result what a bench\'s air leaves out', () => {
    expect(codes(only([run]))).toContain('benchAirNotRoadAir')
  })
})

describe('the tray on the ground', () => {
  const off = { air: 'off', heights: [6, 6] } as const
  const touched = blower('run', 25, [
    off, { air: 'on', heights: [2, 4], touched: { front: true, rear: false } }, off,
  ])

  it('both axles and the total are bounds, and stay bounds past the control run', () => {
    const control = blower('control', 25, [off, { air: 'on', heights: [5.8, 5.9] }, off], { control: true })
    const inside = { where: 'betweenAxles' as const }
    const car = chassis({ trayEnds: { front: inside, rear: inside } })
    const run = readSession(session([control, touched]), car, curves()).runs[1]!
    for (const { statement } of [run.axles.front.netN, run.axles.rear.netN, run.totalN, run.grossTotalN]) {
      expect(statement.kind).toBe('atLeast')
    }
    expect(codes(run)).toContain('oneEndTouched')
    const { claim } = run.axles.front.netN
    expect(claim.kind === 'atLeast' && claim.low.value).toBeCloseTo(2 * 4 - 0.4, 9)
  })

  it('is found by the drop alone where the builder saw nothing', () => {
    const run = only([blower('run', 25, [off, { air: 'on', heights: [1.99, 5] }, off])])
    expect(run.axles.front.netN.statement).toMatchObject({ kind: 'atLeast', reason: 'touchedGround' })
  })
})

describe('lift', () => {
  it('is not read off a curve that was never lifted', () => {
    const off = { air: 'off', heights: [6, 6] } as const
    const run = only([blower('run', 25, [off, { air: 'on', heights: [6.5, 5] }, off])])
    expect(run.axles.front.netN.statement).toMatchObject({ kind: 'untold', reason: 'rising' })
    expect(run.totalN.statement.kind).toBe('untold')
  })
})

describe('set-up height', () => {
  const off = { air: 'off', heights: [6, 6] } as const

  it('the load is the curve\'s difference from the set-up\'s own drop; touching counts from the squat test\'s zero', () => {
    const lowered = { staticDropMm: { front: 1.5, rear: 0 } }
    const run = only([blower('run', 15, [off, { air: 'on', heights: [5, 5] }, off], lowered)])
    expect(value(run.axles.front.netN.statement)).toBeCloseTo(2, 9)
    expect(run.axles.front.totalDropMm!.value).toBeCloseTo(2.5, 9)
    const deep = only([blower('run', 15, [off, { air: 'on', heights: [3.4, 5] }, off], lowered)])
    expect(deep.axles.front.netN.statement.kind).toBe('atLeast')
  })
})

describe('passes', () => {
  const rest = { air: 'off', heights: [6, 6] } as const

  it('takes the pitch of the acceleration off: m a h / L', () => {
    const shift = (1.5 * 2 * 26) / 260
    const typed = (['out', 'back'] as const).flatMap((direction) => [rest, {
      air: 'on' as const, heights: [6 - (2 - shift) / 2, 6 - (3 + shift) / 3] as const, pass: pass(direction, 10, 2),
    }])
    const run = only([driveBy('run', [...typed, rest])])
    expect(run.axles.front.pitchN!.value).toBeCloseTo(shift, 6)
    expect(value(run.axles.front.netN.statement)).toBeCloseTo(2, 6)
    expect(value(run.axles.rear.netN.statement)).toBeCloseTo(3, 6)
  })

  it('finds a wind along the road from the two ways, and adds its square', () => {
    // 10 m/s both ways in 2 m/s of wind: load as (10 + 2)^2 and (10 - 2)^2.
    const drop = (speed: number) => 0.01 * speed ** 2
    const typed = ([['out', 12], ['back', 8]] as const).flatMap(([direction, air]) => [rest, {
      air: 'on' as const, heights: [6 - drop(air), 6 - drop(air)] as const, pass: pass(direction, 10),
    }])
    const run = only([driveBy('run', [...typed, rest])])
    expect(codes(run)).toContain('windFound')
    expect(run.axles.front.dropMm!.value).toBeCloseTo(0.01 * 104, 9)
    // w from the two ways is V (out - back)/(2 (out + back)), which is w/(1 + w^2/V^2).
    const wind = 10 * (144 - 64) / (2 * (144 + 64))
    expect(run.flow!.meanSquareM2S2.value).toBeCloseTo(100 + wind ** 2, 6)
  })

  it('a single way is said to leave the wind in', () => {
    const run = only([driveBy('run', [rest, { air: 'on', heights: [5, 5], pass: pass('out', 10) }, rest])])
    expect(codes(run)).toEqual(expect.arrayContaining(['oneWay']))
    expect(run.flow!.speedMs.value).toBeCloseTo(10, 9)
  })

  it('adds the growth of the tyre where the ground is the datum, and says where it is not known', () => {
    const grown = chassis({
      tyres: {
        front: { rateNPerMm: null, growthMmPerMs2: { value: 0.002, u: 0.0005 } },
        rear: { rateNPerMm: null, growthMmPerMs2: null },
      },
    })
    const typed = [rest, { air: 'on' as const, heights: [5, 5] as const, pass: pass('out', 10) }, rest]
    const run = only([driveBy('run', typed, { datum: 'groundToChassis' })], grown)
    expect(run.axles.front.dropMm!.value).toBeCloseTo(1.2, 9)
    expect(run.axles.rear.dropMm!.value).toBeCloseTo(1, 9)
    expect(codes(run)).toContain('tyreGrowthUnknown')
  })

  it('takes the tyre\'s squash off where the squat test was read from the hub and the run from the ground', () => {
    const soft = chassis({
      tyres: {
        front: { rateNPerMm: { value: 20, u: 0 }, growthMmPerMs2: { value: 0, u: 0 } },
        rear: { rateNPerMm: { value: 20, u: 0 }, growthMmPerMs2: { value: 0, u: 0 } },
      },
    })
    const typed = [rest, { air: 'on' as const, heights: [5, 5] as const, pass: pass('out', 10) }, rest]
    const { runs } = readSession(session([driveBy('run', typed, { datum: 'groundToChassis' })]), soft, curves(), {
      squatDatum: 'hubToChassis',
    })
    // Spring 2 N/mm and tyre 20 N/mm in series under 1 mm.
    expect(value(runs[0]!.axles.front.netN.statement)).toBeCloseTo(1 / (1 / 2 + 1 / 20), 6)
  })
})

describe('what is missing is said, and nothing else is lost by it', () => {
  it('a run without readings is listed as unread', () => {
    const { unread, runs } = readSession(session([blower('empty', 10, [])]), chassis(), curves())
    expect(runs).toHaveLength(0)
    expect(unread[0]).toMatchObject({ runId: 'empty', remarks: expect.arrayContaining([expect.objectContaining({ code: 'nothingRead' })]) })
  })

  it('an axle without a curve is not told, the other is', () => {
    const off = { air: 'off', heights: [6, 6] } as const
    const run = only([blower('run', 15, [off, { air: 'on', heights: [5, 5] }, off])], chassis(), { ...curves(), rear: null as never })
    expect(run.axles.rear.netN.statement).toMatchObject({ kind: 'untold', reason: 'missing' })
    expect(value(run.axles.front.netN.statement)).toBeCloseTo(2, 9)
  })

  it('without a traverse the load stands and the speed is missed', () => {
    const off = { air: 'off', heights: [6, 6] } as const
    const run = only([blower('run', 15, [off, { air: 'on', heights: [5, 5] }, off], {
      traverse: { anemometerId: 'cups', points: [] },
    })])
    expect(run.flow).toBeNull()
    expect(codes(run)).toContain('noSpeed')
    expect(value(run.totalN.statement)).toBeCloseTo(5, 9)
  })
})
