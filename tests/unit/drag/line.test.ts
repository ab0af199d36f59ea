/**
 * Drag by the pull of a line, by statics alone: a weight over a pulley pulls the car back as drag would, the line
 * holds it, and what is said must be that weight. Air density by the gas law of dry air and vapour; the budget's
 * parts are worked out here by hand, one by one.
 */
import { describe, expect, it } from 'vitest'
import { readSession } from '@core/airflow'
import { ASSUMED_ROLLING, readLines } from '@core/drag'
import type { BlowerRun, Chassis } from '@core/schema'
import { budget, covariance, type Told, type Uncertain } from '@core/uncertainty'
import { blower, chassis, curves, session } from '../airflow/bench'

const SPEED_MS = 12
const FALL_DEG = 8
const ANGLE = (FALL_DEG * Math.PI) / 180
const PULL_U = 0.02
/** Air of the bench's runs: 20 C, 101325 Pa, half saturated; vapour pressure at saturation 2339 Pa (steam tables). */
const VAPOUR_PA = 0.5 * 2339
const DENSITY = ((101_325 - VAPOUR_PA) / 287.05 + VAPOUR_PA / 461.5) / 293.15
const PRESSURE_PA = (DENSITY / 2) * SPEED_MS ** 2
const MASS_KG = 1.5
const G = 9.80665

/** Held by the line against a weight that pulls back; nothing presses the car down but the line. */
function heldAgainst(weightN: number, change: Partial<BlowerRun> & { id: string }, touched = false): BlowerRun {
  const pullN = weightN / Math.cos(ANGLE)
  const on = { air: 'on' as const, heights: [20, 20] as const, touched: { front: touched, rear: false } }
  return blower(change.id, SPEED_MS, [{ air: 'off', heights: [20, 20] }, on, { air: 'off', heights: [20, 20] }], {
    held: {
      how: 'line', hookXMm: { value: 0, u: 0 }, hookHeightMm: { value: 30, u: 0 }, fallDeg: { value: FALL_DEG, u: 2 },
      pullN: { value: pullN, u: PULL_U },
    },
    ...change,
  })
}

function told(runs: readonly BlowerRun[], rolling: number | null = 0.02, car: Chassis = chassis()) {
  return readAll(runs, rolling, car).runs
}

function readAll(runs: readonly BlowerRun[], rolling: number | null = 0.02, car: Chassis = chassis()) {
  const entered = session(runs)
  const { runs: results } = readSession(entered, car, curves(), { squatDatum: null })
  return readLines([{ session: entered, results }], car, rolling)
}

const valueOf = (said: Told | null): Uncertain => {
  if (said?.claim.kind !== 'value') throw new Error('no value')
  return said.claim.value
}
const partOf = (value: Uncertain, ...roles: string[]): number =>
  Math.hypot(...value.parts.filter(({ source }) => roles.includes(source.role)).map(({ contribution }) => contribution))
const wheelsOf = (value: Uncertain): number => partOf(value, 'lineRolling', 'wheelsHold')

