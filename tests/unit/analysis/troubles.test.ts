/** A fault of the program in one part: the rest stands, the part is named in words of ours, and the command says so. */
import { describe, expect, it } from 'vitest'
import { analyse, DEFAULT_OPTIONS } from '@core/analysis'
import type { Exchange, Session } from '@core/schema'
import { asTable } from '../../../electron/headless/asTable'
import { exitCodeOf, resultsOf } from '../../../electron/headless/results'
import { makeDemo } from '../../../seeds/demo'

const { exchange } = makeDemo(20_310_504)
const WISHES = {
  speedsMs: [15], heightsToMs: 20, holdMm: 1, holdAtMs: 15, findM2: null, rank: null, radiusM: 6, course: null,
}

/** A session in which a program's fault is met: looking at its setup throws. */
const faulty = (session: Session): Session =>
  Object.defineProperty({ ...session }, 'setup', { get: () => { throw new TypeError('reading of undefined') } })

const withFault: Exchange = {
  ...exchange, sessions: exchange.sessions.map((each) => (each.kind === 'squat' ? faulty(each) : each)),
}

describe('a session that could not be worked out', () => {
  it('is told, and the others stand', () => {
    const { troubles, airflows, squats } = analyse(withFault, DEFAULT_OPTIONS)
    expect(squats).toHaveLength(0)
    expect(airflows.length).toBeGreaterThan(0)
    expect(troubles).toEqual([{
      part: 'session', sessionId: 'squat-may', name: expect.stringContaining('Squat'), fault: 'reading of undefined',
    }])
  })

  it('ends the command with 1, in a sentence without the program’s own words', () => {
    const results = resultsOf(withFault, WISHES)
    expect(exitCodeOf(results)).toBe(1)
    expect(asTable(results)).toContain('could not be worked out: a fault of this program')
    expect(asTable(results)).not.toContain('reading of undefined')
    expect(exitCodeOf(resultsOf(exchange, WISHES))).toBe(0)
  })
})
