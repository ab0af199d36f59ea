/** What a configuration does at a speed, and over speeds. */
import { carMass } from '@core/airflow'
import { isThin, type Calibration } from '@core/calibration'
import { localGravity, perAxleOf } from '@core/chassis'
import type { Axle, Chassis } from '@core/schema'
import {
  combine, entered, lowEnd, overPositive, scaled, statementOf, sumClaims, times, timesPositive, untold, type Claim,
  type Uncertain,
} from '@core/uncertainty'
import { growthByPressure, type AxleModel } from './axleModel'
import { aboveGround, clearanceOf, heightAt, type AxleHeight } from './heights'
import { claAt } from './speedLaw'
import type { ConfigurationAero, HeightPoint, Prediction, SpeedLaw } from './types'

/** Curves of both axles, null where there is none. */
export type Curves = Readonly<Record<Axle, Calibration | null>>

/**
 * The axles of a configuration as they meet the road: pressed by all that the air does to the car, on tyres that
 * grow with speed where their growth was entered. A curve of too few loads to know its shape foretells no height.
 *
 * @param densityKgM3 of the air it is driven in; by default the mean of the configuration's runs
 */
export const axleModels = (
  aero: ConfigurationAero, curves: Curves, { tyres }: Pick<Chassis, 'tyres'>, densityKgM3 = aero.densityKgM3,
): Record<Axle, AxleModel | null> => perAxleOf((axle) => {
  const curve = curves[axle]
  if (!curve || isThin(curve)) return null
  const model: AxleModel = { curve, law: aero.whole.axles[axle] }
  const growth = tyres?.[axle].growthMmPerMs2
  if (!growth || growth.value === 0) return model
  return { ...model, growthMmPerPa: growthByPressure(entered(growth, 'tyre', `tyre:${axle}:growth`), densityKgM3) }
})

/** Half rho V squared, Pa, at an exactly known speed. */
export const pressureAt = (densityKgM3: Uncertain, speedMs: number): Uncertain =>
  combine(0.5 * densityKgM3.value * speedMs ** 2, [[densityKgM3, 0.5 * speedMs ** 2]])

/** Half rho V squared, Pa, at a speed that is itself uncertain. */
const pressureOf = (densityKgM3: Uncertain, speedMs: Uncertain): Uncertain =>
  scaled(times(densityKgM3, times(speedMs, speedMs)), 0.5)

/** A speed this share beyond a run's is still that run's: no anemometer tells them apart. */
const SAME_SPEED = 0.01

function axleAt(aero: ConfigurationAero, axle: Axle, model: AxleModel | null, pressurePa: Uncertain): AxleHeight {
  if (model) return heightAt(model, pressurePa)
  return {
    state: 'untold', dropMm: untold('missing', { code: 'noCurve', axle }), growthMm: null, downAtPa: null,
    forceN: timesPositive(aero.whole.axles[axle].claM2.claim, pressurePa),
  }
}

const isDown = ({ state }: AxleHeight): boolean => state === 'touching' || state === 'unstable'

/**
 * The load of the measure at hand on an axle. Once either end is down the law is left: the load is at
 * least what it was when the first end came down.
 */
function loadOf(
  aero: ConfigurationAero, law: SpeedLaw, axle: Axle, heights: Record<Axle, AxleHeight>, pressurePa: Uncertain,
): Claim {
  const down = [heights.front, heights.rear].filter(isDown)
  const own = heights[axle]
  if (down.length === 0 && aero.whole.axles[axle] === law) return own.forceN
  const drop = own.dropMm.kind === 'value' ? own.dropMm.value.value - (own.growthMm?.value ?? 0) : 0
  const cla = claAt(law, drop)
  if (down.length === 0) return timesPositive(cla, pressurePa)
  const reason = down.some(({ state }) => state === 'touching') ? 'touchedGround' as const : 'noFixedPoint' as const
  const low = lowEnd(cla)
  const first = down.flatMap(({ downAtPa }) => (downAtPa ? [downAtPa] : []))
    .reduce<Uncertain | null>((least, each) => (least === null || each.value < least.value ? each : least), null)
  if (!low || !first || first.value > pressurePa.value) return untold(reason, { code: 'onGround' })
  return { kind: 'atLeast', low: times(low, first), reason }
}

