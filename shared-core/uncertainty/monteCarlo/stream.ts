/**
 * Seeded random draws. The generator is sfc32 (C. Doty-Humphrey, PractRand: three words of state
 * and a counter, period at least 2^32 for each of its starts); a start is made of a seed and a stream
 * number, so that workers can share one run's streams and the result does not depend on how many
 * they are. Normals by the ziggurat of Marsaglia and Tsang (J. Stat. Softw. 5 (2000) 8), with layer
 * and place taken from different bits; gammas by Marsaglia and Tsang (ACM Trans. Math. Softw. 26
 * (2000) 363).
 */

const LAYERS = 256
/** Where the ziggurat's tail begins, and the area of each layer (published with the method). */
const TAIL = 3.6541528853610088
const AREA = 0.00492867323399
/** Places in a layer: 24 bits, signed, at half steps so that the mean is exactly 0. */
const PLACES = 2 ** 23
const ROOT_12 = Math.sqrt(12)

/** Layer widths per place, places that need no test, and densities at the layers' edges. */
const width = new Float64Array(LAYERS)
const sure = new Float64Array(LAYERS)
const edge = new Float64Array(LAYERS + 1)
{
  const density = (x: number) => Math.exp(-0.5 * x * x)
  const at = new Float64Array(LAYERS + 1)
  // at[0] is the width of the base layer as if it were a rectangle; at[1] its true edge.
  at[0] = AREA / density(TAIL)
  at[1] = TAIL
  for (let i = 2; i < LAYERS; i++) at[i] = Math.sqrt(-2 * Math.log(AREA / at[i - 1]! + density(at[i - 1]!)))
  at[LAYERS] = 0
  for (let i = 0; i < LAYERS; i++) {
    width[i] = at[i]! / PLACES
    sure[i] = (at[i + 1]! / at[i]!) * PLACES
    edge[i] = density(at[i]!)
  }
  edge[LAYERS] = 1
}

/** One stream of draws. Same seed and stream, same draws. */
export class Stream {
  private readonly state = new Int32Array(4)

  /** Both whole numbers from 0 to 2^32 - 1. */
  constructor(seed: number, stream: number) {
    const { state } = this
    state[0] = seed
    state[1] = stream
    state[2] = 0x9e3779b9
    state[3] = 1
    for (let round = 0; round < 20; round++) this.next()
  }

  /** Next 32 bits, as a signed number. */
  next(): number {
    const { state } = this
    const b = state[1]!
    const c = state[2]!
    const t = (((state[0]! + b) | 0) + state[3]!) | 0
    state[3] = (state[3]! + 1) | 0
    state[0] = b ^ (b >>> 9)
    state[1] = (c + (c << 3)) | 0
    state[2] = (((c << 21) | (c >>> 11)) + t) | 0
    return t
  }

  /** Uniform in (0, 1), never either end; 32 bits. */
  uniform(): number {
    return ((this.next() >>> 0) + 0.5) / 4294967296
  }

  /** Standard normal. */
  normal(): number {
    for (;;) {
      const bits = this.next()
      const layer = bits & 255
      const place = (bits >> 8) + 0.5
      const x = place * width[layer]!
      if (Math.abs(place) < sure[layer]!) return x
      if (layer === 0) return place > 0 ? this.tail() : -this.tail()
      if (edge[layer]! + this.uniform() * (edge[layer + 1]! - edge[layer]!) < Math.exp(-0.5 * x * x)) return x
    }
  }

  /** Normal beyond the ziggurat's last layer (G. Marsaglia, Technometrics 6 (1964) 101). */
  private tail(): number {
    for (;;) {
      const x = -Math.log(this.uniform()) / TAIL
      const y = -Math.log(this.uniform())
      if (2 * y > x * x) return TAIL + x
    }
  }

  /** Gamma with this shape > 0 and scale 1. */
  gamma(shape: number): number {
    if (shape < 1) return this.gamma(shape + 1) * this.uniform() ** (1 / shape)
    const d = shape - 1 / 3
    const c = 1 / Math.sqrt(9 * d)
    for (;;) {
      const x = this.normal()
      const v = (1 + c * x) ** 3
      if (v <= 0) continue
      if (Math.log(this.uniform()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v
    }
  }

  /**
   * Fills out[from .. from + count) with standard normals. The generator's state lives in local
   * variables here, which is what makes a million trials quick.
   */
  fillNormal(out: Float64Array, from: number, count: number): void {
    const { state } = this
    let a = state[0]!
    let b = state[1]!
    let c = state[2]!
    let d = state[3]!
    for (let i = from; i < from + count; i++) {
      const bits = (((a + b) | 0) + d) | 0
      d = (d + 1) | 0
      a = b ^ (b >>> 9)
      b = (c + (c << 3)) | 0
      c = (((c << 21) | (c >>> 11)) + bits) | 0
      const layer = bits & 255
      const place = (bits >> 8) + 0.5
      if (Math.abs(place) < sure[layer]!) {
        out[i] = place * width[layer]!
        continue
      }
      state[0] = a
      state[1] = b
      state[2] = c
      state[3] = d
      out[i] = this.unsure(layer, place)
      a = state[0]!
      b = state[1]!
      c = state[2]!
      d = state[3]!
    }
    state[0] = a
    state[1] = b
    state[2] = c
    state[3] = d
  }

  /** Finishes a draw that fell outside the sure part of its layer. */
  private unsure(layer: number, place: number): number {
    if (layer === 0) return place > 0 ? this.tail() : -this.tail()
    const x = place * width[layer]!
    const accepted = edge[layer]! + this.uniform() * (edge[layer + 1]! - edge[layer]!) < Math.exp(-0.5 * x * x)
    return accepted ? x : this.normal()
  }

  /** Fills with rectangular draws of mean 0 and variance 1. */
  fillRectangular(out: Float64Array, from: number, count: number): void {
    for (let i = from; i < from + count; i++) out[i] = ROOT_12 * (this.uniform() - 0.5)
  }

  /** Fills with the factors sqrt(dof/chi-square) that turn standard normals into Student's t. */
  fillScale(out: Float64Array, from: number, count: number, dof: number): void {
    for (let i = from; i < from + count; i++) out[i] = Math.sqrt(dof / (2 * this.gamma(dof / 2)))
  }
}
