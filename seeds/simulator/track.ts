/** Laps of a constant circle: grip that grows with the load the air adds. */
import { SCHEMA_VERSION, type CircleRun, type TrackRun, type TrackSession } from '@core/schema'
import type { Bench } from './bench'

export interface TrueGrip {
  /** Friction at the static weight. */
  readonly mu: number
  /** mu falls with load as (W/W0)^-sensitivity. */
  readonly sensitivity: number
}

export interface CirclePlan {
  readonly id: string
  readonly name: string
  readonly configurationId: string
  readonly order: number
  readonly radiusM: number
  readonly radiusUM: number
  readonly laps: number
  /** Scatter of a lap time by the driver, relative. */
  readonly driverShare: number
  readonly timeUS: number
  readonly grip: TrueGrip
}

/** Acceleration held on the circle, m/s2: the fixed point of grip and downforce. */
export function circleAcceleration(bench: Bench, plan: Pick<CirclePlan, 'configurationId' | 'radiusM' | 'grip'>): number {
  const { massKg, gravityMs2, densityKgM3, devices, bareClAM2 } = bench.truth
  const device = devices.find((each) => each.configurationId === plan.configurationId)
  const clA = (['front', 'rear'] as const).reduce((sum, axle) => sum + bareClAM2[axle] + (device?.clAM2[axle] ?? 0), 0)
  const weight = massKg * gravityMs2
  let a = plan.grip.mu * gravityMs2
  for (let i = 0; i < 200; i++) {
    const load = weight + 0.5 * densityKgM3 * a * plan.radiusM * clA
    a = (plan.grip.mu * (load / weight) ** -plan.grip.sensitivity * load) / massKg
  }
  return a
}

export function circleRun(bench: Bench, plan: CirclePlan): CircleRun {
  const a = circleAcceleration(bench, plan)
  const lap = 2 * Math.PI * Math.sqrt(plan.radiusM / a)
  return {
    kind: 'circle', id: plan.id, name: plan.name, configurationId: plan.configurationId, order: plan.order,
    surfaceTemperatureK: 299.15, tyreNote: '', note: '', setAside: null,
    radiusM: { value: plan.radiusM, u: plan.radiusUM }, uTimeS: plan.timeUS,
    lapsS: Array.from({ length: plan.laps }, (_, i) => ({
      id: `${plan.id}-lap-${i + 1}`, setAside: null,
      timeS: Number(
        (lap * (1 + bench.draws.normal(0, plan.driverShare)) + bench.draws.normal(0, plan.timeUS)).toFixed(3),
      ),
    })),
  }
}

export function trackSession(
  bench: Bench, id: string, name: string, tyreLaw: TrackSession['tyreLaw'], runs: readonly TrackRun[],
): TrackSession {
  return {
    schemaVersion: SCHEMA_VERSION, id, chassisId: bench.chassis.id, revision: 1, name, note: '',
    createdAt: bench.moment(), kind: 'track', tyreLaw, runs: [...runs],
  }
}
