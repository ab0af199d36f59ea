/** Tyre growth and fitted springs through the whole analysis, on the demo car. */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { analyse, answerSpring, DEFAULT_OPTIONS } from '@core/analysis'
import { exchange as exchangeSchema, type Exchange } from '@core/schema'
import type { Statement } from '@core/uncertainty'

const demo = exchangeSchema.parse(JSON.parse(readFileSync(new URL('../../../seeds/demo.json', import.meta.url), 'utf8')))
const plain = (statement: Statement): number => {
  if (statement.kind !== 'interval') throw new Error(JSON.stringify(statement))
  return statement.value
}
const skirtsOf = (file: Exchange) => {
  const analysis = analyse(file, { ...DEFAULT_OPTIONS, speedsMs: [20] })
  return { analysis, result: analysis.configurations.find((each) => each.configurationId === 'tray-skirts')! }
}
const grown = (value: number): Exchange => {
  const tyre = { rateNPerMm: null, growthMmPerMs2: { value, u: 0 } }
  return { ...demo, chassis: { ...demo.chassis, tyres: { front: tyre, rear: tyre } } }
}

describe('tyres that grow by 0.003 mm per (m/s)^2', () => {
  // By hand, from the rear axle's printed threshold and rate and its ClA: 0.5 rho V^2 ClA = F0 + k (3.45 + 0.003 V^2)
  // is met at about 43 m/s, where without growth it is at 26.8 m/s.
  it('bring the tray down at about 43 instead of 27 m/s', () => {
    expect(plain(skirtsOf(demo).result.touchDowns.axles.rear.speedMs)).toBeCloseTo(26.8, 0)
    const speed = plain(skirtsOf(grown(0.003)).result.touchDowns.axles.rear.speedMs)
    expect(Math.abs(speed - 43)).toBeLessThan(1)
  })

  it('leave 1.2 mm more room at 20 m/s', () => {
    const room = (file: Exchange) => plain(skirtsOf(file).result.predictions[0]!.clearanceMm.rear)
    expect(room(grown(0.003)) - room(demo)).toBeCloseTo(0.003 * 400, 6)
  })
})

it('the fitted spring leaves the room that the measured curve leaves', () => {
  const { analysis, result } = skirtsOf(demo)
  for (const axle of ['front', 'rear'] as const) {
    const answer = answerSpring(analysis, result, demo.chassis, axle, 1, 20)!
    const fitted = demo.chassis.springs.find((each) => each.fitted && each.axle === axle)!
    const outcome = answer.springs.find(({ springId }) => springId === fitted.id)!
    expect(plain(outcome.clearanceMm)).toBeCloseTo(plain(result.predictions[0]!.clearanceMm[axle]), 9)
    expect(plain(outcome.touchDownMs)).toBeCloseTo(plain(result.touchDowns.axles[axle].speedMs), 9)
  }
})
