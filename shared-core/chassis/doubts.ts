/**
 * Weights that can hardly be right: corners that do not add up to the car, a corner or a load far beyond
 * it, weighings of one load that disagree. Nothing is refused; each doubt says what stands against what.
 *
 * What counts as far beyond is common practice, no source: a corner of more than half the car, a load
 * heavier than the car, else several times the others.
 */
import { CORNERS, type Chassis, type Corner, type Load, type Weighing } from '@core/schema'
import { COVERAGE_FACTOR, median, standardUncertainty } from '@core/uncertainty'
import { scaleGain } from './scale'
import { cornerScale } from './statics'
import { swappedDigits } from './swappedDigits'

export type WeightDoubt =
  | { readonly code: 'cornersAgainstMass'; readonly sumKg: number; readonly massKg: number; readonly uKg: number }
  | { readonly code: 'cornerBeyondCar'; readonly corner: Corner; readonly cornerKg: number; readonly carKg: number }
  | { readonly code: 'cornerBeyondOthers'; readonly corner: Corner; readonly cornerKg: number; readonly othersKg: number }
  | { readonly code: 'loadBeyondCar'; readonly loadId: string; readonly loadKg: number; readonly carKg: number }
  | { readonly code: 'loadBeyondOthers'; readonly loadId: string; readonly loadKg: number; readonly othersKg: number }
  | {
      readonly code: 'weighingsDisagree'
      readonly loadId: string
      /** The weighing that stands apart from the others; null where two stand against each other. */
      readonly weighingId: string | null
      readonly oneKg: number
      readonly otherKg: number
      /** What the first would be with two digits swapped, where that agrees with the other; else null. */
      readonly swappedKg: number | null
    }

const CORNER_SHARE = 0.5
const CORNER_TIMES = 3
const LOAD_TIMES = 8
/** Weighings agree within three steps of the display, half a percent, or four times what is usual here. */
const AGREE_STEPS = 3
const AGREE_SHARE = 0.005
const AGREE_TIMES = 4

/**
 * All doubts about the weights of a chassis, the car's first.
 *
 * @param displayKg mass of one unit the builder reads and types in, kg: digits are swapped in it
 */
export function weightDoubts(chassis: Chassis, displayKg = 0.001): WeightDoubt[] {
  return [
    ...sumDoubts(chassis), ...cornerDoubts(chassis), ...loadDoubts(chassis),
    ...chassis.loads.flatMap((load) => disagreements(chassis, load, displayKg)),
  ]
}

/** Sum of the corners, kg; null where one of them is not read yet. */
function sumOfCorners({ cornerMassesKg: corners }: Chassis): number | null {
  if (!corners || CORNERS.some((corner) => corners[corner] === 0)) return null
  return CORNERS.reduce((sum, corner) => sum + corners[corner], 0)
}

const massOfCar = (chassis: Chassis): number | null => chassis.massKg?.value ?? sumOfCorners(chassis)

function sumDoubts(chassis: Chassis): WeightDoubt[] {
  const sumKg = sumOfCorners(chassis)
  if (sumKg === null || !chassis.massKg) return []
  const scale = cornerScale(chassis)
  const gain = scale ? scaleGain(scale).gain : null
  // The gain is shared by the four corners; whether the car's mass was read on the same scale is not known.
  const ofGain = gain ? sumKg * Math.hypot(standardUncertainty(gain), gain.value - 1) : 0
  const rounding = Math.sqrt(CORNERS.length / 12) * (scale?.resolutionKg ?? 0)
  const { value: massKg, u } = chassis.massKg
  const uKg = Math.hypot(ofGain, rounding, u)
  return Math.abs(sumKg - massKg) > COVERAGE_FACTOR * uKg ? [{ code: 'cornersAgainstMass', sumKg, massKg, uKg }] : []
}

function cornerDoubts(chassis: Chassis): WeightDoubt[] {
  const corners = chassis.cornerMassesKg
  if (!corners) return []
  return CORNERS.flatMap((corner): WeightDoubt[] => {
    const cornerKg = corners[corner]
    const carKg = chassis.massKg?.value
    if (carKg !== undefined) {
      return cornerKg > CORNER_SHARE * carKg ? [{ code: 'cornerBeyondCar', corner, cornerKg, carKg }] : []
    }
    const othersKg = median(CORNERS.filter((each) => each !== corner && corners[each] > 0).map((each) => corners[each]))
    return cornerKg > CORNER_TIMES * othersKg ? [{ code: 'cornerBeyondOthers', corner, cornerKg, othersKg }] : []
  })
}

function loadDoubts(chassis: Chassis): WeightDoubt[] {
  const masses = new Map(chassis.loads.map((load) => [load.id, median(standing(load).map((each) => each.massKg))]))
  const carKg = massOfCar(chassis)
  return chassis.loads.flatMap(({ id: loadId }): WeightDoubt[] => {
    const loadKg = masses.get(loadId) ?? NaN
    if (carKg !== null) return loadKg > carKg ? [{ code: 'loadBeyondCar', loadId, loadKg, carKg }] : []
    const others = [...masses].filter(([id, kg]) => id !== loadId && kg > 0).map(([, kg]) => kg)
    const othersKg = others.length > 1 ? median(others) : NaN
    return loadKg > LOAD_TIMES * othersKg ? [{ code: 'loadBeyondOthers', loadId, loadKg, othersKg }] : []
  })
}

function disagreements(chassis: Chassis, load: Load, displayKg: number): WeightDoubt[] {
  return chassis.scales.flatMap(({ id, resolutionKg }): WeightDoubt[] => {
    const own = standing(load).filter((each) => each.scaleId === id)
    const shown = own.map((each) => each.massKg)
    const limitKg = Math.max(
      AGREE_STEPS * resolutionKg, AGREE_SHARE * median(shown), AGREE_TIMES * usualRange(chassis, load.id, id),
    )
    if (own.length < 2 || rangeOf(shown) <= limitKg * (1 + 1e-9)) return []
    const apart = standsApart(own, limitKg)
    const oneKg = apart?.massKg ?? Math.max(...shown)
    const otherKg = apart ? median(shown) : Math.min(...shown)
    const swappedKg = swappedDigits(oneKg, { near: otherKg, within: limitKg, displayKg, resolutionKg })
    return [{ code: 'weighingsDisagree', loadId: load.id, weighingId: apart?.id ?? null, oneKg, otherKg, swappedKg }]
  })
}

/** The one weighing without which all agree; null with two, or where several disagree. */
function standsApart(weighings: readonly Weighing[], limitKg: number): Weighing | null {
  if (weighings.length < 3) return null
  const agreeing = (without: Weighing): boolean =>
    rangeOf(weighings.filter((each) => each !== without).map((each) => each.massKg)) <= limitKg
  return weighings.find(agreeing) ?? null
}

/** How far weighings of another load on this scale usually lie apart, kg: the median, which one slip does not move. */
function usualRange(chassis: Chassis, loadId: string, scaleId: string): number {
  const ranges = chassis.loads.filter(({ id }) => id !== loadId)
    .map((load) => standing(load).filter((each) => each.scaleId === scaleId).map((each) => each.massKg))
    .filter((shown) => shown.length > 1).map(rangeOf)
  return ranges.length > 0 ? median(ranges) : 0
}

const standing = ({ weighings }: Load): Weighing[] => weighings.filter(({ setAside }) => setAside === null)
const rangeOf = (values: readonly number[]): number => Math.max(...values) - Math.min(...values)
