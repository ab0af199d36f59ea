/** The demo's files, and how often a whole demo session tells the truth. */
import {
  calibrateAxles, dropBetween, readForce, shownAt, type Calibration, type DropReading,
} from '@core/calibration'
import { chassisMotion, perAxleOf } from '@core/chassis'
import { AXLES, CORNERS, exchange as exchangeSchema, type Exchange, type Reading } from '@core/schema'
import { mean, type Uncertain } from '@core/uncertainty'
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { makeDemo } from '../../../seeds/demo'
import { demoTexts } from '../../../seeds/generate'
import { holds } from '../../studies/simulated/count'

const stored = (name: string) => readFileSync(new URL(`../../../seeds/${name}`, import.meta.url), 'utf8')

describe('the demo', () => {
  it('is written with the same bytes every time, and those bytes are stored', () => {
    const texts = demoTexts()
    expect(demoTexts()).toEqual(texts)
    expect(stored('demo.json')).toBe(texts.exchange)
    expect(stored('demo-log.csv')).toBe(texts.log)
    expect(stored('demo-truth.json')).toBe(texts.truth)
  })

  it('is a valid exchange file with two devices, with and without skirts, and a run on the ground', () => {
    const file = exchangeSchema.parse(JSON.parse(stored('demo.json')))
    expect(file.sessions.map(({ kind }) => kind)).toEqual(['squat', 'airflow', 'airflow', 'track', 'coast'])
    expect(file.chassis.configurations.map(({ id }) => id))
      .toEqual(['tray-plain', 'tray-skirts', 'wing-plain', 'wing-skirts'])
    const runs = file.sessions.flatMap((each) => (each.kind === 'airflow' ? each.runs : []))
    expect(runs.some(({ control }) => control)).toBe(true)
    expect(runs.some(({ states }) => states.some(({ touched }) => touched.rear))).toBe(true)
  })
})

/** Mean of a blower run's on states against the mean of its off states, as a drop of each axle line. */
function runDrop(
  { chassis }: Exchange, runId: string, curve: Calibration, readings: readonly Reading[], on: Set<string>,
) {
  const gauge = chassis.gauges.find(({ id }) => id === 'step-gauge')!
  const context = { sessionId: runId, gauge, repeatability: curve.repeatability }
  const drops = CORNERS.map((corner): [string, Uncertain] => {
    const shown = (want: boolean) => mean([...new Set(readings.map(({ stepId }) => stepId))]
      .filter((stepId) => on.has(stepId) === want)
      .map((stepId) => shownAt(readings.filter((each) => each.stepId === stepId && each.corner === corner), context)!))
    return [corner, dropBetween(gauge, shown(false), shown(true))!]
  })
  return chassisMotion(chassis, Object.fromEntries(drops)).axles
}

/** What is said of the gross load on each axle in a run, and whether it is true. */
function judged(seed: number, runId: string) {
  const { exchange, truth } = makeDemo(seed)
  const squat = exchange.sessions.find((each) => each.kind === 'squat')!
  const curves = calibrateAxles(squat, exchange.chassis)
  const runs = exchange.sessions.flatMap((each) => (each.kind === 'airflow' ? each.runs : []))
  const run = runs.find(({ id }) => id === runId)!
  const on = new Set(run.states.filter(({ air }) => air === 'on').map(({ id }) => id))
  const touched = run.states.some((each) => each.touched.front || each.touched.rear)
  return perAxleOf((axle) => {
    const curve = curves[axle]
    if (curve.refused) return { kind: 'refused', held: false }
    const dropMm = runDrop(exchange, runId, curve, run.readings, on)[axle]!
    const { statement } = readForce(curve, { dropMm, branch: 'mid', touched } satisfies DropReading)
    const trueN = truth.runs.find((each) => each.runId === runId)!.grossN[axle]
    return { kind: statement.kind, held: holds(statement, trueN) }
  })
}

const REPEATS = 100

describe('a hundred days at the same bench', () => {
  it('hold the true load of a run in the stated 95 % interval on at least 90 of 100, on either axle', () => {
    const days = Array.from({ length: REPEATS }, (_, i) => judged(1000 + i, 'skirts-half'))
    for (const axle of AXLES) {
      const held = days.filter((each) => each[axle].held).length
      console.log(`demo, ${axle} axle, tray with skirts: the truth lies in ${held} of ${REPEATS} stated intervals`)
      expect(days.every((each) => each[axle].kind === 'interval')).toBe(true)
      expect(held).toBeGreaterThanOrEqual(90)
    }
  })

  it('never print a plain number with the tray on the ground', () => {
    const days = Array.from({ length: 20 }, (_, i) => judged(2000 + i, 'wing-skirts-full').rear)
    expect(new Set(days.map(({ kind }) => kind))).toEqual(new Set(['atLeast']))
    expect(days.filter(({ held }) => held).length).toBeGreaterThanOrEqual(17)
  })
})
