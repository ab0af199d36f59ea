/**
 * The whole session a hundred times, each with its own hidden errors drawn from what the profile
 * states of them: the simulator's truth must lie in the stated 95 % intervals. With 95 % coverage
 * fewer than 90 of 100 has a probability of 1.1 % (binomial, exact), so a bound of 90 is fair.
 */
import { describe, expect, it } from 'vitest'
import { readSession } from '@core/airflow'
import { calibrateAxles } from '@core/calibration'
import type { AirflowSession, SquatSession } from '@core/schema'
import type { Statement } from '@core/uncertainty'
import { makeDemo } from '../../../seeds/demo'

const SEEDS = Array.from({ length: 100 }, (_, index) => 1000 + index)
const RUN = 'tray-half'

type Counted = 'front' | 'rear' | 'total'

function holds(said: Statement, truth: number): boolean {
  return said.kind === 'interval' && said.interval.low <= truth && truth <= said.interval.high
}

function oneSession(seed: number): { inside: Record<Counted, boolean>; touchedPlain: number } {
  const { exchange: { chassis, sessions }, truth } = makeDemo(seed)
  const squat = sessions.find((each): each is SquatSession => each.kind === 'squat')!
  const blower = sessions.find((each): each is AirflowSession => each.id === 'blower-may')!
  const { front, rear } = calibrateAxles(squat, chassis)
  if (front.refused || rear.refused) throw new Error(`seed ${seed}: no curve`)
  const { runs } = readSession(blower, chassis, { front, rear })
  const run = runs.find(({ runId }) => runId === RUN)!
  const { netN } = truth.runs.find(({ runId }) => runId === RUN)!
  const touched = truth.runs.filter((each) => each.touched.front || each.touched.rear).map(({ runId }) => runId)
  return {
    inside: {
      front: holds(run.axles.front.netN.statement, netN.front), rear: holds(run.axles.rear.netN.statement, netN.rear),
      total: holds(run.totalN.statement, netN.front + netN.rear),
    },
    touchedPlain: runs.filter((each) => touched.includes(each.runId))
      .filter(({ totalN }) => totalN.statement.kind === 'interval').length,
  }
}

describe('a hundred sessions with known truth', () => {
  const results = SEEDS.map(oneSession)

  it.each(['front', 'rear', 'total'] as const)('%s: the truth is inside for at least 90', (which) => {
    const count = results.filter(({ inside }) => inside[which]).length
    console.log(`${which}: truth inside the stated interval in ${count} of ${SEEDS.length} sessions`)
    expect(count).toBeGreaterThanOrEqual(90)
  })

  it('prints no plain number where the tray was on the ground', () => {
    expect(results.reduce((sum, { touchedPlain }) => sum + touchedPlain, 0)).toBe(0)
  })
})
