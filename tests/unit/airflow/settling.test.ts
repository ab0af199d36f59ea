/**
 * What the squat test shows of how the car comes to rest belongs to the runs as well, and both axles share
 * what moves them together. The whole of it is counted over many projects by `npm run study:coverage`.
 */
import { readSession } from '@core/airflow'
import { calibrateAxles, readForce, settlingOf, type Calibration } from '@core/calibration'
import { openExchangeText, type AirflowSession, type SquatSession } from '@core/schema'
import { covariance, exact, standardUncertainty, sum } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { makeProject } from '../../worlds/project'
import { WORLDS, type World } from '../../worlds/worlds'

const world = (name: string): World => WORLDS.find((each) => each.name === name)!

function read(name: string, seed: number) {
  const opening = openExchangeText(JSON.stringify(makeProject(world(name), seed).exchange))
  if (opening.kind !== 'opened') throw new Error(JSON.stringify(opening))
  const { chassis, sessions } = opening.document
  const squat = sessions.find((each): each is SquatSession => each.kind === 'squat')!
  const air = sessions.find((each): each is AirflowSession => each.kind === 'airflow')!
  const { front, rear } = calibrateAxles(squat, chassis)
  if (front.refused || rear.refused) throw new Error('no curve')
  const curves: { front: Calibration; rear: Calibration } = { front, rear }
  return { curves, settling: settlingOf(curves), runs: readSession(air, chassis, curves).runs }
}

const SEEDS = Array.from({ length: 20 }, (_, i) => i + 1)

describe('a car that comes to rest anew by 0.1 mm', () => {
  it('is seen by both axles, which move together, with degrees of freedom', () => {
    const found = SEEDS.flatMap((seed) => read('re-settling', seed).settling ?? [])
    expect(found.length).toBeGreaterThan(17)
    const mean = (of: (each: (typeof found)[number]) => number) =>
      found.reduce((sum, each) => sum + of(each), 0) / found.length
    expect(mean(({ uMm }) => uMm.front)).toBeGreaterThan(0.07)
    expect(mean(({ uMm }) => uMm.front)).toBeLessThan(0.13)
    expect(mean(({ sharedMm2 }) => sharedMm2)).toBeGreaterThan(0.5 * 0.1 ** 2)
    expect(found.every(({ dof }) => dof >= 3 && dof < 30)).toBe(true)
  })

  it('is in each run’s drop, on both axles together', () => {
    const { runs } = read('re-settling', 1)
    const { front, rear } = runs[0]!.axles
    const settled = (axle: typeof front) => axle.dropMm!.parts.filter(({ source }) => source.role === 'settling')
    // Two states with air against the zeros around them: more than 0.04 mm, where the gauge alone makes 0.03.
    expect(standardUncertainty({ value: 0, parts: settled(front) })).toBeGreaterThan(0.04)
    expect(covariance(front.dropMm!, rear.dropMm!)).toBeGreaterThan(0)
    expect(settled(front).every(({ source }) => Number.isFinite(source.dof))).toBe(true)
  })

  it('is in both curves together: by the steps and the zeros that both were read at', () => {
    const { curves } = read('re-settling', 1)
    const [front, rear] = [curves.front, curves.rear].map((curve) => readForce(curve, {
      dropMm: exact(1), branch: 'mid', touched: false,
    }).forceN!)
    const [one, other] = [standardUncertainty(front!), standardUncertainty(rear!)]
    // Moving together by more than twice what the gauges repeat, they correlate by far more than half.
    expect(covariance(front!, rear!) / (one * other)).toBeGreaterThan(0.6)
    expect(standardUncertainty(sum([front!, rear!]))).toBeGreaterThan(1.2 * Math.hypot(one, other))
  })

  it('is not found where the readings scatter as stated', () => {
    const found = SEEDS.filter((seed) => read('as assumed', seed).settling !== null)
    // 5 % of 20, by chance: 4 or more has a probability of 1.6 % (binomial, exact).
    expect(found.length).toBeLessThan(4)
  })
})
