/**
 * The stated result: Monte Carlo (JCGM 101:2008) over every source, through each candidate curve in
 * the proportion of its weight, with propagation checked against it (clause 8).
 */
import {
  exact, monteCarlo, monteCarloStatement, statementOf, trialsOf, validate, type Claim, type MonteCarloOptions,
  type Progress, type Statement, type Trials, type Uncertain, type Validation,
} from '@core/uncertainty'
import { readForce, readingKind } from './force'
import { readCurves, type ReadCurve } from './readCurves'
import type { Calibration, DropReading } from './types'

export interface StatedForce {
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

/** Another reading by the same curve that counts in the result, and how much of it. */
export interface ForceTerm { readonly reading: DropReading; readonly factor: Uncertain }

/** What stands between the force of a reading and what is stated: other forces, newtons off, the claim of it all. */
export interface NetForce {
  readonly others: readonly ForceTerm[]
  readonly less: Uncertain
  readonly claim: Claim
}

/**
 * Trials of the force at a drop; null where the reading is only a bound. For workers that share the blocks.
 *
 * @param net what is taken off it; by default nothing
 */
export function forceTrials(
  calibration: Calibration, reading: DropReading,
  net: Pick<NetForce, 'others' | 'less'> = { others: [], less: exact(0) },
): Trials | null {
  const curves = readCurves(calibration)
  const terms = [{ reading, factor: exact(1) }, ...net.others].map((term) => {
    const kind = readingKind(calibration, curves, term.reading)
    return kind.kind === 'plain' ? { ...term, sign: kind.sign } : null
  })
  if (!terms.every((term) => term !== null)) return null
  return trialsOf(curves.map((each) => variantOf(each, terms, net.less)), 1)
}

type SignedTerm = ForceTerm & { readonly sign: number }

/** One candidate as trials see it: inputs the drops, friction, parameters, factors of the terms, what is taken off. */
function variantOf(read: ReadCurve, terms: readonly SignedTerm[], less: Uncertain) {
  const count = read.parameters.length
  const theta = new Float64Array(count)
  const out = new Float64Array(2 + count)
  const friction = terms.length
  const factors = friction + 1 + count
  return {
    weight: read.weight,
    inputs: [
      ...terms.map(({ reading }) => reading.dropMm), read.frictionN, ...read.parameters,
      ...terms.map(({ factor }) => factor), less,
    ],
    model: (inputs: Float64Array, outputs: Float64Array) => {
      for (let j = 0; j < count; j++) theta[j] = inputs[friction + 1 + j]!
      if (!read.curve.feasible(theta)) {
        outputs[0] = NaN
        return
      }
      let force = -inputs[factors + terms.length]!
      for (let i = 0; i < terms.length; i++) {
        read.curve.force(inputs[i]!, theta, out)
        force += inputs[factors + i]! * (out[0]! + terms[i]!.sign * inputs[friction]!)
      }
      outputs[0] = force
    },
  }
}

/**
 * The stated force, block by block: each step yields the progress, so that whoever drives it can
 * show it, do other work, or stop by not going on. Same seed, same result. Runs to a fifth of the
 * numerical tolerance, as the check of propagation asks (8.2), unless told otherwise.
 *
 * @param net what is taken off the force at the drop, and what propagation makes of the rest; by default nothing
 */
export function* readForceByMonteCarlo(
  calibration: Calibration, reading: DropReading, options: MonteCarloOptions, net: NetForce | null = null,
): Generator<Progress, StatedForce, void> {
  const claim = net?.claim ?? readForce(calibration, reading).claim
  const trials = claim.kind === 'value' ? forceTrials(calibration, reading, net ?? undefined) : null
  if (!trials || claim.kind !== 'value') {
    return {
      statement: statementOf(claim), validation: null, trials: 0, stable: true, undefinedShare: 0, histogram: null,
    }
  }
  const result = yield* monteCarlo(trials, { toleranceShare: VALIDATING, ...options })
  const output = result.outputs[0]!
  return {
    statement: monteCarloStatement(output, claim.value, { extrapolated: claim.extrapolated }),
    validation: validate(claim.value, output),
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
