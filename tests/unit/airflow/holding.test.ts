/**
 * How a blown car is held, by statics alone: a weight over a pulley pulls the car back at a known height,
 * as drag would, and what the app says of the axles must be that weight's moment about the ground, however
 * the car is kept from rolling off. The wheel loads are solved here from three balances of the whole car.
 */
import { describe, expect, it } from 'vitest'
import { readSession } from '@core/airflow'
import type { BlowerRun } from '@core/schema'
import { covariance, standardUncertainty } from '@core/uncertainty'
import { blower, chassis, curves, session, WHEELBASE_MM } from './bench'

const STANDS_MM = 20
const RATES = { front: 2, rear: 3 }
/** Weight over the pulley, N, pulling back this high, mm; and what presses on the axles besides, N. */
const WEIGHT_N = 1.5
const PULLEY_MM = 60
const PRESSED = { front: 4, rear: 5 }

interface Hook { readonly xMm: number; readonly heightMm: number; readonly fallDeg: number }

/** Loads on the axles, N, of a car pulled back by the weight and held by a line (or at the ground). */
function wheelLoads(hook: Hook | null) {
  if (!hook) {
    const moved = (WEIGHT_N * PULLEY_MM) / WHEELBASE_MM
    return { loads: { front: PRESSED.front - moved, rear: PRESSED.rear + moved }, pullN: 0 }
  }
  // Forwards: pull cos = weight. Moments about the rear contact, nose down positive, give the front load.
  const angle = (hook.fallDeg * Math.PI) / 180
  const pullN = WEIGHT_N / Math.cos(angle)
  const downN = pullN * Math.sin(angle)
  const front = PRESSED.front
    + (WEIGHT_N * hook.heightMm - WEIGHT_N * PULLEY_MM + downN * (WHEELBASE_MM - hook.xMm)) / WHEELBASE_MM
  return { loads: { front, rear: PRESSED.front + PRESSED.rear + downN - front }, pullN }
}

function readHeld(loads: { front: number; rear: number }, held: BlowerRun['held'], change: Partial<BlowerRun> = {}) {
  const heights = [STANDS_MM - loads.front / RATES.front, STANDS_MM - loads.rear / RATES.rear] as const
  const off = { air: 'off', heights: [STANDS_MM, STANDS_MM] } as const
  const run = blower('run', 20, [off, { air: 'on', heights }, off], change)
  if (held) run.held = held
  else delete run.held
  return readSession(session([run]), chassis(), curves()).runs[0]!
}

const lineOf = ({ xMm, heightMm, fallDeg }: Hook, pullN: number | null): BlowerRun['held'] => ({
  how: 'line', hookXMm: { value: xMm, u: 2 }, hookHeightMm: { value: heightMm, u: 1 }, fallDeg: { value: fallDeg, u: 1 },
  pullN: pullN === null ? null : { value: pullN, u: 0.05 },
})
const codes = (run: { remarks: readonly { code: string }[] }) => run.remarks.map(({ code }) => code)
const net = (run: ReturnType<typeof readHeld>, axle: 'front' | 'rear') => {
  const { claim } = run.axles[axle].netN
  if (claim.kind !== 'value') throw new Error(`${axle} is ${claim.kind}`)
  return claim.value
}

const MOVED = (WEIGHT_N * PULLEY_MM) / WHEELBASE_MM

describe('a weight over a pulley at a known height', () => {
  it.each<[string, Hook]>([
    ['a level line at the same height, which hides it wholly', { xMm: -30, heightMm: PULLEY_MM, fallDeg: 0 }],
    ['a level line low down', { xMm: -30, heightMm: 25, fallDeg: 0 }],
    ['a line that falls to its anchor', { xMm: -30, heightMm: 35, fallDeg: 12 }],
    ['a line that rises to its anchor, hooked in the middle', { xMm: 130, heightMm: 40, fallDeg: -8 }],
  ])('reads as weight x height over wheelbase: %s', (_what, hook) => {
    const { loads, pullN } = wheelLoads(hook)
    const run = readHeld(loads, lineOf(hook, pullN))
    expect(net(run, 'front').value).toBeCloseTo(PRESSED.front - MOVED, 9)
    expect(net(run, 'rear').value).toBeCloseTo(PRESSED.rear + MOVED, 9)
    const total = run.totalN.claim
    expect(total.kind === 'value' && total.value.value).toBeCloseTo(PRESSED.front + PRESSED.rear, 9)
    expect(codes(run)).toContain('lineTakenOff')
  })

  it('reads as weight x height over wheelbase with locked wheels stopped at the ground, nothing taken off', () => {
    const run = readHeld(wheelLoads(null).loads, { how: 'wheelsLocked' })
    expect(net(run, 'front').value).toBeCloseTo(PRESSED.front - MOVED, 9)
    expect(net(run, 'rear').value).toBeCloseTo(PRESSED.rear + MOVED, 9)
    expect(run.axles.front.holdingN).toMatchObject({ value: 0, parts: [] })
  })
})

describe('what the line\'s own figures leave open', () => {
  const hook = { xMm: -30, heightMm: 35, fallDeg: 12 }

  it('is the derivative by each of them, found by turning each a little', () => {
    const { loads, pullN } = wheelLoads(hook)
    const at = (held: Hook, pull: number) => net(readHeld(loads, lineOf(held, pull)), 'front').value
    const turned = [
      [0.05, at(hook, pullN + 1e-4)], [2, at({ ...hook, xMm: hook.xMm + 1e-4 }, pullN)],
      [1, at({ ...hook, heightMm: hook.heightMm + 1e-4 }, pullN)],
      [1, at({ ...hook, fallDeg: hook.fallDeg + 1e-4 }, pullN)],
    ] as const
    const base = at(hook, pullN)
    const u = Math.hypot(...turned.map(([size, value]) => (size * (value - base)) / 1e-4))
    expect(standardUncertainty(readHeld(loads, lineOf(hook, pullN)).axles.front.holdingN!)).toBeCloseTo(u, 6)
  })
})

