/**
 * The stated result: Monte Carlo (JCGM 101:2008) over every source, through each candidate curve in
 * the proportion of its weight, with propagation checked against it (clause 8).
 */
import {
  monteCarlo, monteCarloStatement, trialsOf, validate, type MonteCarloOptions, type Progress, type Statement,
  type Trials, type Validation,
} from '@core/uncertainty'
import { forceReading, readingKind } from './force'
import { readCurves, type ReadCurve } from './readCurves'
import type { Calibration, DropReading, ForceReading } from './types'

export interface StatedForce {
  /** By propagation, as shown live. */
  readonly reading: ForceReading
  /** What to state: by Monte Carlo where the reading is plain; a bound stays the bound it is. */
  readonly statement: Statement
  /** Propagation against Monte Carlo; null for a bound. Where they disagree, Monte Carlo stands. */
  readonly validation: Validation | null
  readonly trials: number
  readonly stable: boolean
  /** Share of the trials whose curve was not physical; they are left out. */
  readonly undefinedShare: number
  /** Counts of the trials over equal steps, for drawing. */
  readonly histogram: { readonly lowN: number; readonly stepN: number; readonly counts: readonly number[] } | null
}

/** Trials of the force at a drop; null where the reading is only a bound. For workers that share the blocks. */
export function forceTrials(calibration: Calibration, reading: DropReading): Trials | null {
  const curves = readCurves(calibration)
  const kind = readingKind(calibration, curves, reading)
  return kind.kind === 'plain' ? trialsOf(curves.map((each) => variantOf(each, reading, kind.sign)), 1) : null
}

/** One candidate as trials see it: inputs drop, friction, parameters; output the force. */
function variantOf(read: ReadCurve, { dropMm }: DropReading, sign: number) {
  const count = read.parameters.length
  const theta = new Float64Array(count)
  const out = new Float64Array(2 + count)
  return {
    weight: read.weight,
    inputs: [dropMm, read.frictionN, ...read.parameters],
    model: (inputs: Float64Array, outputs: Float64Array) => {
      for (let j = 0; j < count; j++) theta[j] = inputs[2 + j]!
      if (!read.curve.feasible(theta)) {
        outputs[0] = NaN
        return
      }
      read.curve.force(inputs[0]!, theta, out)
      outputs[0] = out[0]! + sign * inputs[1]!
    },
  }
}

/**
 * The stated force, block by block: each step yields the progress, so that whoever drives it can
 * show it, do other work, or stop by not going on. Same seed, same result. Runs to a fifth of the
 * numerical tolerance, as the check of propagation asks (8.2), unless told otherwise.
 */
export function* readForceByMonteCarlo(
  calibration: Calibration, reading: DropReading, options: MonteCarloOptions,
): Generator<Progress, StatedForce, void> {
  const curves = readCurves(calibration)
  const live = forceReading(calibration, curves, reading, readingKind(calibration, curves, reading))
  const trials = forceTrials(calibration, reading)
  if (!trials || !live.forceN || live.statement.kind !== 'interval') {
    return {
      reading: live, statement: live.statement, validation: null, trials: 0, stable: true, undefinedShare: 0,
      histogram: null,
    }
  }
  const result = yield* monteCarlo(trials, { toleranceShare: VALIDATING, ...options })
  const output = result.outputs[0]!
  return {
    reading: live,
    statement: monteCarloStatement(output, live.forceN, { extrapolated: live.statement.extrapolated }),
    validation: validate(live.forceN, output),
    trials: result.trials, stable: result.stable, undefinedShare: output.undefinedShare,
    histogram: histogramOf(output.values, output.value, output.u),
  }
}

/** Share of the numerical tolerance that leaves the rest to propagation. */
const VALIDATING = 0.2
const BINS = 48

function histogramOf(values: Float64Array, centre: number, u: number): StatedForce['histogram'] {
  if (!(u > 0)) return null
  const lowN = centre - 4 * u
  const stepN = (8 * u) / BINS
  const counts = new Array<number>(BINS).fill(0)
  for (const value of values) {
    const bin = Math.floor((value - lowN) / stepN)
    if (bin >= 0 && bin < BINS) counts[bin]!++
  }
  return { lowN, stepN, counts }
}
