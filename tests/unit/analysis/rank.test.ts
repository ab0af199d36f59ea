import { describe, expect, it } from 'vitest'
import { analyse, DEFAULT_OPTIONS, rankBy } from '@core/analysis'
import type { Statement } from '@core/uncertainty'
import { makeDemo } from '../../../seeds/demo'
import { DEMO_SEED } from '../../../seeds/generate'

const { costs } = analyse(makeDemo(DEMO_SEED).exchange, { ...DEFAULT_OPTIONS, cornerRadiusM: 6 })
const mainOf = (said: Statement): number => (said.kind === 'interval' ? said.value : said.kind === 'atLeast' ? said.bound : NaN)
const course = costs.courses[0]!
const PLAIN = {
  kind: 'interval', value: 0, u: 1, dof: Infinity, interval: { low: -2, high: 2, probability: 0.95 }, shortest: null,
  method: 'propagation', budget: [], extrapolated: false,
} as const

describe('set-ups in order by what was chosen', () => {
  it.each([
    ['load per drag', { by: 'loadPerDrag' }, -1], ['level in a corner', { by: 'corner' }, -1],
    ['lap', { by: 'lap', courseId: course.courseId }, 1],
  ] as const)('by %s begin with the best, each tie mutual', (_, question, rises) => {
    const ranked = rankBy(costs, question)
    expect(ranked.length).toBeGreaterThan(1)
    const values = ranked.map(({ said }) => mainOf(said)).filter((each) => !Number.isNaN(each))
    expect(values).toEqual([...values].sort((a, b) => rises * (a - b)))
    for (const { configurationId, tiedWith } of ranked) {
      for (const other of tiedWith) {
        expect(ranked.find((each) => each.configurationId === other)!.tiedWith).toContain(configurationId)
      }
    }
  })

  it('by the lap tell skirts and none apart, as their lap times’ difference does', () => {
    const ranked = rankBy(costs, { by: 'lap', courseId: course.courseId })
    const at = (id: string) => ranked.findIndex(({ configurationId }) => configurationId === id)
    expect(at('tray-skirts')).toBeLessThan(at('tray-plain'))
    expect(ranked[at('tray-skirts')]!.tiedWith).not.toContain('tray-plain')
  })

  it('never tell a bound apart from another bound', () => {
    const { configurationA, configurationB } = costs.pairs[0]!
    const bound: Statement = { kind: 'atLeast', bound: 1, probability: 0.95, reason: 'touchedGround' }
    const corner = {
      radiusM: 6,
      outcomes: [configurationA, configurationB].map((configurationId) => ({ configurationId, levelMs2: bound })),
      differences: [{ configurationA, configurationB, levelMs2: bound }],
    }
    expect(rankBy({ ...costs, corner }, { by: 'corner' }).map(({ tiedWith }) => tiedWith.length)).toEqual([1, 1])
  })

  it('stand by what they surely reach, and last where that is not told', () => {
    const setups: readonly [string, Statement][] = [
      ['most', { kind: 'atMost', bound: 90, probability: 0.95, reason: 'touchedGround' }],
      ['wide', { kind: 'between', low: 3, high: 80, probability: 0.95, reason: 'withinFriction' }],
      ['plain', { ...PLAIN, value: 4 }],
      ['least', { kind: 'atLeast', bound: 5, probability: 0.95, reason: 'touchedGround' }],
    ]
    const corner = {
      radiusM: 6, differences: [],
      outcomes: setups.map(([configurationId, levelMs2]) => ({ configurationId, levelMs2 })),
    }
    const ids = rankBy({ ...costs, corner }, { by: 'corner' }).map(({ configurationId }) => configurationId)
    expect(ids).toEqual(['least', 'plain', 'wide', 'most'])
    const result = {
      ...course.result!, differences: [],
      outcomes: course.result!.outcomes.slice(0, 1).flatMap((outcome) =>
        setups.map(([configurationId, lapS]) => ({ ...outcome, configurationId, lapS }))),
    }
    const laps = rankBy({ ...costs, courses: [{ ...course, result }] }, { by: 'lap', courseId: course.courseId })
    expect(laps.map(({ configurationId }) => configurationId)).toEqual(['plain', 'wide', 'most', 'least'])
  })

  it('are none where nothing is told', () => {
    expect(rankBy({ ...costs, corner: null }, { by: 'corner' })).toEqual([])
    expect(rankBy(costs, { by: 'lap', courseId: 'nowhere' })).toEqual([])
  })
})
