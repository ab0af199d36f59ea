/** The truth behind a simulated bench: what no instrument shows exactly. */
import type { Axle, Chassis, Corner } from '@core/schema'
import type { Draws } from './random'
import type { TrueAxle } from './suspension'

/** What is true of one bodywork configuration. */
export interface TrueDevice {
  readonly configurationId: string
  /** Downforce coefficient x area, m2, per axle, of the device alone; + presses down. */
  readonly clAM2: Readonly<Record<Axle, number>>
}

export interface BenchTruth {
  readonly gravityMs2: number
  readonly wheelbaseMm: number
  readonly axles: Readonly<Record<Axle, TrueAxle>>
  /** Roll moment per roll angle, N mm/rad. */
  readonly rollStiffnessNmm: number
  /** True mass = shown mass x gain. */
  readonly scaleGain: number
  /** Standard deviation of one weighing before rounding, kg. */
  readonly weighingKg: number
  /** Shown height = true height x (1 + scale) + zero. */
  readonly gaugeScale: number
  readonly gaugeZeroMm: number
  /** Standard deviation of one reading, mm: suspension and gauge together, before rounding. */
  readonly repeatabilityMm: number
  /** How far the gauge's zero (or the car's rest) moves from one step to the next, mm. */
  readonly driftMmPerStep: number
  readonly loadsKg: Readonly<Record<string, number>>
  /** Rest height of each corner, mm. */
  readonly restMm: Readonly<Record<Corner, number>>
  readonly massKg: number
  readonly cgHeightMm: number
  /** Force of the jet on the bare bodywork by its dynamic pressure, m2 (ClA of what the control run sees). */
  readonly bareClAM2: Readonly<Record<Axle, number>>
  readonly devices: readonly TrueDevice[]
  /** True speed = shown speed x factor. */
  readonly anemometerFactor: number
  readonly densityKgM3: number
}

/** A bench's shared errors, drawn anew from what its profile states. */
export function drawShared(draws: Draws, chassis: Chassis, gaugeId: string) {
  const gauge = chassis.gauges.find(({ id }) => id === gaugeId)!
  const scale = chassis.scales[0]!
  return {
    scaleGain: draws.normal(1, scale.gainU),
    gaugeScale: draws.normal(0, gauge.scaleU),
    gaugeZeroMm: draws.normal(0, gauge.zeroUMm),
    wheelbaseMm: draws.normal(chassis.wheelbaseMm.value, chassis.wheelbaseMm.u),
  }
}
