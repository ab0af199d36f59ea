/** A series of loads laid elsewhere than was written down: the curve does not fit, and that is said everywhere. */
import { describe, expect, it } from 'vitest'
import { analyse, DEFAULT_OPTIONS } from '@core/analysis'
import { openExchangeText, type Exchange } from '@core/schema'
import { asTable } from '../../../electron/headless/asTable'
import { exitCodeOf, resultsOf } from '../../../electron/headless/results'
import { curvesOf } from '../../../renderer/paths/missing'
import { makeDemo } from '../../../seeds/demo'

const { exchange } = makeDemo(20_310_504)
/** The loads of every other step written down over the front axle. */
const misplaced: Exchange = {
  ...exchange,
  sessions: exchange.sessions.map((session) => (session.kind !== 'squat' ? session : {
    ...session,
    steps: session.steps.map((step, i) => (i % 2 === 0 ? step
      : { ...step, placed: step.placed.map((each) => ({ ...each, xMm: 0 })) })),
  })),
}

describe('a curve that does not fit', () => {
  it('is a file that opens', () => {
    expect(openExchangeText(JSON.stringify(misplaced)).kind).toBe('opened')
  })

  it('is told of the squat test and among the troubles, with the place of the series', () => {
    const { troubles, squats } = analyse(misplaced, DEFAULT_OPTIONS)
    expect(troubles.some(({ part }) => part === 'curve')).toBe(true)
    const said = [...squats[0]!.axles.front.remarks, ...squats[0]!.axles.rear.remarks]
    expect(said.find(({ code }) => code === 'curveDoesNotFit')?.severity).toBe('stop')
  })

  it('takes the tick away, and is printed, but is no fault of the program', () => {
    const results = resultsOf(misplaced, {
      speedsMs: [15], heightsToMs: 20, holdMm: 1, holdAtMs: 15, findM2: null, rank: null, radiusM: 6, course: null,
    })
    expect(curvesOf(results.analysis, { working: false, wholeSquat: true }).usable).toBe(false)
    expect(asTable(results)).toContain('does not fit its readings')
    expect(exitCodeOf(results)).toBe(0)
  })

  it('is not said of the demo as it is', () => {
    const analysis = analyse(exchange, DEFAULT_OPTIONS)
    expect(analysis.troubles).toEqual([])
    expect(curvesOf(analysis, { working: false, wholeSquat: true }).usable).toBe(true)
  })
})
