/**
 * The next most useful load: of the loads the builder owns, laid on an axle line or midway, the one
 * whose reading would shrink the interval at the working force most (I-optimal), by the rank-one
 * update of the parameters' covariance; among near equals the one that tells the parameters best
 * (D-optimal). Atkinson, Donev and Tobias, Optimum Experimental Designs, 2007, chapters 10 and 11.
 */
import { coordinate, loadMass, localGravity, placedForces } from '@core/chassis'
import { AXLES, type Axle, type Chassis, type SquatSession } from '@core/schema'
import {
  covariance, COVERAGE_FACTOR, partsOf, standardUncertainty, sum, variance, type Uncertain,
} from '@core/uncertainty'
import type { CalibrationResult } from './calibrate'
import { readCurves, type ReadCurve } from './readCurves'
import { elasticForce } from './shapes'
import { roundingU } from './shown'
import type { Branch, Calibration } from './types'
import { isFixed } from './verdict'

export interface NextLoad {
  readonly loadIds: readonly string[]
  readonly names: readonly string[]
  readonly xMm: number
  readonly branch: Branch
  readonly massKg: number
  readonly forceN: Readonly<Record<Axle, number>>
  /** Standard uncertainty by the curve at the working force after it, over that now; root mean square of the axles. */
  readonly shrink: number
}

/** All subsets of so many loads are looked at; of more, only single loads, pairs and growing heaps. */
const MOST_FOR_SUBSETS = 9
/** Forces beyond this multiple of the range are not proposed. */
const REACH = 1.25
/** Results this near to the best are told apart by the D criterion. */
const NEAR = 0.01

/**
 * The most useful next load. `u` of a placement is taken as the session's usual; the working force
 * is the wished one, else half of the range. Null without a curve or loads with a mass.
 */
export function nextLoad(
  results: Readonly<Record<Axle, CalibrationResult>>, session: SquatSession, chassis: Chassis,
): NextLoad | null {
  const gauge = chassis.gauges.find(({ id }) => id === session.setup.gaugeId)
  const targets = AXLES.flatMap((axle) => {
    const calibration = results[axle]
    return calibration.refused || !gauge ? [] : [targetOf(axle, calibration, session, gauge.resolutionMm)]
  })
  if (targets.length === 0) return null
  const loads = weighedLoads(chassis)
  const uPlaceMm = Math.max(0, ...session.steps.flatMap(({ placed }) => placed.map((each) => each.uPlaceMm)))
  const length = chassis.wheelbaseMm.value
  const gravity = localGravity(chassis.place).ms2
  const branches: readonly Branch[] = targets[0]!.settled ? ['mid'] : ['loading', 'unloading']
  let best: Proposal | null = null
  for (const subset of subsetsOf(loads)) {
    const massKg = sum(subset.map((each) => each.massKg))
    for (const xMm of [0, length / 2, length]) {
      const { axles } = placedForces(chassis, gravity, [{
        massKg, xMm: coordinate(xMm, uPlaceMm, 'next:x'), yMm: coordinate(0, uPlaceMm, 'next:y'),
      }])
      for (const branch of branches) {
        const gains = targets.map((target) => gainOf(target, axles[target.axle], branch))
        if (gains.some((each) => each === null)) continue
        const shrink = Math.sqrt(gains.reduce((total, each) => total + each!.ratio, 0) / gains.length)
        const spread = gains.reduce((total, each) => total * each!.determinant, 1)
        const nearly = best && shrink < best.shrink * (1 + NEAR) && spread < best.spread
        if (!best || shrink < best.shrink * (1 - NEAR) || nearly) {
          best = {
            spread,
            loadIds: subset.map(({ id }) => id), names: subset.map(({ name }) => name), xMm, branch,
            massKg: massKg.value,
            forceN: { front: axles.front.value, rear: axles.rear.value }, shrink,
          }
        }
      }
    }
  }
  return best
}

/** With the D criterion: the product of the determinants' ratios. */
interface Proposal extends NextLoad { readonly spread: number }

interface Target {
  readonly axle: Axle
  readonly calibration: Calibration
  readonly settled: boolean
  readonly read: ReadCurve
  /** What more readings can improve: covariance of (parameters, friction), their fixed sources left out. */
  readonly matrix: readonly (readonly number[])[]
  /** Sensitivity of the force at the working drop to (parameters, friction). */
  readonly aim: readonly number[]
  readonly varianceNow: number
  readonly uDropMm: number
  readonly topN: number
}