describe('what is not told of the holding', () => {
  const { loads, pullN } = wheelLoads({ xMm: -30, heightMm: 35, fallDeg: 0 })
  const locked = readHeld(loads, { how: 'wheelsLocked' })

  it('is a part of the budget: drag up to half the track squared, the hook up to 0.3 of the track', () => {
    const run = readHeld(loads, undefined)
    expect(codes(run)).toContain('holdingUnknown')
    const q = run.flow!.dynamicPressurePa.value
    const bodyN = 0.5 * 0.16 ** 2 * q
    // Uniform times uniform has mean square (1/3)(1/3); the device adds up to a third of the body's drag.
    const moment = (bodyN * 48) / WHEELBASE_MM / 3
    const own = Math.hypot(moment, moment / 3)
    const held = run.axles.rear.holdingN!
    expect(standardUncertainty(held)).toBeCloseTo(own, 9)
    const free = standardUncertainty(net(locked, 'rear'))
    expect(standardUncertainty(net(run, 'rear'))).toBeCloseTo(Math.hypot(free, own), 9)
    const { budget } = run.axles.rear.netN.statement as { budget: readonly { group: string; u: number }[] }
    expect(budget.find(({ group }) => group === 'holding')!.u).toBeCloseTo(own, 9)
  })

  it('holds the truth: a line at 35 mm with a pull of 1.5 N reads within its part of the road\'s load', () => {
    const held = standardUncertainty(readHeld(loads, undefined).axles.front.holdingN!)
    expect(pullN * 35 / WHEELBASE_MM).toBeLessThan(2 * held)
  })

  it('is taken off with the control run but for the device\'s own drag', () => {
    const off = { air: 'off', heights: [STANDS_MM, STANDS_MM] } as const
    const runs = [
      blower('control', 20, [off, { air: 'on', heights: [19.8, 19.8] }, off], { control: true }),
      blower('run', 20, [off, { air: 'on', heights: [18, 18] }, off]),
    ]
    for (const run of runs) delete run.held
    const [, run] = readSession(session(runs), chassis(), curves()).runs
    const groups = (run!.axles.rear.netN.statement as { budget: readonly { group: string; u: number }[] }).budget
    const bodyMomentN = (0.5 * 0.16 ** 2 * run!.flow!.dynamicPressurePa.value * 48) / WHEELBASE_MM / 3
    expect(groups.find(({ group }) => group === 'holding')!.u).toBeCloseTo(bodyMomentN / 3, 9)
  })

  it('with the height of the line told leaves the drag open only, and moves both axles opposite ways', () => {
    const run = readHeld(loads, lineOf({ xMm: -30, heightMm: 35, fallDeg: 0 }, null))
    expect(codes(run)).toContain('linePullUnknown')
    const { front, rear } = run.axles
    const u = standardUncertainty(front.holdingN!)
    expect(covariance(front.holdingN!, rear.holdingN!)).toBeCloseTo(-(u ** 2), 12)
    const mostN = 0.5 * 0.16 ** 2 * run.flow!.dynamicPressurePa.value
    expect(u).toBeCloseTo((Math.hypot(mostN, mostN / 3) / Math.sqrt(3)) * (35 / WHEELBASE_MM), 9)
  })

  it('with wheels that turn is a level line at hub height', () => {
    const hubs = readHeld(loads, { how: 'wheelsFree', hubHeightMm: { value: 32, u: 1 } })
    const line = readHeld(loads, lineOf({ xMm: 0, heightMm: 32, fallDeg: 0 }, null))
    expect(hubs.axles.front.holdingN).toEqual(line.axles.front.holdingN)
    expect(codes(hubs)).toContain('heldByHubs')
  })

  it.each<BlowerRun['held']>([
    { how: 'line', hookXMm: null, hookHeightMm: null, fallDeg: null, pullN: { value: 1, u: 0 } },
    { how: 'wheelsFree', hubHeightMm: null },
  ])('is as wide where only the way of it is told (%#)', (held) => {
    expect(readHeld(loads, held).axles.front.holdingN).toEqual(readHeld(loads, undefined).axles.front.holdingN)
  })

  it('takes a line of unknown slope as level within 3 degrees', () => {
    const run = readHeld(loads, {
      how: 'line', hookXMm: { value: 0, u: 0 }, hookHeightMm: { value: 35, u: 0 }, fallDeg: null,
      pullN: { value: 1.5, u: 0 },
    })
    // Downwards at the front axle line: 1.5 N times sin 3 degrees to first order.
    expect(standardUncertainty(run.axles.front.holdingN!)).toBeCloseTo((1.5 * 3 * Math.PI) / 180, 9)
    expect(run.axles.front.holdingN!.value).toBeCloseTo((1.5 * 35) / WHEELBASE_MM, 9)
  })

  it('is said not to be counted where the speed is not known', () => {
    const run = readHeld(loads, undefined, { traverse: { anemometerId: 'cups', points: [] } })
    expect(codes(run)).toContain('holdingNotCounted')
  })
})
