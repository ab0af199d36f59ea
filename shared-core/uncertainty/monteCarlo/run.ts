/**
 * The adaptive Monte Carlo procedure (JCGM 101:2008, 7.9): blocks of trials until estimate, standard
 * uncertainty and both ends of the interval are stable within a numerical tolerance.
 */
import { normalQuantile } from '../distributions/normal'
import { COVERAGE_PROBABILITY } from '../interval'
import type { CoverageInterval } from '../statement'
import { bothEnds, medianOf, symmetricEnds, type Ends } from './select'
import type { Trials } from './trials'

export interface MonteCarloOptions {
  /** Whole number from 0 to 2^32 - 1. Same seed, same result, however the blocks are shared out. */
  readonly seed: number
  /** Coverage probability of the intervals; default 0.95. */
  readonly probability?: number
  /** Significant digits of u that must stand; default 2. */
  readonly digits?: number
  /** Share of the numerical tolerance to reach: 1, or 1/5 where propagation is to be validated (8.2). Default 1. */
  readonly toleranceShare?: number
  /** The run ends here even where it is not stable; default 1e6. */
  readonly maxTrials?: number
  /** Trials in all, without looking at stability; default: adaptive. */
  readonly fixedTrials?: number
  /**
   * False where the results need not have a mean and a variance: the median then stands for the estimate,
   * and the half-width over the normal's factor for u. Default true.
   */
  readonly moments?: boolean
}

export interface Progress {
  readonly trials: number
  readonly blocks: number
  /** Largest ratio of what moves still to what may; stable at 1 or less. Infinity before it can be told. */
  readonly unrest: number
  /** 0 to 1, a guess at how much of the run is done. */
  readonly share: number
}

/** What the trials say of one output. */
export interface OutputResult {
  readonly value: number
  readonly u: number
  readonly symmetric: CoverageInterval
  readonly shortest: CoverageInterval
  /** Numerical tolerance that the digits of u ask for, in the output's unit (7.9.2). */
  readonly tolerance: number
  /** Share of trials without a result; they are left out of all else. */
  readonly undefinedShare: number
  /** All results, in no particular order. */
  readonly values: Float64Array
}

export interface MonteCarloResult {
  readonly outputs: readonly OutputResult[]
  readonly trials: number
  /** True where every output became stable within its tolerance. */
  readonly stable: boolean
}

/** Smallest whole number of trials of a block, 7.9.4 b. */
export const blockSize = (probability = COVERAGE_PROBABILITY): number =>
  Math.max(10_000, Math.ceil(100 / (1 - probability)))

/** Half a unit in the last of the given significant digits of u (7.9.2); 0 for u = 0. */
export function numericalTolerance(u: number, digits = 2): number {
  if (!(u > 0) || !Number.isFinite(u)) return 0
  // Rounding may carry into the next decade: 0.0996 has two digits as 0.10.
  const decade = Math.floor(Math.log10(Number(u.toPrecision(digits))) + 1e-12)
  return 0.5 * 10 ** (decade - digits + 1)
}

/** Gathers blocks in order, and tells when they are enough. The blocks may come from anywhere. */
export class Collector {
  private readonly blocks: Float64Array[][] = []
  /** For each output: estimate, u, low and high of every block. */
  private readonly figures: number[][][]
  private readonly probability: number
  private unrest = Infinity
  private trials = 0

  constructor(private readonly outputCount: number, private readonly options: MonteCarloOptions) {
    this.probability = options.probability ?? COVERAGE_PROBABILITY
    this.figures = Array.from({ length: outputCount }, () => [[], [], [], []])
  }

  /** Takes the next block. True where no more are needed. */
  add(block: Float64Array[]): boolean {
    this.blocks.push(block)
    this.trials += block[0]!.length
    const { fixedTrials, maxTrials = 1e6 } = this.options
    if (fixedTrials !== undefined) return this.trials >= fixedTrials
    block.forEach((values, output) => this.look(values, output))
    this.unrest = this.blocks.length < 2 ? Infinity : this.largestUnrest()
    return this.unrest <= 1 || this.trials >= maxTrials
  }

  private look(values: Float64Array, output: number): void {
    const kept = definedOnly(values)
    const { low, high } = kept.length > 1
      ? symmetricEnds(kept.slice(), this.probability) : { low: kept[0]!, high: kept[0]! }
    const { value, u } = this.estimate(kept, { low, high })
    ;[value, u, low, high].forEach((each, figure) => this.figures[output]![figure]!.push(each))
  }

