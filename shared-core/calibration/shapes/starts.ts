/**
 * Start values, found by the code: closed-form weighted lines and parabolas, and for knees a scan
 * of their places in which each line costs a few operations (sums over the sorted readings).
 */
import { solveSquare } from '@core/linear'
import type { Shape } from '../types'
import type { ShapeSpan } from './types'

/** Readings as the start values see them: elastic force (friction already taken off), drop, weight of the drop. */
export interface StartData {
  readonly elasticN: Float64Array
  readonly dropMm: Float64Array
  readonly weight: Float64Array
}

const SCAN_STEPS = 40
const PAIR_STEPS = 16
/** Further starts are tried at knees at least this share of the range from the better ones. */
const APART = 0.11
const MOST_STARTS = 3

/** Start vectors for a shape, best first; empty where the readings show no such curve. */
export function startsFor(shape: Shape, data: StartData, span: ShapeSpan): number[][] {
  const rate = lineRate(data)
  if (!(rate > 0)) return []
  switch (shape) {
    case 'linear': return [[rate]]
    case 'progressive': return [progressiveStart(data, span, rate)]
    case 'cubic': return [cubicStart(data, span, rate)]
    case 'threshold': return thresholdStarts(data, span)
    case 'stop': return kneeStarts(data, span, false)
    case 'thresholdStop': return kneeStarts(data, span, true)
  }
}

function lineRate({ elasticN, dropMm, weight }: StartData): number {
  let tt = 0
  let td = 0
  for (let i = 0; i < weight.length; i++) {
    tt += weight[i]! * elasticN[i]! ** 2
    td += weight[i]! * elasticN[i]! * dropMm[i]!
  }
  return tt / td
}

/**
 * Weighted polynomial of the force in the drop, without constant: coefficients of d, d^2, ... They are
 * not numbers where the readings do not tell them.
 */
function polynomial({ elasticN, dropMm, weight }: StartData, degree: number, scale: number): number[] {
  const normal = Array.from({ length: degree }, () => new Array<number>(degree).fill(0))
  const right = new Array<number>(degree).fill(0)
  for (let i = 0; i < weight.length; i++) {
    const u = dropMm[i]! / scale
    for (let a = 0; a < degree; a++) {
      for (let b = 0; b < degree; b++) normal[a]![b]! += weight[i]! * u ** (a + b + 2)
      right[a]! += weight[i]! * u ** (a + 1) * elasticN[i]!
    }
  }
  return (solveSquare(normal, right) ?? right.fill(NaN)).map((each, power) => each / scale ** (power + 1))
}

function progressiveStart(data: StartData, { rangeMm }: ShapeSpan, rate: number): number[] {
  const [k, c] = polynomial(data, 2, rangeMm)
  const start = [k!, k! + 2 * c! * rangeMm]
  return start.every((each) => each > 0.02 * rate && each < 50 * rate) ? start : [rate, rate * 1.001]
}

function cubicStart(data: StartData, span: ShapeSpan, rate: number): number[] {
  const { rangeMm: D } = span
  const [k, c, e] = polynomial(data, 3, D)
  const rateAt = (d: number) => k! + 2 * c! * d + 3 * e! * d * d
  const start = [rateAt(0), rateAt(D / 2), rateAt(D)]
  if (start.every((each) => each > 0.02 * rate && each < 50 * rate)) return start
  const [k0, k1] = progressiveStart(data, span, rate)
  return [k0!, (k0! + k1!) / 2, k1!]
}

/** Sums over the readings whose elastic force lies above a place: 1, t, t^2, d, t d. */
class SumsAbove {
  private readonly order: Float64Array
  private readonly sums: Float64Array

  constructor({ elasticN, dropMm, weight }: StartData) {
    const n = weight.length
    const index = Array.from({ length: n }, (_, i) => i).sort((a, b) => elasticN[a]! - elasticN[b]!)
    this.order = Float64Array.from(index, (i) => elasticN[i]!)
    this.sums = new Float64Array(5 * (n + 1))
    for (let r = n - 1; r >= 0; r--) {
      const i = index[r]!
      const w = weight[i]!
      const t = elasticN[i]!
      const d = dropMm[i]!
      const above = 5 * (r + 1)
      const at = 5 * r
      this.sums[at] = this.sums[above]! + w
      this.sums[at + 1] = this.sums[above + 1]! + w * t
      this.sums[at + 2] = this.sums[above + 2]! + w * t * t
      this.sums[at + 3] = this.sums[above + 3]! + w * d
      this.sums[at + 4] = this.sums[above + 4]! + w * t * d
    }
  }

