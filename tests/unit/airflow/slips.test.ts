/** Slips of the pen in a run's states are left out and said; faultless runs keep every reading. */
import { readSession, stateSlips, type RunResult } from '@core/airflow'
import { calibrateAxles } from '@core/calibration'
import type { AirflowSession, AirRun, Chassis, SquatSession } from '@core/schema'
import { describe, expect, it } from 'vitest'
import { makeDemo } from '../../../seeds/demo'
import { makeProject } from '../../studies/projects/world'

const { exchange: { chassis, sessions } } = makeDemo(11)
const squat = sessions.find((each): each is SquatSession => each.kind === 'squat')!
const blower = sessions.find((each): each is AirflowSession => each.id === 'blower-may')!
const curves = calibrateAxles(squat, chassis)
if (curves.front.refused || curves.rear.refused) throw new Error('no curve')
const { front, rear } = curves
const RUN = 'tray-half'
const gaugeOf = (run: AirRun, car: Chassis) => car.gauges.find(({ id }) => id === run.gaugeId)!

function read(change: (run: AirRun) => AirRun): RunResult {
  const runs = blower.runs.map((run) => (run.id === RUN ? change(run) : run))
  return readSession({ ...blower, runs }, chassis, { front, rear }).runs.find(({ runId }) => runId === RUN)!
}
/** The first reading of a corner in the first state with or without air, times a factor. */
const slip = (air: 'on' | 'off', factor: number) => (run: AirRun): AirRun => {
  const state = run.states.find((each) => each.air === air)!
  const index = run.readings.findIndex((each) => each.stepId === state.id && each.corner === 'frontLeft')
  const readings = run.readings.map((each, i) => (i === index ? { ...each, shownMm: each.shownMm * factor } : each))
  return { ...run, readings }
}

describe('a slip in a state', () => {
  const right = read((run) => run)

  it.each([['on', 10], ['off', 10], ['on', 0.1], ['on', -1]] as const)('with air %s, times %s, is named and left out', (air, factor) => {
    const found = read(slip(air, factor))
    const said = found.remarks.filter(({ code }) => code === 'readingSlipped' || code === 'readingImplausible')
    expect(said).toMatchObject([{ severity: 'stop', about: { kind: 'reading', corner: 'frontLeft' } }])
    for (const axle of ['front', 'rear'] as const) {
      const [was, is] = [right.axles[axle].netN.statement, found.axles[axle].netN.statement]
      if (was.kind !== 'interval' || is.kind !== 'interval') throw new Error(`${axle}: ${is.kind}`)
      expect(Math.abs(is.value - was.value)).toBeLessThan(was.u)
    }
  })

  it('that somebody kept counts as read', () => {
    const kept = read((run) => {
      const bad = slip('on', 10)(run)
      return { ...bad, readings: bad.readings.map((each) => ({ ...each, keptAt: '2026-05-02T10:00:00Z' })) }
    })
    expect(kept.remarks.map(({ code }) => code)).not.toContain('readingSlipped')
  })
})

it('faultless runs and passes keep every reading', () => {
  let readings = 0
  const judge = (session: AirflowSession, car: Chassis): void => {
    for (const run of session.runs) {
      readings += run.readings.length
      expect(stateSlips(run, car, gaugeOf(run, car))).toEqual([])
    }
  }
  for (let seed = 1; seed <= 5; seed++) {
    const { exchange } = makeDemo(seed)
    for (const each of exchange.sessions) if (each.kind === 'airflow') judge(each, exchange.chassis)
  }
  for (let seed = 1; seed <= 40; seed++) {
    const project = makeProject(seed, seed % 2 === 0)
    judge(project.airflow, project.chassis)
    judge(project.passes, project.chassis)
  }
  expect(readings).toBeGreaterThan(5000)
})