describe('drag by the pull of a line', () => {
  it('is the weight that pulled back, whatever the line’s slope, and its area that over the pressure', () => {
    const [line] = told([heldAgainst(1.5, { id: 'one' })])
    expect(valueOf(line!.dragN).value).toBeCloseTo(1.5, 12)
    expect(valueOf(line!.cdaM2).value / (1.5 / PRESSURE_PA)).toBeCloseTo(1, 3)
    expect(line!.deviceM2).toBeNull()
  })

  it('has pull, slope and wheels in its budget, each as large as by hand', () => {
    const drag = valueOf(told([heldAgainst(1.5, { id: 'one' })])[0]!.dragN)
    expect(partOf(drag, 'linePull')).toBeCloseTo(PULL_U * Math.cos(ANGLE), 12)
    expect(partOf(drag, 'line')).toBeCloseTo(1.5 * Math.tan(ANGLE) * (2 * Math.PI) / 180, 12)
    // What presses is the weight and the line's own pull downwards; the curves read that from no drop at all.
    const downN = 1.5 * Math.tan(ANGLE)
    const least = 0.02 * (MASS_KG * G - downN) / Math.sqrt(3)
    expect(wheelsOf(drag)).toBeGreaterThanOrEqual(least)
    expect(wheelsOf(drag)).toBeLessThanOrEqual(0.02 * (MASS_KG * G + downN) / Math.sqrt(3))
    expect(budget(drag).map(({ group }) => group)).toContain('tyre')
  })

  it('takes a stated share of the load where no coast told the rolling', () => {
    const [byCoasts, assumed] = [0.01, null].map((rolling) => told([heldAgainst(1.5, { id: 'one' })], rolling)[0]!)
    expect([byCoasts!.rollingFrom, assumed!.rollingFrom]).toEqual(['coasts', 'assumed'])
    const ratio = wheelsOf(valueOf(assumed!.dragN)) / wheelsOf(valueOf(byCoasts!.dragN))
    expect(ratio).toBeCloseTo(ASSUMED_ROLLING / 0.01, 10)
  })

  it('of a device is less its control run; the anemometer’s scale counts for the difference alone', () => {
    const lines = told([heldAgainst(1.5, { id: 'device' }), heldAgainst(0.9, { id: 'bare', control: true })])
    const device = valueOf(lines.find(({ runId }) => runId === 'device')!.deviceM2)
    expect(device.value / (0.6 / PRESSURE_PA)).toBeCloseTo(1, 3)
    expect(lines[0]!.controlRunIds).toEqual(['bare'])
    // 2 % of speed is 4 % of pressure, and of a shared scale only that of the difference stays.
    expect(partOf(device, 'anemometer') / (0.04 * device.value)).toBeCloseTo(1, 2)
    expect(partOf(device, 'linePull') / (Math.SQRT2 * PULL_U * Math.cos(ANGLE) / PRESSURE_PA)).toBeCloseTo(1, 3)
    const [own, bare] = lines.map(({ cdaM2 }) => valueOf(cdaM2))
    expect(covariance(own!, bare!)).toBeGreaterThan(0)
  })

  it('is averaged over repeats: half of the wheels’ part is shared and stays, pulls average out', () => {
    const [setup] = readAll([1.5, 1.5, 1.5, 1.5].map((weightN, i) => heldAgainst(weightN, { id: `pull-${i}` }))).setups
    const [one, middle] = [valueOf(told([heldAgainst(1.5, { id: 'one' })])[0]!.cdaM2), valueOf(setup!.cdaM2)]
    expect(setup!.runIds).toHaveLength(4)
    expect(middle.value).toBeCloseTo(one.value, 12)
    expect(partOf(middle, 'linePull') / partOf(one, 'linePull')).toBeCloseTo(1 / 2, 10)
    expect(partOf(middle, 'wheelsHold') / partOf(one, 'wheelsHold')).toBeCloseTo(1, 10)
    expect(partOf(middle, 'pullScatter')).toBe(0)
  })

  it('says what repeats scatter beyond what each states', () => {
    const weights = [1.0, 2.0, 1.2, 1.8]
    const [setup] = readAll(weights.map((weightN, i) => heldAgainst(weightN, { id: `pull-${i}` })), 0.001).setups
    const area = valueOf(setup!.cdaM2)
    // Mean 1.5 N, sample variance 0.68/3 N^2; the pulls' own u, 0.02 N and less than that of the wheels, is small.
    const scatterM2 = Math.sqrt(0.68 / 3 / 4) / PRESSURE_PA
    expect(partOf(area, 'pullScatter') / scatterM2).toBeGreaterThan(0.98)
    expect(partOf(area, 'pullScatter') / scatterM2).toBeLessThanOrEqual(1)
    expect(area.parts.find(({ source }) => source.role === 'pullScatter')!.source.dof).toBe(3)
  })

  it('has no control where that one’s pull was not read', () => {
    const unread = heldAgainst(0.9, { id: 'bare', control: true, held: { how: 'wheelsLocked' } })
    const lines = told([heldAgainst(1.5, { id: 'device' }), unread])
    expect(lines.map(({ runId, deviceM2 }) => [runId, deviceM2])).toEqual([['device', null]])
  })

  it('shares its sources with the load that the line put on the axles', () => {
    const entered = session([heldAgainst(1.5, { id: 'one' })])
    const { runs } = readSession(entered, chassis(), curves(), { squatDatum: null })
    const [line] = readLines([{ session: entered, results: runs }], chassis(), 0.02).runs
    const drag = valueOf(line!.dragN)
    // By statics: the line pulls at 30 mm and falls; what it takes off the rear is its lever less its pull downwards.
    expect(valueOf(line!.pitchN.rear).value).toBeCloseTo((-1.5 * 30) / chassis().wheelbaseMm.value, 10)
    expect(valueOf(line!.pitchN.front).value)
      .toBeCloseTo((1.5 * 30) / chassis().wheelbaseMm.value + 1.5 * Math.tan(ANGLE), 10)
    expect(covariance(drag, runs[0]!.axles.rear.holdingN!)).not.toBe(0)
  })

  it('is not told of a car whose tray held it, too, nor without its mass or the air’s speed', () => {
    expect(told([heldAgainst(1.5, { id: 'one' }, true)])[0]).toMatchObject({ untold: 'trayDown', dragN: null, cdaM2: null })
    const massless = chassis({ massKg: null, cornerMassesKg: null })
    expect(told([heldAgainst(1.5, { id: 'one' })], 0.02, massless)[0]).toMatchObject({ untold: 'noMass', dragN: null })
    const still = heldAgainst(1.5, { id: 'one', traverse: { anemometerId: 'cups', points: [] } })
    expect(told([still])[0]).toMatchObject({ untold: 'noSpeed', cdaM2: null })
  })
})
