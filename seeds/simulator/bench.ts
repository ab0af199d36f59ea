/** The bench at work: weighs, loads, reads, rounds. Produces the documents that the app would store. */
import { normalGravity } from '@core/chassis'
import {
  CORNERS, SCHEMA_VERSION, type Chassis, type Corner, type Gauge, type PlacedLoad, type Reading, type SquatSession,
  type SquatStep,
} from '@core/schema'
import type { Draws } from './random'
import { Suspension } from './suspension'
import type { BenchTruth } from './truth'

/** Moments are counted on from here, one minute for each thing done. */
const BEGIN = Date.UTC(2031, 4, 4, 9, 0, 0)

/** Loads laid on for one step. */
export interface PlannedLoad {
  readonly loadId: string
  readonly xMm: number
  readonly yMm: number
  readonly uPlaceMm: number
}

export interface PlannedStep {
  readonly branch: SquatStep['branch']
  readonly ramp: number
  readonly placed: readonly PlannedLoad[]
}

export interface SquatPlan {
  readonly id: string
  readonly name: string
  readonly gaugeId: string
  readonly settle: SquatSession['setup']['settle']
  readonly order: SquatSession['setup']['order']
  readonly steps: readonly PlannedStep[]
  readonly readingsPerStep?: number
  readonly assumedFrictionN?: SquatSession['setup']['assumedFrictionN']
  readonly wished?: SquatSession['setup']['wished']
}

export type Forces = Readonly<Record<'front' | 'rear', number>>

/** The car on its two suspensions, and the instruments around it. */
export class Bench {
  readonly front: Suspension
  readonly rear: Suspension
  private minutes = 0
  private readonly laid = new Map<string, { xMm: number; yMm: number }>()
  private drift = 0

  constructor(readonly draws: Draws, readonly truth: BenchTruth, readonly chassis: Chassis) {
    this.front = new Suspension(truth.axles.front)
    this.rear = new Suspension(truth.axles.rear)
  }

  /** A moment later than all before. */
  moment(): string {
    this.minutes += 1
    return new Date(BEGIN + this.minutes * 60_000).toISOString()
  }

  gauge(gaugeId: string): Gauge {
    return this.chassis.gauges.find(({ id }) => id === gaugeId)!
  }

  /** What the scale shows for a true mass, kg. */
  weigh(trueKg: number): number {
    const { resolutionKg } = this.chassis.scales[0]!
    return rounded(trueKg / this.truth.scaleGain + this.draws.normal(0, this.truth.weighingKg), resolutionKg)
  }

  /** Puts axle forces on the car; settles under them where the builder does. */
  load(forces: Forces, settled: boolean): void {
    for (const axle of ['front', 'rear'] as const) {
      this[axle].apply(forces[axle])
      if (settled) this[axle].settle(forces[axle])
    }
  }

  /** Forces of loads lying on the car, with the placement errors of this laying down. */
  forcesOf(placed: readonly PlannedLoad[]): Forces & { readonly rollNmm: number } {
    const { gravityMs2, wheelbaseMm, loadsKg } = this.truth
    for (const key of [...this.laid.keys()]) {
      if (!placed.some((each) => keyOf(each) === key)) this.laid.delete(key)
    }
    let front = 0
    let rear = 0
    let rollNmm = 0
    for (const each of placed) {
      const key = keyOf(each)
      const held = this.laid.get(key) ?? {
        xMm: each.xMm + this.draws.normal(0, each.uPlaceMm), yMm: each.yMm + this.draws.normal(0, each.uPlaceMm),
      }
      this.laid.set(key, held)
      const weight = loadsKg[each.loadId]! * gravityMs2
      front += weight * (1 - held.xMm / wheelbaseMm)
      rear += (weight * held.xMm) / wheelbaseMm
      rollNmm += weight * held.yMm
    }
    return { front, rear, rollNmm }
  }