  /** Estimate and standard uncertainty of one output's results, whose interval is known. */
  private estimate(values: Float64Array, { low, high }: Ends): { value: number; u: number } {
    if (this.options.moments ?? true) {
      const { mean, deviation } = moments([values])
      return { value: mean, u: deviation }
    }
    const factor = normalQuantile((1 + this.probability) / 2)
    return {
      value: values.length > 0 ? medianOf(values.slice()) : NaN,
      u: values.length > 1 ? (high - low) / 2 / factor : 0,
    }
  }

  private largestUnrest(): number {
    const { digits = 2, toleranceShare = 1 } = this.options
    let largest = 0
    for (const figures of this.figures) {
      const [ofValue, ofU] = figures
      const h = ofValue!.length
      const u = Math.sqrt(ofU!.reduce((sum, each) => sum + each * each, 0) / h)
      const allowed = numericalTolerance(u, digits) * toleranceShare
      for (const each of figures) {
        const { deviation } = moments([Float64Array.from(each)])
        const moves = (2 * deviation) / Math.sqrt(h)
        if (moves > 0) largest = Math.max(largest, moves / allowed)
      }
    }
    return largest
  }

  progress(): Progress {
    const { fixedTrials, maxTrials = 1e6 } = this.options
    const { trials, unrest } = this
    // What moves falls with the square root of the trials.
    const needed = fixedTrials ?? Math.min(maxTrials, trials * Math.max(1, unrest ** 2))
    return { trials, blocks: this.blocks.length, unrest, share: Math.min(1, trials / needed) }
  }

  result(): MonteCarloResult {
    const { fixedTrials } = this.options
    return {
      outputs: Array.from({ length: this.outputCount }, (_, output) => this.outputResult(output)),
      trials: this.trials,
      stable: fixedTrials === undefined ? this.unrest <= 1 : true,
    }
  }

  private outputResult(output: number): OutputResult {
    const all = new Float64Array(this.trials)
    let at = 0
    for (const block of this.blocks) {
      all.set(block[output]!, at)
      at += block[output]!.length
    }
    const values = definedOnly(all)
    const none: Ends = { low: NaN, high: NaN }
    const ends = values.length > 1 ? bothEnds(values, this.probability) : { symmetric: none, shortest: none }
    const { probability } = this
    const { value, u } = this.estimate(values, ends.symmetric)
    return {
      value, u,
      symmetric: { ...ends.symmetric, probability },
      shortest: { ...ends.shortest, probability },
      tolerance: numericalTolerance(u, this.options.digits ?? 2),
      undefinedShare: this.trials === 0 ? 0 : 1 - values.length / this.trials,
      values,
    }
  }
}

/** The values that are numbers; the same array where all are. A sum shows that quicker than a look at each. */
function definedOnly(values: Float64Array): Float64Array {
  let sum = 0
  for (let i = 0; i < values.length; i++) sum += values[i]!
  return sum === sum ? values : values.filter((each) => each === each)
}

/** Mean and standard deviation (n - 1), shifted by the first value against cancellation. */
function moments(blocks: readonly Float64Array[]): { mean: number; deviation: number } {
  let n = 0
  let sum = 0
  let square = 0
  const shift = blocks[0]?.[0] ?? NaN
  for (const block of blocks) {
    n += block.length
    for (let i = 0; i < block.length; i++) {
      const each = block[i]! - shift
      sum += each
      square += each * each
    }
  }
  const mean = sum / n
  return { mean: shift + mean, deviation: n > 1 ? Math.sqrt(Math.max(0, square - sum * mean) / (n - 1)) : 0 }
}

/**
 * Runs block by block: each step draws one block and yields the progress. Whoever drives it lets
 * other work in between the steps, and cancels by not going on.
 */
export function* monteCarlo(trials: Trials, options: MonteCarloOptions): Generator<Progress, MonteCarloResult, void> {
  const collector = new Collector(trials.outputCount, { moments: trials.hasMoments, ...options })
  const size = blockSize(options.probability)
  for (let index = 0; ; index++) {
    const left = (options.fixedTrials ?? Infinity) - index * size
    const enough = collector.add(trials.block(options.seed, index, Math.min(size, left)))
    yield collector.progress()
    if (enough) return collector.result()
  }
}

/** Runs to the end without a pause. */
export function monteCarloNow(trials: Trials, options: MonteCarloOptions): MonteCarloResult {
  const run = monteCarlo(trials, options)
  for (;;) {
    const step = run.next()
    if (step.done) return step.value
  }
}
