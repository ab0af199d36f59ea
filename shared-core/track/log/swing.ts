/**
 * A swing of the level that comes back: the fall of the ground, felt once a lap, or a throttle that breathes.
 * Pieces cut across it scatter by the swing, which their mean does not, so that their scatter tells too much;
 * over whole swings it cancels. Whether there is one is told by the periodogram of the stretches, each with a
 * phase of its own, by the largest ordinate against the usual one (R. A. Fisher, Proc. R. Soc. A 125 (1929) 54).
 */
import { chiSquareUpper, median } from '@core/uncertainty'
import type { Driven } from './driven'
import type { RegularLog } from './types'

/** Blocks whose means stand for the signal, s: noise that is faster is of no account here. */
const BLOCK_S = 0.2
/** Shortest period looked for, s: below it pieces hold many swings anyway. */
const SHORTEST_S = 1.5
/** Longest stretch looked at, in blocks: a longer one is cut to so many from its beginning. */
const MOST_BLOCKS = 1500
/** A swing is taken as found where noise alone would show one like it in fewer logs than this. */
const FALSE_ALARM = 0.001
/** Frequencies looked at for each that the longest stretch can tell apart. */
const FINENESS = 8

/** Means of the blocks of a stretch, less their own mean. */
function blocksOf(raw: Float64Array, { from, to }: Driven, size: number): Float64Array {
  const count = Math.min(MOST_BLOCKS, Math.floor((to - from) / size))
  const out = new Float64Array(count)
  for (let block = 0; block < count; block++) {
    let sum = 0
    for (let i = from + block * size; i < from + (block + 1) * size; i++) sum += raw[i]!
    out[block] = sum / size
  }
  const mean = out.reduce((sum, each) => sum + each, 0) / Math.max(1, count)
  return out.map((each) => each - mean)
}

/** 2/n |sum x e^(-i w k)|^2: chi-square with two degrees of freedom times the variance, of white noise. */
function ordinate(values: Float64Array, radians: number): number {
  const [turnC, turnS] = [Math.cos(radians), Math.sin(radians)]
  let [c, s, real, imaginary] = [1, 0, 0, 0]
  for (const value of values) {
    real += value * c
    imaginary += value * s
    const turned = c * turnC - s * turnS
    s = s * turnC + c * turnS
    c = turned
  }
  return (2 * (real * real + imaginary * imaginary)) / values.length
}

/** Median of a chi-square (E. B. Wilson and M. M. Hilferty, Proc. Natl. Acad. Sci. 17 (1931) 684). */
const chiSquareMedian = (dof: number): number => dof * (1 - 2 / (9 * dof)) ** 3

/**
 * Samples of one swing, not rounded; null where noise alone would show as much, or no stretch holds two.
 *
 * @param raw the signal along the direction that matters
 * @param stretches driven at a level
 */
export function swingSamples(log: RegularLog, raw: Float64Array, stretches: readonly Driven[]): number | null {
  const size = Math.max(1, Math.round(BLOCK_S * log.rateHz))
  const blockS = size / log.rateHz
  const all = stretches.map((stretch) => blocksOf(raw, stretch, size))
  const longestS = Math.max(0, ...all.map((each) => each.length)) * blockS
  const [least, most] = [2 / longestS, 1 / SHORTEST_S]
  const count = Math.ceil((most - least) * longestS * FINENESS)
  if (!(count >= 2 * FINENESS)) return null
  // A stretch that is much shorter than the longest tells the low frequencies badly, and their noise too.
  const used = all.filter((each) => each.length * blockS >= longestS / 2)
  const step = (most - least) / count
  const powers = Array.from({ length: count + 1 }, (_, at) =>
    used.reduce((sum, values) => sum + ordinate(values, 2 * Math.PI * (least + at * step) * blockS), 0))
  const top = powers.reduce((best, power, at) => (power > powers[best]! ? at : best), 0)
  if (top === 0 || top === count) return null
  const dof = 2 * used.length
  const usual = median(powers) / chiSquareMedian(dof)
  const alarm = (count / FINENESS) * chiSquareUpper(powers[top]! / usual, dof)
  if (!(alarm < FALSE_ALARM)) return null
  const [a, b, c] = [powers[top - 1]!, powers[top]!, powers[top + 1]!]
  const shift = a - 2 * b + c === 0 ? 0 : (a - c) / (2 * (a - 2 * b + c))
  return log.rateHz / (least + (top + shift) * step)
}