const out = new Float64Array(8)

function targetOf(axle: Axle, calibration: Calibration, { setup }: SquatSession, resolutionMm: number): Target {
  const read = readCurves(calibration)[0]!
  const workingN = Math.min(setup.wished?.forceN ?? calibration.rangeN / 2, calibration.rangeN)
  read.curve.drop(workingN, read.theta, out)
  read.curve.force(out[0]!, read.theta, out)
  const count = read.parameters.length
  const aim = [...out.slice(2, 2 + count), calibration.settled ? 0 : 1]
  const values = [...read.parameters, read.frictionN]
  const free = values.map((each) => partsOf(each, (source) => !isFixed(source)))
  const whole = values.map((one) => values.map((other) => covariance(one, other)))
  const { uMm } = calibration.repeatability
  return {
    axle, calibration, settled: calibration.settled, read, aim,
    matrix: free.map((one) => free.map((other) => covariance(one, other))),
    varianceNow: quadratic(whole, aim, aim),
    // Two corners make an axle line.
    uDropMm: Math.hypot(uMm, roundingU(resolutionMm, uMm, 1)) / Math.SQRT2,
    topN: REACH * calibration.rangeN,
  }
}

const quadratic = (matrix: readonly (readonly number[])[], a: readonly number[], b: readonly number[]): number =>
  a.reduce((total, each, i) => total + each * b.reduce((inner, other, j) => inner + matrix[i]![j]! * other, 0), 0)

/** Variance at the working force after a reading at this force over that before; null where it may not be laid on. */
function gainOf(
  target: Target, forceN: Uncertain, branch: Branch,
): { ratio: number; determinant: number } | null {
  const { read, calibration, matrix, aim, varianceNow, uDropMm, topN } = target
  const sign = branch === 'mid' ? 0 : branch === 'loading' ? 1 : -1
  if (forceN.value > topN) return null
  const elastic = new Float64Array(3)
  const turnN = sign < 0 ? calibration.rangeN : NaN
  elasticForce(forceN.value, sign, turnN, read.frictionN.value, read.curve.span.roundN, elastic)
  read.curve.drop(elastic[0]!, read.theta, out)
  const { touchMm } = calibration
  if (touchMm && out[0]! > touchMm.value - COVERAGE_FACTOR * standardUncertainty(touchMm)) return null
  const slope = out[1]! * elastic[1]!
  const count = read.parameters.length
  const gradient = [...out.slice(2, 2 + count), out[1]! * elastic[2]!]
  const own = variance(partsOf(forceN, (source) => !isFixed(source)))
  const noise = uDropMm ** 2 + slope ** 2 * own
  const told = quadratic(matrix, gradient, gradient)
  const across = quadratic(matrix, aim, gradient)
  return {
    ratio: varianceNow > 0 ? Math.max(0, 1 - across ** 2 / (noise + told) / varianceNow) : 1,
    determinant: noise / (noise + told),
  }
}

interface OwnedLoad { readonly id: string; readonly name: string; readonly massKg: Uncertain }

function weighedLoads(chassis: Chassis): OwnedLoad[] {
  return chassis.loads.flatMap(({ id, name }) => {
    const mass = loadMass(chassis, id)
    return 'massKg' in mass && mass.massKg.value > 0 ? [{ id, name, massKg: mass.massKg }] : []
  }).sort((a, b) => a.massKg.value - b.massKg.value)
}

function subsetsOf(loads: readonly OwnedLoad[]): OwnedLoad[][] {
  const n = loads.length
  if (n <= MOST_FOR_SUBSETS) {
    return Array.from({ length: 2 ** n - 1 }, (_, i) => loads.filter((__, j) => ((i + 1) >> j) & 1))
  }
  const heaps = loads.map((_, i) => loads.slice(0, i + 1))
  const pairs = loads.flatMap((one, i) => loads.slice(i + 1).map((other) => [one, other]))
  return [...loads.map((each) => [each]), ...pairs, ...heaps, ...loads.map((_, i) => loads.slice(i))]
}
