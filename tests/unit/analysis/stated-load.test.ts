/** The load by trials is the load of the headline: pitch, holding and control run taken off alike. */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { netMeasurement } from '@core/airflow'
import { analyse } from '@core/analysis'
import { readForceByMonteCarlo } from '@core/calibration'
import { AXLES, exchange as exchangeSchema, type Exchange } from '@core/schema'

const demo = exchangeSchema.parse(JSON.parse(readFileSync(new URL('../../../seeds/demo.json', import.meta.url), 'utf8')))

/** The demo with every blower run held by a line of 1.5 N at 40 mm, so that something is taken off for that, too. */
const lined: Exchange = {
  ...demo,
  sessions: demo.sessions.map((session) => (session.kind !== 'airflow' ? session : {
    ...session,
    runs: session.runs.map((run) => (run.kind !== 'blower' ? run : {
      ...run,
      held: {
        how: 'line' as const, hookXMm: { value: -20, u: 3 }, hookHeightMm: { value: 40, u: 2 }, fallDeg: { value: 3, u: 1 },
        pullN: { value: run.control ? 1 : 1.5, u: 0.05 },
      },
    })),
  })),
}

function statedLoads(file: Exchange) {
  const { airflows, squats } = analyse(file)
  return airflows.flatMap(({ runs }) => runs.flatMap((run) => AXLES.flatMap((axle) => {
    const curve = squats[0]!.axles[axle]
    const measured = netMeasurement(run, axle, runs)
    if (curve.refused || !measured) return []
    const trials = readForceByMonteCarlo(curve, measured.reading, { seed: 7, fixedTrials: 40_000 }, measured.net)
    let step = trials.next()
    while (!step.done) step = trials.next()
    return [{ run, axle, statement: step.value.statement, headline: run.axles[axle].netN.statement }]
  })))
}

describe.each([['as it is', demo], ['held by a line', lined]])('the demo, %s', (_which, file) => {
  const loads = statedLoads(file)

  it('has runs with a control run, control runs and passes with their pitch among them', () => {
    expect(loads.some(({ run }) => run.controlRunIds.length > 0)).toBe(true)
    expect(loads.some(({ run, axle }) => Math.abs(run.axles[axle].pitchN?.value ?? 0) > 0.1)).toBe(true)
  })

  it.each(loads.map((each) => [each.run.name, each.axle, each] as const))('%s, %s', (_name, _axle, { statement, headline }) => {
    expect(statement.kind).toBe(headline.kind)
    if (statement.kind !== 'interval' || headline.kind !== 'interval') return
    expect(statement.method).toBe('monteCarlo')
    // Where the curve bends the trials' mean may differ a little from the value at the means.
    expect(Math.abs(statement.value - headline.value)).toBeLessThan(0.15 * headline.u)
    expect(statement.u / headline.u).toBeGreaterThan(0.9)
    expect(statement.u / headline.u).toBeLessThan(1.1)
  })
})
