/** What must never change a run's reading. */
import { readSession } from '@core/airflow'
import { standardUncertainty } from '@core/uncertainty'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { blower, chassis as sharpChassis, session, straightCurve, type TypedState } from '../unit/airflow/bench'

const chassis = (change: Parameters<typeof sharpChassis>[0] = {}) =>
  sharpChassis({ gauges: [{ ...sharpChassis().gauges[0]!, repeatabilityUMm: 1 }], ...change })
/** Ground far below and a gauge that repeats badly, so that no scatter is out of the ordinary. */
const curves = () => ({
  front: straightCurve('front', 2, { touchMm: 400 }), rear: straightCurve('rear', 3, { touchMm: 400 }),
})

const height = fc.double({ min: 4.6, max: 6, noNaN: true })
const bracket = fc.array(fc.tuple(height, height), { minLength: 1, maxLength: 4 })

const states = (drops: readonly (readonly [number, number])[]): TypedState[] => [
  { air: 'off', heights: [6.5, 6.5] },
  ...drops.flatMap((heights): TypedState[] => [{ air: 'on', heights }, { air: 'off', heights: [6.5, 6.5] }]),
]
const moved = (state: TypedState, by: (height: number) => number): TypedState =>
  ({ ...state, heights: [by(state.heights[0]), by(state.heights[1])] })
const read = (drops: readonly (readonly [number, number])[], change = {}, car = chassis()) =>
  readSession(session([blower('run', 15, states(drops), change)]), car, curves()).runs[0]!
const loadOf = (run: ReturnType<typeof read>, axle: 'front' | 'rear') => {
  const { claim } = run.axles[axle].netN
  if (claim.kind !== 'value') throw new Error(claim.kind)
  return claim.value
}

describe('a run\'s load', () => {
  it('does not depend on the order in which states and readings are stored', () => {
    fc.assert(fc.property(bracket, (drops) => {
      const one = blower('run', 15, states(drops))
      const other = { ...one, states: [...one.states].reverse(), readings: [...one.readings].reverse() }
      const [a, b] = [one, other].map((run) => readSession(session([run]), chassis(), curves()).runs[0]!)
      for (const axle of ['front', 'rear'] as const) {
        expect(loadOf(b!, axle).value).toBeCloseTo(loadOf(a!, axle).value, 10)
        expect(standardUncertainty(loadOf(b!, axle))).toBeCloseTo(standardUncertainty(loadOf(a!, axle)), 10)
      }
    }))
  })

  it('is the same seen in a mirror', () => {
    const side: Record<string, string> = {
      frontLeft: 'frontRight', frontRight: 'frontLeft', rearLeft: 'rearRight', rearRight: 'rearLeft',
    }
    fc.assert(fc.property(bracket, fc.double({ min: -0.3, max: 0.3, noNaN: true }), (drops, roll) => {
      const one = blower('run', 15, states(drops))
      const rolled = one.readings.map((each) => (each.corner.endsWith('Left') ? { ...each, shownMm: each.shownMm + roll } : each))
      const mirrored = rolled.map((each) => ({ ...each, corner: side[each.corner] as typeof each.corner }))
      const [a, b] = [rolled, mirrored].map((readings) =>
        readSession(session([{ ...one, readings }]), chassis(), curves()).runs[0]!)
      expect(loadOf(b!, 'front').value).toBeCloseTo(loadOf(a!, 'front').value, 10)
    }))
  })

  it('a zero moved evenly over the run changes nothing', () => {
    fc.assert(fc.property(bracket, fc.double({ min: -0.05, max: 0.05, noNaN: true }), (drops, creep) => {
      const typed = states(drops)
      const crept = typed.map((state, i) => moved(state, (each) => each + creep * i))
      const [a, b] = [typed, crept].map((each) => readSession(session([blower('run', 15, each)]), chassis(), curves()).runs[0]!)
      expect(loadOf(b!, 'rear').value).toBeCloseTo(loadOf(a!, 'rear').value, 8)
    }))
  })

  it('a height gauge and a drop gauge tell the same', () => {
    fc.assert(fc.property(bracket, (drops) => {
      const car = chassis()
      const dropCar = chassis({ gauges: [{ ...car.gauges[0]!, reads: 'drop' }] })
      const asDrops = states(drops).map((state) => moved(state, (each) => 6.5 - each))
      const a = read(drops)
      const b = readSession(session([blower('run', 15, asDrops)]), dropCar, curves()).runs[0]!
      expect(loadOf(b, 'front').value).toBeCloseTo(loadOf(a, 'front').value, 9)
    }))
  })

  it('a touched state anywhere in the run leaves no plain number', () => {
    fc.assert(fc.property(bracket, fc.nat(), fc.boolean(), (drops, which, front) => {
      const typed = states(drops)
      const ons = typed.flatMap(({ air }, i) => (air === 'on' ? [i] : []))
      const at = ons[which % ons.length]!
      const touched = typed.map((state, i) => (i === at ? { ...state, touched: { front, rear: !front } } : state))
      const run = readSession(session([blower('run', 15, touched)]), chassis(), curves()).runs[0]!
      for (const told of [run.axles.front.netN, run.axles.rear.netN, run.totalN]) expect(told.statement.kind).not.toBe('interval')
    }))
  })
})