const outside = (claim: Claim, extrapolated: boolean): Claim =>
  (claim.kind === 'value' && extrapolated ? { ...claim, extrapolated: true } : claim)

/** True where a speed lies outside those of the configuration's runs. */
const isOutside = ({ total }: ConfigurationAero, speedMs: number): boolean =>
  speedMs > total.highMs * (1 + SAME_SPEED) || speedMs < total.lowMs * (1 - SAME_SPEED)

/**
 * What the tyres carry beside the weight at a road speed: the whole car's load, bodywork and all, the
 * ride height solved for. Once an end is down it is "at least"; outside the speeds of the runs it is
 * marked as extrapolated.
 *
 * @param speedMs above zero, with its own uncertainty
 */
export function wholeLoads(
  aero: ConfigurationAero, curves: Curves, chassis: Pick<Chassis, 'tyres'>, speedMs: Uncertain,
): { readonly axles: Readonly<Record<Axle, Claim>>; readonly total: Claim } {
  const pressurePa = pressureOf(aero.densityKgM3, speedMs)
  const models = axleModels(aero, curves, chassis)
  const extrapolated = isOutside(aero, speedMs.value)
  const heights = perAxleOf((axle) => axleAt(aero, axle, models[axle], pressurePa))
  const axles = perAxleOf((axle) =>
    outside(loadOf(aero, aero.whole.axles[axle], axle, heights, pressurePa), extrapolated))
  return { axles, total: sumClaims([axles.front, axles.rear]) }
}

/**
 * Load, ride height and clearance of a configuration at a speed (m/s, above zero), the height solved
 * for. Speeds outside those of its runs are marked as extrapolated.
 *
 * @param densityKgM3 by default the mean of the configuration's runs
 */
export function predict(
  aero: ConfigurationAero, curves: Curves, chassis: Chassis, speedMs: number, densityKgM3 = aero.densityKgM3,
): Prediction {
  return predictBy(axleModels(aero, curves, chassis, densityKgM3), aero, chassis, speedMs, densityKgM3)
}

function predictBy(
  models: Readonly<Record<Axle, AxleModel | null>>, aero: ConfigurationAero, chassis: Chassis, speedMs: number,
  densityKgM3: Uncertain,
): Prediction {
  const pressurePa = pressureAt(densityKgM3, speedMs)
  const extrapolated = isOutside(aero, speedMs)
  const heights = perAxleOf((axle) => axleAt(aero, axle, models[axle], pressurePa))
  const forces = perAxleOf((axle) => outside(loadOf(aero, aero.axles[axle], axle, heights, pressurePa), extrapolated))
  const total = sumClaims([forces.front, forces.rear])
  const mass = carMass(chassis)
  const weight = mass && times(mass, localGravity(chassis.place).ms2)
  const clearance = (axle: Axle): Claim => {
    const model = models[axle]
    const left = model && clearanceOf(model, heights[axle])
    return left ? aboveGround(left) : untold('missing', { code: 'noTouchDrop', axle })
  }
  return {
    speedMs, densityKgM3: densityKgM3.value, extrapolated,
    forceN: perAxleOf((axle) => statementOf(forces[axle])), totalN: statementOf(total),
    weightShare: statementOf(weight ? overPositive(total, weight) : untold('missing', { code: 'noMass' })),
    dropMm: perAxleOf((axle) => statementOf(outside(heights[axle].dropMm, extrapolated))),
    clearanceMm: perAxleOf((axle) => statementOf(outside(clearance(axle), extrapolated))),
    state: perAxleOf((axle) => heights[axle].state),
  }
}

/** Ride height over speeds, for drawing: from a standstill to `upToMs` in even steps. */
export function heightsOverSpeed(
  aero: ConfigurationAero, curves: Curves, chassis: Chassis, upToMs: number, count = 41,
): HeightPoint[] {
  const models = axleModels(aero, curves, chassis)
  return Array.from({ length: count }, (_, i) => {
    const speedMs = (upToMs * (i + 0.02)) / (count - 1 + 0.02)
    const { dropMm, clearanceMm, state } = predictBy(models, aero, chassis, speedMs, aero.densityKgM3)
    return { speedMs, dropMm, clearanceMm, state }
  })
}
