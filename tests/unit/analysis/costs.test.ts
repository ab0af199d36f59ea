import { describe, expect, it } from 'vitest'
import { analyse, DEFAULT_OPTIONS } from '@core/analysis'
import { LANGUAGES, reportHtml } from '@core/report'
import type { CoastSession, Exchange, Session } from '@core/schema'
import type { Statement } from '@core/uncertainty'
import { DEFAULT_UNITS } from '@core/units'
import { asTable } from '@electron/headless/asTable'
import { resultsOf } from '@electron/headless/results'
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

/** The demo without coasts: its runs are held by a line that was read, and power and grip are typed. */
function byLine(pullN: (name: string) => number): Exchange {
  return {
    chassis: {
      ...exchange.chassis,
      drive: { powerW: { value: 90, u: 5 }, gripMs2: { value: 9, u: 0.3 }, drivenShare: 1 },
    },
    sessions: exchange.sessions.flatMap((session): Session[] => {
      if (session.kind === 'coast') return []
      if (session.kind !== 'airflow') return [session]
      return [{
        ...session,
        runs: session.runs.map((run) => (run.kind === 'blower' ? {
          ...run,
          held: {
            how: 'line' as const, hookXMm: { value: 0, u: 2 }, hookHeightMm: { value: 35, u: 2 }, fallDeg: { value: 4, u: 1 },
            pullN: { value: pullN(run.name), u: 0.05 },
          },
        } : run)),
      }]
    }),
    format: exchange.format, schemaVersion: exchange.schemaVersion,
  } as Exchange
}

describe('drag by the line, where no coast tells any', () => {
  const pulled = analyse(byLine((name) => (/half/i.test(name) ? 1.6 : 3.2))).costs

  it('goes on to load per drag, differences and laps, and is named as what it is', () => {
    expect(pulled.dragFrom).toBe('line')
    expect(costs.dragFrom).toBe('coasts')
    expect(pulled.setups.length).toBeGreaterThan(1)
    expect(pulled.setups.every(({ cdaM2 }) => cdaM2.statement.kind === 'interval')).toBe(true)
    expect(pulled.setups.some(({ loadPerDrag }) => loadPerDrag?.kind === 'interval')).toBe(true)
    expect(pulled.pairs).toHaveLength((pulled.setups.length * (pulled.setups.length - 1)) / 2)
    const [course] = pulled.courses
    expect(course!.wanting).toEqual([])
    expect(course!.result!.outcomes.length).toBeGreaterThan(1)
  })

  it('of a set-up pulled more than once is the mean of its pulls', () => {
    const several = pulled.lineSetups.find(({ runIds }) => runIds.length > 1)!
    const own = pulled.lines.filter(({ runId }) => several.runIds.includes(runId))
      .map(({ cdaM2 }) => (cdaM2!.claim.kind === 'value' ? cdaM2!.claim.value.value : NaN))
    const middle = own.reduce((sum, each) => sum + each, 0) / own.length
    expect(several.cdaM2.claim.kind === 'value' && several.cdaM2.claim.value.value).toBeCloseTo(middle, 10)
  })
})

describe('laps', () => {
  it('are not driven while nobody asks for them', () => {
    let driven = 0
    const quiet = analyse(exchange, { ...DEFAULT_OPTIONS, courses: false }, () => { driven += 1; return null })
    expect(driven).toBe(0)
    expect(quiet.costs.courses[0]).toMatchObject({ result: null, wanting: [] })
  })
})

describe('coasts that can’t tell', () => {
  /** Over so short a stretch rolling and air slow a car alike. */
  const short = withCoasts((session) => ({
    ...session,
    runs: session.runs.flatMap((run) => (run.data.kind === 'gates' && run.purpose === 'coast'
      ? [{ ...run, data: { ...run.data, gates: run.data.gates.slice(0, 3) } }] : [])).slice(0, 2),
  }))

  it('say what would part rolling from air: a faster or a longer coast', () => {
    const { costs: told } = analyse(short)
    const [read] = told.coasts
    const wanted = read!.wouldPart!
    expect(read!.untold === 'cantBeParted' || told.setups.some(({ cdaM2 }) => cdaM2.statement.kind === 'untold')).toBe(true)
    expect(wanted.startMs).toBeGreaterThan(15)
    expect(wanted.endMs).toBeLessThan(8)
    expect(costs.coasts[0]!.wouldPart).toBeNull()
  })

  it('say so without a window and on paper, in both languages', () => {
    const wishes = {
      speedsMs: [15], heightsToMs: 20, holdMm: 1, holdAtMs: 20, findM2: null, rank: null, radiusM: 6, course: null,
    }
    expect(asTable(resultsOf(short, wishes))).toMatch(/can’t be parted by these coasts. What would part them: begin at \d/)
    const about = { version: '0', madeAt: '2031-05-04T08:00:00.000Z', fingerprint: '' }
    const of = (language: 'en' | 'de') => reportHtml({
      exchange: short, analysis: analyse(short), about, units: DEFAULT_UNITS, language: LANGUAGES[language], faces: [],
      part: 'annex', scope: { kind: 'chassis' },
    })
    expect(of('en')).toContain('What would part them: begin at')
    expect(of('de')).toContain('Was sie trennen würde: mit')
  })

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
