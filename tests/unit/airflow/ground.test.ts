/**
 * A tray that stands on the ground, against a beam on two springs and a stop worked out here from
 * the balance of forces and moments alone.
 */
import { describe, expect, it } from 'vitest'
import { readSession } from '@core/airflow'
import type { Axle, Chassis } from '@core/schema'
import type { Statement } from '@core/uncertainty'
import { blower, chassis, curves, session, straightCurve, WHEELBASE_MM } from './bench'

const RATES = { front: 2, rear: 3 }
const STANDS_MM = 20

/** Drops of the axle lines under true loads, N, with a stop at `xMm` that gives way to `roomMm`, no more. */
function beam(loads: Record<Axle, number>, xMm: number, roomMm: number) {
  const free = { front: loads.front / RATES.front, rear: loads.rear / RATES.rear }
  const share = xMm / WHEELBASE_MM
  const at = free.front * (1 - share) + free.rear * share
  // Reaction R lowers the drop at the stop by R ((1 - s)^2 / k_f + s^2 / k_r).
  const reactionN = (at - roomMm) / ((1 - share) ** 2 / RATES.front + share ** 2 / RATES.rear)
  if (!(reactionN > 0)) throw new Error('this load does not reach the stop')
  return {
    reactionN,
    drops: {
      front: free.front - (reactionN * (1 - share)) / RATES.front, rear: free.rear - (reactionN * share) / RATES.rear,
    },
  }
}

const runOn = (drops: Record<Axle, number>, touched: Record<Axle, boolean>) => blower('run', 25, [
  { air: 'off', heights: [STANDS_MM, STANDS_MM] },
  { air: 'on', heights: [STANDS_MM - drops.front, STANDS_MM - drops.rear], touched },
  { air: 'off', heights: [STANDS_MM, STANDS_MM] },
])

const FAR = { touchMm: null }
const open = { front: straightCurve('front', RATES.front, FAR), rear: straightCurve('rear', RATES.rear, FAR) }
const readOn = (drops: Record<Axle, number>, touched: Record<Axle, boolean>, trayEnds?: Chassis['trayEnds']) =>
  readSession(session([runOn(drops, touched)]), chassis(trayEnds ? { trayEnds } : {}), open).runs[0]!

const holds = (statement: Statement, truth: number): boolean => {
  if (statement.kind === 'atLeast') return truth >= statement.bound
  if (statement.kind === 'atMost') return truth <= statement.bound
  return statement.kind === 'untold'
}

const REAR = { front: false, rear: true }
const LOADS = { front: 6.3, rear: 14 }

describe('a tray that touches behind the rear axle', () => {
  const overhangMm = 60
  const { drops, reactionN } = beam(LOADS, WHEELBASE_MM + overhangMm, 3)
  const springs = { front: RATES.front * drops.front, rear: RATES.rear * drops.rear }

  it('presses the front axle by the reaction times its overhang over the wheelbase', () => {
    expect(springs.front - LOADS.front).toBeCloseTo((reactionN * overhangMm) / WHEELBASE_MM, 9)
    expect(springs.front + springs.rear).toBeCloseTo(LOADS.front + LOADS.rear - reactionN, 9)
  })

  it('bounds the front from above once that is told, the rear and the sum from below, and all hold', () => {
    const run = readOn(drops, REAR, { front: null, rear: { where: 'beyondAxle', beyondMm: { value: overhangMm, u: 3 } } })
    const { front, rear } = run.axles
    expect(front.netN.statement).toMatchObject({ kind: 'atMost', reason: 'touchedGround' })
    expect(rear.netN.statement.kind).toBe('atLeast')
    expect(run.totalN.statement.kind).toBe('atLeast')
    expect(holds(front.netN.statement, LOADS.front)).toBe(true)
    expect(holds(rear.netN.statement, LOADS.rear)).toBe(true)
    expect(holds(run.totalN.statement, LOADS.front + LOADS.rear)).toBe(true)
    expect(run.remarks.find(({ code }) => code === 'farAxlePressedBy')?.values).toMatchObject({
      axle: 'front', pressedShare: overhangMm / WHEELBASE_MM,
    })
  })

  it('says nothing of the front while nobody told where it touches, and asks', () => {
    const run = readOn(drops, REAR)
    expect(run.axles.front.netN.statement).toMatchObject({ kind: 'untold', reason: 'touchedGround' })
    expect(run.axles.rear.netN.statement.kind).toBe('atLeast')
    expect(run.totalN.statement.kind).toBe('atLeast')
    expect(holds(run.totalN.statement, LOADS.front + LOADS.rear)).toBe(true)
    expect(run.remarks.map(({ code }) => code)).toContain('trayPlaceUnknown')
  })

  it('leaves the total bounded past a control run', () => {
    const control = blower('control', 25, [
      { air: 'off', heights: [STANDS_MM, STANDS_MM] }, { air: 'on', heights: [STANDS_MM - 0.5, STANDS_MM - 0.4] },
      { air: 'off', heights: [STANDS_MM, STANDS_MM] },
    ], { control: true })
    const { runs } = readSession(session([control, runOn(drops, REAR)]), chassis(), open)
    expect(runs[1]!.axles.front.netN.statement.kind).toBe('untold')
    const { claim } = runs[1]!.totalN
    expect(claim.kind === 'atLeast' && claim.low.value).toBeCloseTo(springs.front + springs.rear - (1 + 1.2), 9)
  })
})

it('a tray that touches between the axle lines bounds both from below, and both hold', () => {
  const { drops } = beam(LOADS, 0.8 * WHEELBASE_MM, 3)
  const run = readOn(drops, REAR, { front: null, rear: { where: 'betweenAxles' } })
  for (const axle of ['front', 'rear'] as const) {
    expect(run.axles[axle].netN.statement.kind).toBe('atLeast')
    expect(holds(run.axles[axle].netN.statement, LOADS[axle])).toBe(true)
  }
})

it('both ends past their axles pull apart: only the sum is told', () => {
  const beyond = { where: 'beyondAxle' as const, beyondMm: { value: 30, u: 2 } }
  const run = readOn({ front: 3, rear: 3 }, { front: true, rear: true }, { front: beyond, rear: beyond })
  expect(run.axles.front.netN.statement.kind).toBe('untold')
  expect(run.axles.rear.netN.statement.kind).toBe('untold')
  expect(run.totalN.statement.kind).toBe('atLeast')
})

describe('a tray known only by its clearance', () => {
  it('bounds the other axle as well, and says so', () => {
    // The rear is let down to its 4 mm by the bench's own curves; the front has room left.
    const ends = { front: { where: 'betweenAxles' as const }, rear: { where: 'betweenAxles' as const } }
    const run = readSession(session([runOn({ front: 2, rear: 4 }, { front: false, rear: false })]),
      chassis({ trayEnds: ends }), curves()).runs[0]!
    expect(run.axles.rear.netN.statement.kind).toBe('atLeast')
    expect(run.axles.front.netN.statement).toMatchObject({ kind: 'atLeast', reason: 'touchedGround' })
    expect(run.remarks.find(({ code }) => code === 'touchedByClearance')?.values).toEqual({ axle: 'rear' })
  })
})