  /** Shows one corner's height or drop, mm. */
  shown(corner: Corner, gauge: Gauge, rollNmm = 0): number {
    const { truth, chassis } = this
    const station = chassis.stations[corner]
    const share = station.xMm / truth.wheelbaseMm
    const drop = this.front.dropMm() * (1 - share) + this.rear.dropMm() * share
      + (rollNmm / truth.rollStiffnessNmm) * station.yMm
    const from = gauge.reads === 'height' ? truth.restMm[corner] - drop : drop
    const shown = from * (1 + truth.gaugeScale) + truth.gaugeZeroMm + this.drift
      + this.draws.normal(0, truth.repeatabilityMm)
    return rounded(shown, gauge.resolutionMm)
  }

  /** Lets the zero creep by one step. */
  creep(): void {
    this.drift += this.truth.driftMmPerStep
  }

  readings(stepId: string, gauge: Gauge, count: number, rollNmm = 0): Reading[] {
    return Array.from({ length: count }, (_, n) => CORNERS.map((corner): Reading => ({
      id: `${stepId}-${corner.toLowerCase()}${n === 0 ? '' : `-${n + 1}`}`, stepId, corner, at: this.moment(),
      shownMm: this.shown(corner, gauge, rollNmm), from: { kind: 'gauge' }, corrections: [], setAside: null,
    }))).flat()
  }

  /** A whole squat test. The car is settled before the first zero, whatever the routine. */
  squat(plan: SquatPlan): SquatSession {
    const gauge = this.gauge(plan.gaugeId)
    const settled = plan.settle !== 'none'
    this.load({ front: 0, rear: 0 }, true)
    const steps: SquatStep[] = []
    const readings: Reading[] = []
    const createdAt = this.moment()
    plan.steps.forEach(({ branch, ramp, placed }, i) => {
      const id = `${plan.id}-step-${i + 1}`
      const forces = this.forcesOf(placed)
      this.load(forces, settled)
      steps.push({
        id, branch, ramp, placed: placed.map((each): PlacedLoad => ({ ...each })),
        touched: { front: this.front.touched(), rear: this.rear.touched() }, note: '', setAside: null,
      })
      readings.push(...this.readings(id, gauge, plan.readingsPerStep ?? 1, forces.rollNmm))
      this.creep()
    })
    this.load({ front: 0, rear: 0 }, true)
    return {
      schemaVersion: SCHEMA_VERSION, id: plan.id, chassisId: this.chassis.id, revision: 1, name: plan.name, note: '',
      createdAt, kind: 'squat',
      setup: {
        gaugeId: plan.gaugeId, settle: plan.settle, order: plan.order,
        assumedFrictionN: plan.assumedFrictionN ?? null, wished: plan.wished ?? null,
      },
      steps, readings, pictures: [],
    }
  }
}

const keyOf = ({ loadId, xMm, yMm }: PlannedLoad): string => `${loadId}@${xMm},${yMm}`

/** To the nearest step of an instrument, without the digits that binary fractions add. */
export function rounded(value: number, step: number): number {
  const digits = Math.max(0, Math.ceil(-Math.log10(step)) + 2)
  return Number((Math.round(value / step) * step).toFixed(digits))
}

/** Normal gravity of the chassis' place: the truth the simulated bench lives in. */
export const placeGravity = ({ place }: Chassis): number =>
  (place ? normalGravity(place.latitudeDeg, place.heightM) : 9.80665)

/**
 * A ladder of nested loads, each rung adding one, up and (with `down`) back, with a zero after every
 * ramp. `rungs`: load ids in the order they are added, split over positions by `place`.
 */
export function ladder(
  rungs: readonly (readonly PlannedLoad[])[], ramps: number, down: boolean,
): PlannedStep[] {
  const steps: PlannedStep[] = [{ branch: 'zero', ramp: 1, placed: [] }]
  const upTo = (count: number) => rungs.slice(0, count).flat()
  for (let ramp = 1; ramp <= ramps; ramp++) {
    for (let n = 1; n <= rungs.length; n++) steps.push({ branch: 'loading', ramp, placed: upTo(n) })
    if (down) for (let n = rungs.length - 1; n >= 1; n--) steps.push({ branch: 'unloading', ramp, placed: upTo(n) })
    steps.push({ branch: 'zero', ramp, placed: [] })
  }
  return steps
}
