/** Seeded chance for the worlds: a small generator of its own, so that nothing is drawn as the analysis would. */

export class Chance {
  private state: number
  private spare: number | null = null

  constructor(seed: number) {
    this.state = seed >>> 0
    for (let i = 0; i < 8; i++) this.even()
  }

  /** Even from 0 up to 1 (T. Ettinger's mulberry32, from memory). */
  even(): number {
    this.state = (this.state + 0x6d2b79f5) | 0
    let t = Math.imul(this.state ^ (this.state >>> 15), 1 | this.state)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.even()
  }

  /** Normal, by the polar method (G. Marsaglia and T. A. Bray, SIAM Rev. 6 (1964) 260). */
  normal(mean: number, deviation: number): number {
    if (this.spare !== null) {
      const held = this.spare
      this.spare = null
      return mean + deviation * held
    }
    for (;;) {
      const [x, y] = [2 * this.even() - 1, 2 * this.even() - 1]
      const square = x * x + y * y
      if (square === 0 || square >= 1) continue
      const factor = Math.sqrt((-2 * Math.log(square)) / square)
      this.spare = y * factor
      return mean + deviation * x * factor
    }
  }
}
