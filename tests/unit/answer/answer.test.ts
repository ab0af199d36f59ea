/** The answer as data: its figures are those of the analysis, its codes follow from them. */
import { describe, expect, it } from 'vitest'
import { produce } from 'immer'
import { analyse, DEFAULT_OPTIONS } from '@core/analysis'
import { answerOf, roundInside, toldSpeeds, type AnswerQuestion } from '@core/answer'
import { answerLines, GERMAN, ENGLISH, voiceOf } from '@core/report'
import { DEFAULT_UNITS } from '@core/units'
import { analysed, demoExchange } from '../report/demo'

const exchange = demoExchange()
const analysis = analysed(exchange)
const { chassis } = exchange
const of = (more: Partial<AnswerQuestion> = {}) => answerOf(analysis, chassis, { units: DEFAULT_UNITS, ...more })!
const idOf = (name: string): string => chassis.configurations.find((each) => each.name === name)!.id

describe('the answer', () => {
  it('is the top of the ladder at a speed that all set-ups were read at, and no guess', () => {
    const answer = of()
    expect(answer.configurationId).toBe(analysis.matrix!.ranked[0]!.configurationId)
    expect(answer.speed).toEqual({ speedMs: expect.closeTo(19.3, 6), from: 'round' })
    expect(answer.at.totalN).toMatchObject({ kind: 'interval', extrapolated: false })
    expect(answer.lead).toMatchObject({ kind: 'clear', othersCount: 3, tiedWith: [] })
  })

  it('leads by the difference of the two areas in half the density times squared speed', () => {
    const { lead, speed, configurationId } = of()
    const cell = analysis.matrix!.cells.find(({ comparison: { configurationA: a, configurationB: b } }) =>
      a === configurationId && b === lead.other)!
    const said = cell.comparison.total.differenceM2.statement
    if (said.kind !== 'interval' || lead.byN?.kind !== 'interval') throw new Error('both are values in the demo')
    const density = analysis.configurations.find((each) => each.configurationId === configurationId)!.aero.densityKgM3
    expect(lead.byN.value).toBeCloseTo(0.5 * density.value * speed.speedMs ** 2 * said.value, 9)
    expect(lead.byN.interval.low).toBeGreaterThan(0)
    expect(lead.probability!.value).toBeGreaterThan(0.999)
  })

  it('of a pair turns every figure to the better of the two, whichever way the matrix has them', () => {
    const answer = of({ of: [idOf('Tray, no skirts'), idOf('Wing, no skirts')] })
    expect(answer.configurationId).toBe(idOf('Wing, no skirts'))
    expect(answer.lead.other).toBe(idOf('Tray, no skirts'))
    expect(answer.lead.byN).toMatchObject({ kind: 'interval' })
    expect((answer.lead.byN as { value: number }).value).toBeGreaterThan(0)
  })

  it('says which way the balance moves only where the interval leaves no other', () => {
    expect(of().balance).toMatchObject({ tendency: 'understeer', slight: false })
    const alone = of({ of: [idOf('Tray, no skirts')] })
    expect(alone.balance).toMatchObject({ tendency: 'understeer', slight: true })
    expect(alone.lead.kind).toBe('only')
    const keeps = produce(analysis, (draft) => {
      const { balance } = draft.configurations[0]!.aero
      if (balance.shift.kind === 'interval') {
        Object.assign(balance.shift, { value: 0, interval: { low: -0.01, high: 0.01, probability: 0.95 } })
      }
    })
    const [first] = keeps.configurations
    expect(answerOf(keeps, chassis, { units: DEFAULT_UNITS, of: [first!.configurationId] })!.balance!.tendency).toBe('keeps')
  })

  it('past touch-down is a bound without lead or balance, and says that it is down', () => {
    const answer = of({ speedMs: 30 })
    expect(answer.at.totalN.kind).toBe('atLeast')
    expect(answer.lead.byN).toBeNull()
    expect(answer.balance).toBeNull()
    expect(answer.touch).toMatchObject({ kind: 'touches', axle: 'rear', down: true })
    const lines = answerLines(answer, voiceOf({ units: DEFAULT_UNITS, language: ENGLISH, exchange }))
    expect(lines).toMatchObject({ isBound: true, load: expect.stringMatching(/^at least/) })
  })

  it('takes the speed that the car keeps before any other', () => {
    const asked = produce(exchange, (draft) => { draft.chassis.askedSpeedMs = 21 })
    expect(answerOf(analysis, asked.chassis, { units: DEFAULT_UNITS })!.speed).toEqual({ speedMs: 21, from: 'asked' })
    expect(toldSpeeds(asked.chassis, analysis.configurations, DEFAULT_UNITS).map((each) => Math.round(each * 10) / 10))
      .toEqual([19.3, 21, 27.6])
  })

  it('is none where no set-up met the air', () => {
    const still = { ...exchange, sessions: exchange.sessions.filter(({ kind }) => kind === 'squat') }
    expect(answerOf(analyse(still, { ...DEFAULT_OPTIONS, speedsMs: [] }), chassis, { units: DEFAULT_UNITS })).toBeNull()
  })

  it.each([['English', ENGLISH], ['German', GERMAN]] as const)('is told whole in %s', (_, language) => {
    const lines = answerLines(of(), voiceOf({ units: DEFAULT_UNITS, language, exchange }))
    const all = [lines.title, lines.speed, lines.load, ...lines.beside, ...lines.lines.map(({ text }) => text), ...lines.sure].join(' ')
    expect(all).not.toMatch(/\{|undefined|NaN|Infinity/)
    expect(lines.lines.map(({ code }) => code)).toEqual(['lead', 'balance', 'touch', 'cost'])
  })
})

describe('a round speed', () => {
  it.each([
    [{ lowMs: 16, highMs: 28 }, 20], [{ lowMs: 12, highMs: 19 }, 15], [{ lowMs: 6.1, highMs: 8.9 }, 8],
    [{ lowMs: 19.302, highMs: 19.302 }, 19.3], [{ lowMs: 14.2, highMs: 14.7 }, 14.5],
  ])('inside %o is %f', (range, expected) => {
    expect(roundInside(range, DEFAULT_UNITS)).toBeCloseTo(expected, 9)
  })
  it('is round in the builder’s own unit', () => {
    // 1 mile is 1609.344 m (international mile): 40 mph.
    expect(roundInside({ lowMs: 16, highMs: 20 }, { speed: 'milePerHour' })).toBeCloseTo((40 * 1609.344) / 3600, 9)
  })
})
