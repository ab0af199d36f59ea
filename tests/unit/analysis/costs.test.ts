import { describe, expect, it } from 'vitest'
import { analyse } from '@core/analysis'
import type { CoastSession, Exchange } from '@core/schema'
import type { Statement } from '@core/uncertainty'
import { makeDemo } from '../../../seeds/demo'
import { DEMO_SEED } from '../../../seeds/generate'

const { exchange, truth } = makeDemo(DEMO_SEED)
const { costs } = analyse(exchange)

const holds = (said: Statement | undefined, value: number): boolean =>
  said?.kind === 'interval' && said.interval.low <= value && value <= said.interval.high

/** The demo with its coasts changed. */
function withCoasts(change: (session: CoastSession) => CoastSession): Exchange {
  return { ...exchange, sessions: exchange.sessions.map((each) => (each.kind === 'coast' ? change(each) : each)) }
}

describe('what downforce costs, on the demo’s coasts', () => {
  it('holds the drag that the simulator gave each set-up, the rolling and the power', () => {
    expect(costs.coasts).toHaveLength(1)
    for (const { configurationId, cdaM2 } of costs.setups) {
      expect(holds(cdaM2.statement, truth.straight.cdaM2[configurationId]!), configurationId).toBe(true)
    }
    expect(holds(costs.coasts[0]!.rollingShare!.statement, truth.straight.rolling)).toBe(true)
    expect(Math.abs(costs.powerW!.value - truth.straight.powerW)).toBeLessThan(4)
  })

  it('tells what a wing costs more sharply than either set-up’s own drag: what both share cancels', () => {
    const pair = costs.pairs.find(({ configurationA, configurationB }) => configurationA === 'tray-plain' && configurationB === 'wing-skirts')!
    const { statement } = pair.cdaM2
    expect(holds(statement, truth.straight.cdaM2['tray-plain']! - truth.straight.cdaM2['wing-skirts']!)).toBe(true)
    const own = costs.setups.map((each) => (each.cdaM2.statement.kind === 'interval' ? each.cdaM2.statement.u : NaN))
    expect(statement.kind === 'interval' && statement.u).toBeLessThan(Math.hypot(own[0]!, own[2]!))
  })

  it('puts gain in the corners and loss on the straight into one lap, with the segments adding up', () => {
    const [course] = costs.courses
    expect(course!.wanting).toEqual([])
    const skirts = course!.result!.differences.find(({ configurationA, configurationB }) =>
      configurationA === 'tray-plain' && configurationB === 'tray-skirts')!
    expect(skirts.lapS.kind).toBe('interval')
    const sum = skirts.segmentsS.reduce((total, each) => total + each, 0)
    expect(skirts.lapS.kind === 'interval' && Math.abs(sum - skirts.lapS.value)).toBeLessThan(0.02)
    expect(skirts.probabilityQuicker).toBeLessThan(0.01)
    expect(skirts.topSpeedMs.kind === 'interval' && skirts.topSpeedMs.value).toBeGreaterThan(0)
  })
})

describe('coasts that can’t tell', () => {
  it('of one way are told to be so', () => {
    const oneWay = withCoasts((session) => ({ ...session, runs: session.runs.map((run) => ({ ...run, direction: 'out' })) }))
    expect(analyse(oneWay).costs.coasts[0]!.oneWay).toBe(true)
  })

  it('leave a course without laps, and say what it needs', () => {
    const none = { ...exchange, sessions: exchange.sessions.filter(({ kind }) => kind !== 'coast') }
    const [course] = analyse(none).costs.courses
    expect(course!.result).toBeNull()
    expect(course!.wanting).toContain('drag')
  })

  it('with gates out of order take no part and are named', () => {
    const turned = withCoasts((session) => ({
      ...session,
      runs: session.runs.map((run, i) => (i === 0 && run.data.kind === 'gates'
        ? { ...run, data: { ...run.data, gates: [...run.data.gates].reverse() } } : run)),
    }))
    const [read] = analyse(turned).costs.coasts
    expect(read!.unreadRunIds).toHaveLength(1)
    expect(read!.untold).toBeNull()
  })

  it('with the mass unknown say so', () => {
    const massless = { ...exchange, chassis: { ...exchange.chassis, massKg: null, cornerMassesKg: null } }
    expect(analyse(massless).costs.coasts[0]!.untold).toBe('noMass')
  })
})
