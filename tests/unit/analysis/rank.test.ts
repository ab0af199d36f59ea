import { describe, expect, it } from 'vitest'
import { analyse, DEFAULT_OPTIONS, rankBy } from '@core/analysis'
import type { Statement } from '@core/uncertainty'
import { makeDemo } from '../../../seeds/demo'
import { DEMO_SEED } from '../../../seeds/generate'

const { costs } = analyse(makeDemo(DEMO_SEED).exchange, { ...DEFAULT_OPTIONS, cornerRadiusM: 6 })
const mainOf = (said: Statement): number => (said.kind === 'interval' ? said.value : said.kind === 'atLeast' ? said.bound : NaN)
const course = costs.courses[0]!

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

  it('are none where nothing is told', () => {
    expect(rankBy({ ...costs, corner: null }, { by: 'corner' })).toEqual([])
    expect(rankBy(costs, { by: 'lap', courseId: 'nowhere' })).toEqual([])
  })
})