  private rank(place: number): number {
    let low = 0
    let high = this.order.length
    while (low < high) {
      const mid = (low + high) >> 1
      if (this.order[mid]! > place) high = mid
      else low = mid + 1
    }
    return 5 * low
  }

  /** Sum of w (t - a)+ (t - b)+ for a <= b. */
  product(a: number, b: number): number {
    const at = this.rank(b)
    return this.sums[at + 2]! - (a + b) * this.sums[at + 1]! + a * b * this.sums[at]!
  }

  /** Sum of w (t - a)+ d. */
  withDrop(a: number): number {
    const at = this.rank(a)
    return this.sums[at + 4]! - a * this.sums[at + 3]!
  }
}

/** A start with the part of the objective it takes off, and where its knees are, N. */
interface Scanned {
  readonly knees: readonly number[]
  readonly gain: number
  readonly start: number[]
}

/** The best of the scan, and the best that are clearly elsewhere: knees have more than one local minimum. */
function bestApart(scanned: Scanned[], rangeN: number): number[][] {
  const ranked = scanned.sort((a, b) => b.gain - a.gain)
  const picked: Scanned[] = []
  for (const each of ranked) {
    const apart = picked.every(({ knees }) => knees.some((knee, i) => Math.abs(knee - each.knees[i]!) > APART * rangeN))
    if (apart) picked.push(each)
    if (picked.length === MOST_STARTS) break
  }
  return picked.map(({ start }) => start)
}

function thresholdStarts(data: StartData, { rangeN }: ShapeSpan): number[][] {
  const sums = new SumsAbove(data)
  const scanned: Scanned[] = []
  for (let step = 1; step < SCAN_STEPS; step++) {
    const place = (rangeN * step) / SCAN_STEPS
    const square = sums.product(place, place)
    const cross = sums.withDrop(place)
    if (square > 0 && cross > 0) {
      scanned.push({ knees: [place], gain: cross ** 2 / square, start: [place, square / cross] })
    }
  }
  return bestApart(scanned, rangeN).slice(0, 1)
}

/**
 * Elastic force of the second-highest load, N: a slope beyond a knee is told only where two loads lie
 * beyond it. Loads nearer to each other than a knee's rounding count as one.
 */
export function secondLoad(elasticN: Float64Array, { roundN }: ShapeSpan): number {
  const top = elasticN.reduce((high, each) => Math.max(high, each), -Infinity)
  return elasticN.reduce((high, each) => (each < top - 2 * roundN ? Math.max(high, each) : high), -Infinity)
}

function kneeStarts(data: StartData, span: ShapeSpan, withThreshold: boolean): number[][] {
  const { rangeN } = span
  const sums = new SumsAbove(data)
  const last = secondLoad(data.elasticN, span)
  const scanned: Scanned[] = []
  const steps = withThreshold ? PAIR_STEPS : SCAN_STEPS
  for (let low = withThreshold ? 1 : 0; low < (withThreshold ? steps : 1); low++) {
    const a = (rangeN * low) / steps
    for (let high = low + 1; high < steps; high++) {
      const b = (rangeN * high) / steps
      if (b > last) break
      const aa = sums.product(a, a)
      const ab = sums.product(a, b)
      const bb = sums.product(b, b)
      const ad = sums.withDrop(a)
      const bd = sums.withDrop(b)
      const det = aa * bb - ab * ab
      if (!(det > 1e-12 * aa * bb)) continue
      const soft = (ad * bb - bd * ab) / det
      const bend = (bd * aa - ad * ab) / det
      const hard = soft + bend
      if (!(soft > 0 && hard > 1e-3 * soft && hard < 0.93 * soft)) continue
      const knee = [1 / soft, (b - a) * soft, 1 / hard]
      scanned.push({ knees: [a, b], gain: soft * ad + bend * bd, start: withThreshold ? [a, ...knee] : knee })
    }
  }
  return bestApart(scanned, rangeN)
}
