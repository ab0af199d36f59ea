/** The overview counts what the analysis could use, and names what most of the doubt comes from. */
import { describe, expect, it } from 'vitest'
import { produce } from 'immer'
import { analyse, DEFAULT_OPTIONS } from '@core/analysis'
import { answerOf, overviewOf } from '@core/answer'
import type { Exchange } from '@core/schema'
import { DEFAULT_UNITS } from '@core/units'
import { statesOf } from '@renderer/paths/states'
import { analysed, demoExchange } from '../report/demo'

const exchange = demoExchange()
const analysis = analysed(exchange)
const of = (file: Exchange, result = analysis) =>
  overviewOf(file, result, answerOf(result, file.chassis, { units: DEFAULT_UNITS }))
const curves = { usable: true, missing: [] }
const statesIn = (file: Exchange, result = analysis) =>
  statesOf({ car: file.chassis, sessions: file.sessions, result, curves, missing: { chassis: [], loads: [] } })

describe('the overview', () => {
  it('of the demo has every part, and the anemometer as the largest doubt of the load', () => {
    const all = of(exchange)
    expect(all.airflow).toEqual({ runs: 8, controls: 2, setUps: 4 })
    expect(all.decide).toEqual({ setUps: 4, pairs: 6, apart: 6 })
    expect(all.load.accuracy!.leader!.group).toBe('anemometer')
    expect(all.load.accuracy!.leader!.share).toBeCloseTo(0.64, 2)
    expect(all.loads.count).toBe(exchange.chassis.loads.length)
    expect(all.loads.worstHalf).toBeGreaterThan(0)
    expect(all.curve.shapes).toEqual({ front: 'progressive', rear: 'threshold' })
    expect(all.track.laps).toBeGreaterThan(0)
    expect(all.drag.coasts).toBeGreaterThan(0)
    expect(all.car.accuracy!.said).toMatchObject({ kind: 'interval' })
  })

  it('of a car that was only named is empty', () => {
    const bare: Exchange = { ...exchange, sessions: [], chassis: { ...exchange.chassis, loads: [] } }
    const all = of(bare, analyse(bare, { ...DEFAULT_OPTIONS, speedsMs: [] }))
    expect(all.load.accuracy).toBeNull()
    expect(all.loads).toEqual({ count: 0, worstHalf: null })
    expect(all.track).toEqual({ laps: 0, setUps: 0, accuracy: null })
    expect(all.curve).toEqual({ shapes: { front: null, rear: null }, weaker: null })
  })
})

describe('a step is ticked', () => {
  it('for the demo where the analysis could use what is there', () => {
    expect(statesIn(exchange)).toMatchObject({
      airflow: 'done', load: 'done', decide: 'done', track: 'done', drag: 'done', report: 'done', camera: 'optional',
    })
  })

  it('not for a circle run without laps, nor for a run of one reading', () => {
    const empty = produce(exchange, (draft) => {
      for (const session of draft.sessions) {
        if (session.kind === 'track') session.runs = session.runs.flatMap((run) => ('lapsS' in run ? [{ ...run, lapsS: [] }] : []))
        if (session.kind === 'airflow') for (const run of session.runs) run.readings = run.readings.slice(0, 1)
      }
    })
    const result = analyse(empty, { ...DEFAULT_OPTIONS, speedsMs: [] })
    expect(statesIn(empty, result)).toMatchObject({ airflow: 'begun', load: 'open', decide: 'open', report: 'open' })
    expect(statesIn(empty, result).track).not.toBe('done')
  })
})
