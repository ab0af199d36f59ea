/**
 * The least-squares problem at one trial (theta, z): each latent x is eliminated by its own small
 * solve, and what remains is one row per point, linear in the number of points whatever is shared.
 *
 * With xi at its own minimum, the point's share of the objective is w e^2 with the residual across
 * the curve e = (y - f) - f'(x - xi) and w = 1/(uy^2 + f'^2 ux^2); its derivatives by theta and z
 * are those of the exact objective (envelope theorem), so the minimum found is the exact one and
 * not that of an effective-variance approximation (York et al., Am. J. Phys. 72 (2004) 367;
 * ISO/TS 28037:2010, clause 7).
 */
import type { Curve, Observations, Prior } from './types'

/** Inner solves stop at this fraction of a point's own u(x). */
const LATENT_TOLERANCE = 1e-10
const LATENT_STEPS = 60

export interface Problem {
  readonly points: number
  readonly thetaCount: number
  /** theta and z together. */
  readonly columns: number
  /** Points, factors and priors. */
  readonly rows: number
  readonly fixed: Uint8Array
  /** Weighted priors: all but the fixed. */
  readonly weightedPriors: readonly Prior[]
  /**
   * Objective at `unknowns` = (theta, z); Infinity where the curve cannot be evaluated. Moves `xi`
   * to the latent minimum and fills `design` (column-major, weighted) and `residual` (weighted).
   */
  assess(unknowns: Float64Array, xi: Float64Array, design: Float64Array, residual: Float64Array): number
}

export function problemOf(curve: Curve, observations: Observations, priors: readonly Prior[]): Problem {
  const { x, y, ux, uy, factors } = observations
  const atLeast = observations.atLeast ?? null
  const points = x.length
  const p = curve.parameterCount
  const columns = p + factors.length
  const fixed = new Uint8Array(p)
  for (const { parameter, u } of priors) if (u === 0) fixed[parameter] = 1
  const weightedPriors = priors.filter(({ u, parameter }) => u > 0 && !fixed[parameter])
  const fixedCount = fixed.reduce((count, each) => count + each, 0)
  const rows = points + factors.length + weightedPriors.length + fixedCount
  const out = new Float64Array(2 + p)
  const theta = new Float64Array(p)

  /** Shifts of x and y by the factors at the trial z. */
  const shiftX = new Float64Array(points)
  const shiftY = new Float64Array(points)
  const shift = (unknowns: Float64Array) => {
    shiftX.fill(0)
    shiftY.fill(0)
    for (let j = 0; j < factors.length; j++) {
      const z = unknowns[p + j]!
      if (z === 0) continue
      const { onX, onY } = factors[j]!
      if (onX) for (let i = 0; i < points; i++) shiftX[i]! += onX[i]! * z
      if (onY) for (let i = 0; i < points; i++) shiftY[i]! += onY[i]! * z
    }
  }

  /** Finds the latent x of point i, leaves the curve's values there in `out`, and returns it. */
  const settle = (i: number, from: number, aimX: number, aimY: number): number => {
    const ux2 = ux[i]! * ux[i]!
    let t = ux2 === 0 ? aimX : from
    curve.evaluate(t, theta, i, out)
    if (ux2 === 0) return t
    const uy2 = uy[i]! * uy[i]!
    let merit = (aimX - t) ** 2 * uy2 + (aimY - out[0]!) ** 2 * ux2
    for (let count = 0; count < LATENT_STEPS; count++) {
      const slope = out[1]!
      const across = uy2 + slope * slope * ux2
      if (!(across > 0)) return t
      let step = ((aimX - t) * uy2 + slope * ux2 * (aimY - out[0]!)) / across
      if (Math.abs(step) <= LATENT_TOLERANCE * ux[i]! + 2e-16 * Math.abs(t)) return t
      for (;;) {
        curve.evaluate(t + step, theta, i, out)
        const next = (aimX - t - step) ** 2 * uy2 + (aimY - out[0]!) ** 2 * ux2
        if (next <= merit * (1 + 1e-14)) {
          t += step
          merit = next
          break
        }
        step /= 2
        if (Math.abs(step) <= LATENT_TOLERANCE * ux[i]!) {
          curve.evaluate(t, theta, i, out)
          return t
        }
      }
    }
    return t
  }

  const assess = (unknowns: Float64Array, xi: Float64Array, design: Float64Array, residual: Float64Array): number => {
    for (let j = 0; j < p; j++) theta[j] = unknowns[j]!
    shift(unknowns)
    let cost = 0
    for (let i = 0; i < points; i++) {
      const aimX = x[i]! - shiftX[i]!
      const aimY = y[i]! - shiftY[i]!
      let root = 0
      let across = 0
      if (uy[i]! < Infinity) {
        const t = settle(i, xi[i]!, aimX, aimY)
        xi[i] = t
        const slope = out[1]!
        across = aimY - out[0]! - slope * (aimX - t)
        const free = atLeast !== null && atLeast[i]! !== 0 && across <= 0
        if (!free) root = 1 / Math.sqrt(uy[i]! * uy[i]! + slope * slope * ux[i]! * ux[i]!)
        const share = root * across
        if (!(Math.abs(share) < 1e150)) return Infinity
        cost += share * share
      } else xi[i] = aimX
      residual[i] = root * across
      for (let j = 0; j < p; j++) design[j * rows + i] = root === 0 || fixed[j] ? 0 : root * out[2 + j]!
      const slope = root === 0 ? 0 : out[1]!
      for (let j = 0; j < factors.length; j++) {
        const { onX, onY } = factors[j]!
        design[(p + j) * rows + i] = root * ((onY ? onY[i]! : 0) - (onX ? slope * onX[i]! : 0))
      }
    }
    return cost + assessKnowledge(unknowns, design, residual)
  }

  /** Rows below the points: the factors' unit variances, the priors, and the fixed parameters. */
  const assessKnowledge = (unknowns: Float64Array, design: Float64Array, residual: Float64Array): number => {
    let cost = 0
    for (let j = 0; j < columns; j++) design.fill(0, j * rows + points, (j + 1) * rows)
    let row = points
    for (let j = 0; j < factors.length; j++, row++) {
      design[(p + j) * rows + row] = 1
      residual[row] = -unknowns[p + j]!
      cost += residual[row]! ** 2
    }
    for (const { parameter, value, u } of weightedPriors) {
      design[parameter * rows + row] = 1 / u
      residual[row] = (value - unknowns[parameter]!) / u
      cost += residual[row]! ** 2
      row++
    }
    for (let j = 0; j < p; j++) {
      if (!fixed[j]) continue
      design[j * rows + row] = 1
      residual[row] = 0
      row++
    }
    return cost
  }

  return { points, thetaCount: p, columns, rows, fixed, weightedPriors, assess }
}
