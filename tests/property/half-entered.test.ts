/**
 * A builder is halfway through most of the time. Whatever part of a session stands, in whatever order
 * it was typed, the analysis ends, and what it states is well formed.
 */
import { describe, expect, it } from 'vitest'
import { analyse, answerSpring, DEFAULT_OPTIONS, type Analysis } from '@core/analysis'
import { AXLES, type AirRun, type Exchange, type Reading, type Session, type SquatSession } from '@core/schema'
import { makeDemo } from '../../seeds/demo'
import { seededDraws, shuffled } from './draws'
import { faultOf, statementsIn } from './statementsIn'

const { exchange } = makeDemo(20_310_504)
const squat = exchange.sessions.find((each): each is SquatSession => each.kind === 'squat')!
const withSquat = (readings: readonly Reading[], others: readonly Session[] = []): Exchange =>
  ({ ...exchange, sessions: [{ ...squat, readings: [...readings] }, ...others] })

const OPTIONS = { ...DEFAULT_OPTIONS, corners: true }

const faultsOf = (results: unknown): string[] => statementsIn(results).flatMap(({ where, statement }) => {
  const fault = faultOf(statement)
  return fault === null ? [] : [`${where}: ${fault}`]
})

const faultsIn = (analysis: Analysis): string[] =>
  [...analysis.troubles.map(({ name }) => `${name} could not be worked out`), ...faultsOf(analysis)]

const draws = seededDraws(20_310_504)
const byCorner = [...squat.readings].sort((a, b) => (a.corner < b.corner ? -1 : a.corner > b.corner ? 1 : 0))
const ORDERS: readonly (readonly [string, readonly Reading[]])[] = [
  ['as they were typed', squat.readings],
  ['from the last to the first', [...squat.readings].reverse()],
  ['corner by corner', byCorner],
  ['as the dice fell', shuffled(squat.readings, draws)],
]

describe('a squat test half entered', () => {
  it.each(ORDERS)('is worked out at every reading, %s', (_, readings) => {
    for (let count = 0; count <= readings.length; count++) {
      expect(faultsIn(analyse(withSquat(readings.slice(0, count)), OPTIONS)), `${count} readings`).toEqual([])
    }
  })

  it('is worked out from any part of its readings', () => {
    for (let round = 0; round < 300; round++) {
      const share = draws()
      const readings = squat.readings.filter(() => draws() < share)
      expect(faultsIn(analyse(withSquat(readings), OPTIONS)), `round ${round}`).toEqual([])
    }
  })

  it('is worked out with any part of the whole bench after it', () => {
    const others = exchange.sessions.filter(({ kind }) => kind !== 'squat')
    for (let round = 0; round < 60; round++) {
      const share = 0.2 + 0.8 * draws()
      const kept = <T>(list: readonly T[]): T[] => list.filter(() => draws() < share)
      const partOf = (run: AirRun): AirRun => ({
        ...run, readings: kept(run.readings), states: draws() < 0.3 ? kept(run.states) : run.states,
        ...(run.kind === 'blower' && { traverse: { ...run.traverse, points: kept(run.traverse.points) } }),
      } as AirRun)
      const sessions = others.map((session): Session => (session.kind !== 'airflow' ? session
        : { ...session, runs: kept(session.runs).map(partOf) }))
      const { chassis, ...rest } = withSquat(kept(squat.readings), sessions)
      const whole = { ...rest, chassis: draws() < 0.3 ? { ...chassis, scales: [], anemometers: [] } : chassis }
      const analysis = analyse(whole, { ...OPTIONS, heightsFor: 'all' })
      const springs = analysis.configurations.flatMap((each) =>
        AXLES.map((axle) => answerSpring(analysis, each, chassis, axle, 1, 15)))
      expect([...faultsIn(analysis), ...faultsOf(springs)], `round ${round}`).toEqual([])
    }
  }, 240_000)
})
