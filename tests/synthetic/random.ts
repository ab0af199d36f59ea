/** Seeded draws for synthetic scenes: one generator per scene, so that each can be made again alone. */
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'
import { uniformInt } from 'pure-rand/distribution/uniformInt'

export interface Draw {
  /** Uniform between two bounds. */
  between: (low: number, high: number) => number
  /** Normal with mean 0. */
  normal: (sd: number) => number
  /** Whole number, both ends included. */
  whole: (low: number, high: number) => number
  pick: <T>(from: readonly T[]) => T
}

export function drawFrom(seed: number): Draw {
  const generator = xoroshiro128plus(seed)
  const unit = (): number => (uniformInt(generator, 0, 0x3fffffff) + 0.5) / 0x40000000
  const between = (low: number, high: number): number => low + (high - low) * unit()
  const whole = (low: number, high: number): number => uniformInt(generator, low, high)
  return {
    between,
    whole,
    normal: (sd) => sd * Math.sqrt(-2 * Math.log(unit())) * Math.cos(2 * Math.PI * unit()),
    pick: (from) => from[whole(0, from.length - 1)]!,
  }
}
