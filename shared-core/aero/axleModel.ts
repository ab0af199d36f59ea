/**
 * An axle at work: its measured curve, the law of the load on it, and what else decides how far its end of
 * the tray is from the ground: tyres that grow with speed, and, for a question, other springs.
 */
import { dropAt, plainDropAt, stiffnessAt, type Calibration } from '@core/calibration'
import { combine, over, scaled, times, type Uncertain } from '@core/uncertainty'
import type { SpeedLaw } from './types'

/**
 * Springs other than those the curve was measured with, their collars set to the same ride height: what
 * holds the axle there before it moves (`preloadN`) stays, and every newton beyond moves it by 1 / ratio
 * of what was measured. Motion ratio, bushes and the bend of the curve are those of the car.
 */
export interface OtherSprings { readonly ratio: Uncertain; readonly preloadN: Uncertain }

export interface AxleModel {
  readonly curve: Calibration
  readonly law: SpeedLaw
  /** Rise of the hubs by the growth of the tyres over the dynamic pressure, mm/Pa; left out where nobody entered it. */
  readonly growthMmPerPa?: Uncertain
  readonly other?: OtherSprings
}

/** Growth by squared speed, mm/(m/s)^2, as growth by dynamic pressure: V^2 = 2 q / rho. */
export const growthByPressure = (growthMmPerMs2: Uncertain, densityKgM3: Uncertain): Uncertain =>
  scaled(over(growthMmPerMs2, densityKgM3), 2)

/** Rise of the hubs at a dynamic pressure, mm; null where no growth is known. */
export const growthAt = ({ growthMmPerPa }: AxleModel, pressurePa: Uncertain): Uncertain | null =>
  growthMmPerPa ? times(growthMmPerPa, pressurePa) : null

/** Drop of the axle line against its hubs at a force, mm, on the settled curve. */
export function dropOn({ curve, other }: AxleModel, forceN: number): Uncertain {
  const beyond = other ? forceN - other.preloadN.value : 0
  if (!other || beyond <= 0) return dropAt(curve, forceN)
  const { ratio, preloadN } = other
  const measured = dropAt(curve, preloadN.value + beyond / ratio.value)
  const perNewton = 1 / stiffnessAt(curve, measured.value).value
  return combine(measured.value, [
    [measured, 1], [ratio, (-perNewton * beyond) / ratio.value ** 2], [preloadN, perNewton * (1 - 1 / ratio.value)],
  ])
}

/** The value of `dropOn` alone, mm: for a search along the curve. */
export function plainDropOn({ curve, other }: AxleModel, forceN: number): number {
  const beyond = other ? forceN - other.preloadN.value : 0
  return plainDropAt(curve, !other || beyond <= 0 ? forceN : other.preloadN.value + beyond / other.ratio.value)
}

/** Stiffness at a drop, N/mm. */
export function stiffnessOn({ curve, other }: AxleModel, dropMm: number): number {
  return stiffnessAt(curve, dropMm).value * (other?.ratio.value ?? 1)
}

/** Force at a drop, N, with its uncertainty: the inverse of the curve as drawn. */
export function forceOn(model: AxleModel, dropMm: Uncertain): Uncertain {
  const forceN = solveRising((force) => plainDropOn(model, force), dropMm.value, 0, reachOf(model))
  const stiffness = stiffnessOn(model, dropMm.value)
  return combine(forceN, [[dropOn(model, forceN), -stiffness], [dropMm, stiffness]])
}

/** Force up to which the curve is walked: past its range only as far as touching may need, and grown tyres. */
export function reachOf({ curve: { rangeN, rangeMm, touchMm }, growthMmPerPa, other }: AxleModel): number {
  const reach = rangeN * Math.max(1, touchMm ? (2 * touchMm.value) / rangeMm : 1) * 2
  return reach * Math.max(1, other?.ratio.value ?? 1) * (growthMmPerPa ? 2 : 1)
}

/** The x from low to high at which a rising function has this value. */
export function solveRising(of: (x: number) => number, aim: number, low: number, high: number): number {
  let [below, above] = [low, high]
  for (let i = 0; i < 80 && above - below > 1e-12 * high; i++) {
    const middle = (below + above) / 2
    if (of(middle) < aim) below = middle
    else above = middle
  }
  return (below + above) / 2
}
