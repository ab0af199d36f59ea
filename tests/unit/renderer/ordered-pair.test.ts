/** A pair asked for the other way round: B less A is minus (A less B), whatever may be said of it. */
import { describe, expect, it } from 'vitest'
import type { ComparisonMatrix, Probability } from '@core/aero'
import type { Statement } from '@core/uncertainty'
import { orderedPair, turnedProbability, turnedStatement } from '@renderer/screens/decide/orderedPair'

const reason = 'touchedGround' as const
const interval: Statement = {
  kind: 'interval', value: 29.4, u: 2, dof: 12, interval: { low: 25, high: 34, probability: 0.95 },
  shortest: { low: 24.5, high: 33, probability: 0.95 }, method: 'propagation', budget: [], extrapolated: true,
}
const atLeast: Statement = { kind: 'atLeast', bound: 3, probability: 0.95, reason }
const atMost: Statement = { kind: 'atMost', bound: -2, probability: 0.95, reason }
const between: Statement = { kind: 'between', low: -1, high: 4, probability: 0.95, reason }
const untold: Statement = { kind: 'untold', reason: 'missing', because: { code: 'noRun' } }

describe('a statement turned round', () => {
  it('has the other sign and the ends of its interval changed over', () => {
    expect(turnedStatement(interval)).toEqual({
      ...interval, value: -29.4, interval: { low: -34, high: -25, probability: 0.95 },
      shortest: { low: -33, high: -24.5, probability: 0.95 },
    })
  })
  it('makes a lower bound an upper one, and the other way round', () => {
    expect(turnedStatement(atLeast)).toEqual({ ...atLeast, kind: 'atMost', bound: -3 })
    expect(turnedStatement(atMost)).toEqual({ ...atMost, kind: 'atLeast', bound: 2 })
  })
  it('lies between the opposite bounds', () => {
    expect(turnedStatement(between)).toEqual({ ...between, low: -4, high: 1 })
  })
  it('stays untold with its reason', () => {
    expect(turnedStatement(untold)).toEqual(untold)
  })
  it('is itself again when turned twice, and has no minus nought', () => {
    for (const each of [interval, atLeast, atMost, between, untold]) {
      expect(turnedStatement(turnedStatement(each))).toEqual(each)
    }
    expect(turnedStatement({ ...atLeast, bound: 0 })).toEqual({ ...atMost, bound: 0 })
  })
})

describe('a probability turned round', () => {
  it.each<[Probability, Probability]>([
    [{ kind: 'is', value: 0.75 }, { kind: 'is', value: 0.25 }],
    [{ kind: 'atLeast', value: 0.75 }, { kind: 'atMost', value: 0.25 }],
    [{ kind: 'atMost', value: 0.25 }, { kind: 'atLeast', value: 0.75 }],
  ])('%o is %o', (said, turned) => { expect(turnedProbability(said)).toEqual(turned) })
  it('stays untold', () => {
    expect(turnedProbability({ kind: 'untold', value: NaN }).kind).toBe('untold')
  })
})

describe('a pair', () => {
  const told = (statement: Statement) => ({ claim: { kind: 'untold', reason: 'missing', because: { code: 'noRun' } } as const, statement })
  const difference = (statement: Statement, probabilityLarger: Probability) => ({
    differenceM2: told(statement), probabilityLarger, pValue: 0.01,
  })
  const matrix: ComparisonMatrix = {
    measure: 'asRead', ranked: [], pairCount: 1, remarks: [], cells: [{
      holmP: 0.01, distinct: true, comparison: {
        configurationA: 'lexan', configurationB: 'foam', measure: 'asRead', balanceMove: between,
        total: difference(interval, { kind: 'is', value: 0.9 }),
        axles: { front: difference(atLeast, { kind: 'atLeast', value: 0.8 }), rear: difference(atMost, { kind: 'atMost', value: 0.3 }) },
        smallestDetectableM2: 1, shrinksM2: 1, staysM2: 1,
      },
    }],
  }
  it('asked for as it was compared is left as it is', () => {
    const pair = orderedPair(matrix, 'lexan', 'foam')!
    expect([pair.total.statement, pair.axles.front.statement, pair.axles.rear.statement, pair.balanceMove])
      .toEqual([interval, atLeast, atMost, between])
    expect(pair.total.probabilityLarger.value).toBe(0.9)
  })
  it('asked for the other way round is turned in all its parts', () => {
    const pair = orderedPair(matrix, 'foam', 'lexan')!
    expect([pair.first, pair.second]).toEqual(['foam', 'lexan'])
    expect(pair.total.statement).toEqual(turnedStatement(interval))
    expect(pair.axles.front.statement).toMatchObject({ kind: 'atMost', bound: -3 })
    expect(pair.axles.rear.statement).toMatchObject({ kind: 'atLeast', bound: 2 })
    expect(pair.balanceMove).toMatchObject({ low: -4, high: 1 })
    expect(pair.total.probabilityLarger.value).toBeCloseTo(0.1, 12)
    expect(pair.axles.front.probabilityLarger).toMatchObject({ kind: 'atMost' })
    expect(pair.cell).toBe(matrix.cells[0])
  })
  it('of a set-up with itself is none', () => { expect(orderedPair(matrix, 'foam', 'foam')).toBeNull() })
})
