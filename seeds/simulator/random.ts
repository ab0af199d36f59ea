/** Seeded draws for the simulator, from pure-rand: apart from the product's own generator on purpose. */
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64'
import { uniformInt } from 'pure-rand/distribution/uniformInt'
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'

const WARM_UP = 16

/** Spreads neighbouring seeds over all 32 bits (the finaliser of MurmurHash3, public domain). */
function mixed(seed: number): number {
  let h = seed | 0
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b)
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35)
  return (h ^ (h >>> 16)) | 0
}

export class Draws {
  private readonly generator
  private spare: number | null = null

  /** Same seed, same draws. */
  constructor(seed: number) {
    this.generator = xoroshiro128plus(mixed(seed))
    // Neighbouring seeds start alike; a few draws take them apart.
    for (let i = 0; i < WARM_UP; i++) this.even()
  }

  /** Even in [0, 1). */
  even(): number {
    return uniformFloat64(this.generator)
  }

  /** Even between two bounds. */
  between(low: number, high: number): number {
    return low + (high - low) * this.even()
  }

  /** Whole number, both bounds included. */
  whole(low: number, high: number): number {
    return uniformInt(this.generator, low, high)
  }

  /** Normal with a mean and standard deviation (polar method of Marsaglia and Bray). */
  normal(mean = 0, deviation = 1): number {
    if (this.spare !== null) {
      const held = this.spare
      this.spare = null
      return mean + deviation * held
    }
    for (;;) {
      const a = 2 * this.even() - 1
      const b = 2 * this.even() - 1
      const square = a * a + b * b
      if (square === 0 || square >= 1) continue
      const factor = Math.sqrt((-2 * Math.log(square)) / square)
      this.spare = b * factor
      return mean + deviation * a * factor
    }
  }

  shuffled<T>(values: readonly T[]): T[] {
    const list = [...values]
    for (let i = list.length - 1; i > 0; i--) {
      const j = this.whole(0, i)
      ;[list[i], list[j]] = [list[j]!, list[i]!]
    }
    return list
  }
}
