/**
 * A slalom by its half-cycles: each swing to one side is fitted by half a sine between the places where
 * the signal changes sides, and its amplitude is the level (weave test, ISO 13674-1). An amplitude is
 * linear in the signal, so noise does not lift it as it lifts a peak that was looked for.
 */
import { median } from '@core/uncertainty'
import { movingMean } from './driven'
import type { HeldWindow, RegularLog } from './types'

/** A swing counts as a change of sides where it passes this share of the usual swing on both. */
const PASSES = 0.25
/** A half-cycle this many times longer or shorter than the usual one is none of the slalom. */
const ODD_LENGTH = 1.6

interface Crossing { readonly at: number; readonly towards: 1 | -1 }

/** Half-cycles of a log, in the order driven; `coneSpacingM` gives each its road speed. */
export function halfCycles(
  log: RegularLog, filtered: Float64Array, raw: Float64Array, coneSpacingM: number | null, direction: string,
): HeldWindow[] {
  const usual = usualSwing(log, filtered)
  if (!(usual > 0)) return []
  return log.segments.flatMap(({ from, to, startS }) => {
    const crossings = crossingsOf(filtered, from, to, PASSES * usual)
    const lengths = crossings.slice(1).map(({ at }, i) => at - crossings[i]!.at)
    if (lengths.length < 3) return []
    const length = median(lengths)
    return crossings.flatMap((crossing, i): HeldWindow[] => {
      const around = [i - 1, i, i + 1, i + 2].map((at) => crossings[at])
      if (around.some((each) => each === undefined)) return []
      const four = around as Crossing[]
      const steps = [1, 2, 3].map((at) => four[at]!.at - four[at - 1]!.at)
      if (steps.some((step) => step > ODD_LENGTH * length || step < length / ODD_LENGTH)) return []
      const sign = crossing.towards
      if (direction !== 'either' && (sign === 1) !== (direction === 'positive')) return []
      // Places and length from four crossings: noise moves each of them.
      const half = (four[3]!.at - four[0]!.at) / 3
      const middle = four.reduce((sum, { at }) => sum + at, 0) / 4
      return [swing(log, filtered, raw, { middle, half, sign, from, startS, coneSpacingM })]
    })
  })
}

/** The usual height of a swing: median of the largest values of stretches as long as a slow one, not the rest. */
function usualSwing(log: RegularLog, filtered: Float64Array): number {
  const square = movingMean(log, filtered.map((value) => value * value), Math.max(3, Math.round(2 * log.rateHz)))
  let most = 0
  for (const value of square) most = Math.max(most, value)
  const high = square.filter((value) => value > 0.25 * most)
  const some = high.filter((_, i) => i % Math.ceil(high.length / 5000) === 0)
  return some.length === 0 ? 0 : Math.sqrt(2 * median([...some]))
}

/** Where the filtered signal changes sides, as places between samples. */
function crossingsOf(filtered: Float64Array, from: number, to: number, height: number): Crossing[] {
  const found: Crossing[] = []
  let side = 0
  let zeroAt = from
  for (let i = from + 1; i < to; i++) {
    const [a, b] = [filtered[i - 1]!, filtered[i]!]
    if (a !== b && a * b <= 0) zeroAt = i - 1 + a / (a - b)
    const now = b > height ? 1 : b < -height ? -1 : 0
    if (now === 0 || now === side) continue
    found.push({ at: zeroAt, towards: now })
    side = now
  }
  return found
}

interface Swing {
  readonly middle: number
  readonly half: number
  readonly sign: 1 | -1
  readonly from: number
  readonly startS: number
  readonly coneSpacingM: number | null
}

/** Amplitude of one swing by least squares on half a sine. */
function swing(
  log: RegularLog, filtered: Float64Array, raw: Float64Array,
  { middle, half, sign, from, startS, coneSpacingM }: Swing,
): HeldWindow {
  const [first, last] = [Math.ceil(middle - half / 2), Math.floor(middle + half / 2)]
  const shape = (i: number): number => Math.cos((Math.PI * (i - middle)) / half)
  let [cross, square, peak, rest] = [0, 0, -Infinity, 0]
  for (let i = first; i <= last; i++) {
    cross += raw[i]! * sign * shape(i)
    square += shape(i) ** 2
    peak = Math.max(peak, filtered[i]! * sign)
  }
  const levelMs2 = cross / square
  for (let i = first; i <= last; i++) rest += (raw[i]! * sign - levelMs2 * shape(i)) ** 2
  const dof = Math.max(1, last - first)
  const halfS = half / log.rateHz
  return {
    fromS: startS + (first - from) / log.rateHz, toS: startS + (last - from) / log.rateHz, sign, levelMs2,
    uMs2: Math.sqrt(rest / dof / square), dof, heldMs2: levelMs2, peakMs2: peak, leftOut: 0,
    speedMs: coneSpacingM === null ? speedOver(log, first, last) : coneSpacingM / halfS,
  }
}

function speedOver({ speedMs }: RegularLog, first: number, last: number): number | null {
  if (!speedMs) return null
  return speedMs.subarray(first, last + 1).reduce((sum, each) => sum + each, 0) / (last + 1 - first)
}
