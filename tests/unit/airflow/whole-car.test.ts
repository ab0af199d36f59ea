/** A set-up of which the builder says that the whole car is measured: no control run is taken off or asked for. */
import { describe, expect, it } from 'vitest'
import { readSession } from '@core/airflow'
import { blower, chassis, curves, session } from './bench'

const states = [
  { air: 'off' as const, heights: [20, 20] as const }, { air: 'on' as const, heights: [19, 19] as const },
  { air: 'off' as const, heights: [20, 20] as const },
]
const device = blower('device', 12, states, {})
const bare = blower('bare', 12, states, { control: true })
const car = chassis()
const whole = {
  ...car, configurations: car.configurations.map((each) => ({ ...each, wholeCar: true })),
}
const read = (of: typeof car, runs = [device, bare]) => {
  const found = readSession(session(runs), of, curves(), { squatDatum: null }).runs.find(({ runId }) => runId === 'device')!
  return { controls: found.controlRunIds, codes: found.remarks.map(({ code }) => code) }
}

describe('the whole car', () => {
  it('is asked for no control run, and has none taken off', () => {
    expect(car.configurations.length).toBeGreaterThan(0)
    expect(read(car, [device]).codes).toContain('noControlRun')
    expect(read(whole, [device]).codes).not.toContain('noControlRun')
    expect([read(car).controls, read(whole).controls]).toEqual([['bare'], []])
  })
})
