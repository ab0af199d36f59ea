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

/**
 * Inner steps smaller than this fraction of a point's own u(x) are taken along the tangent, without
 * evaluating the curve again: what that leaves out is of second order in the step, and the steps of
 * the last outer iterations are smaller still.
 */
const TANGENT_STEP = 1e-7
const LATENT_STEPS = 60

export class Problem {
  readonly points: number
  readonly thetaCount: number
  /** theta and z together. */
  readonly columns: number
  /** Points, factors, priors and fixed parameters. */
  readonly rows: number
  readonly fixed: Uint8Array
  /** Weighted priors: all but the fixed. */
  readonly weightedPriors: readonly Prior[]

  private readonly out: Float64Array
  private readonly theta: Float64Array
  /** x and y less the factors' effect at the trial z. */
  private readonly aimX: Float64Array
  private readonly aimY: Float64Array
  private readonly ux2: Float64Array
  private readonly uy2: Float64Array

  constructor(
    private readonly curve: Curve, private readonly observations: Observations, priors: readonly Prior[],
  ) {
    const { x, ux, uy, factors } = observations
    this.points = x.length
    this.thetaCount = curve.parameterCount
    this.columns = this.thetaCount + factors.length
    this.fixed = new Uint8Array(this.thetaCount)
    for (const { parameter, u } of priors) if (u === 0) this.fixed[parameter] = 1
    this.weightedPriors = priors.filter(({ u, parameter }) => u > 0 && !this.fixed[parameter])
    const fixedCount = this.fixed.reduce((count, each) => count + each, 0)
    this.rows = this.points + factors.length + this.weightedPriors.length + fixedCount
    this.out = new Float64Array(2 + this.thetaCount)
    this.theta = new Float64Array(this.thetaCount)
    this.aimX = new Float64Array(this.points)
    this.aimY = new Float64Array(this.points)
    this.ux2 = new Float64Array(this.points)
    this.uy2 = new Float64Array(this.points)
    for (let i = 0; i < this.points; i++) {
      this.ux2[i] = ux[i]! * ux[i]!
      this.uy2[i] = uy[i]! * uy[i]!
    }
  }

  /**
   * Objective at `unknowns` = (theta, z); Infinity where the curve cannot be evaluated. Moves `xi`
   * to the latent minimum and fills `design` (column-major, weighted) and `residual` (weighted).
   */
  assess(unknowns: Float64Array, xi: Float64Array, design: Float64Array, residual: Float64Array): number {
    const { points, rows, thetaCount: p, theta, out, curve, fixed, aimX, aimY, ux2, uy2 } = this
    const { ux, factors } = this.observations
    const atLeast = this.observations.atLeast ?? null
    for (let j = 0; j < p; j++) theta[j] = unknowns[j]!
    this.aim(unknowns)
    let cost = 0
    for (let i = 0; i < points; i++) {
      const vy = uy2[i]!
      let root = 0
      let across = 0
      let slope = 0
      if (vy < Infinity) {
        const vx = ux2[i]!
        const atX = aimX[i]!
        const atY = aimY[i]!
        let t = vx === 0 ? atX : xi[i]!
        curve.evaluate(t, theta, out, i)
        slope = out[1]!
        let offX = atX - t
        let offY = atY - out[0]!
        let variance = vy + slope * slope * vx
        let pull = offX * vy + slope * vx * offY
        if (Math.abs(pull) > TANGENT_STEP * ux[i]! * variance) {
          t = this.latent(i, t, atX, atY, pull / variance)
          slope = out[1]!
          offX = atX - t
          offY = atY - out[0]!
          variance = vy + slope * slope * vx
          pull = offX * vy + slope * vx * offY
        }
        // The same along the whole tangent, so it needs no correction for the last inner step.
        across = offY - slope * offX
        root = 1 / Math.sqrt(variance)
        xi[i] = vx === 0 ? t : t + pull * root * root
        if (atLeast !== null && atLeast[i]! !== 0 && across <= 0) root = 0
        const share = root * across
        if (!(Math.abs(share) < 1e150)) return Infinity
        cost += share * share
        residual[i] = share
      } else {
        xi[i] = aimX[i]!
        residual[i] = 0
      }
      for (let j = 0, at = i; j < p; j++, at += rows) design[at] = root === 0 ? 0 : root * out[2 + j]!
      for (let j = 0, at = p * rows + i; j < factors.length; j++, at += rows) {
        const { onX, onY } = factors[j]!
        let effect = onY === null ? 0 : onY[i]!
        if (onX !== null && slope !== 0) effect -= slope * onX[i]!
        design[at] = root * effect
      }
    }
    for (let j = 0; j < p; j++) if (fixed[j]) design.fill(0, j * rows, (j + 1) * rows)
    return cost + this.assessKnowledge(unknowns, design, residual)
  }

  /**
   * A place within a tangent's step of the latent x of point i, found from `t`, where the curve has just
   * been evaluated and a first `step` is due; leaves the curve's values there in `out`.
   */
  private latent(i: number, t: number, atX: number, atY: number, step: number): number {
    const { curve, theta, out } = this
    const vx = this.ux2[i]!
    const vy = this.uy2[i]!
    const stop = TANGENT_STEP * this.observations.ux[i]!
    let offX = atX - t
    let offY = atY - out[0]!
    let merit = offX * offX * vy + offY * offY * vx
    for (let count = 0; count < LATENT_STEPS; count++) {
      for (;;) {
        const next = t + step
        curve.evaluate(next, theta, out, i)
        const nextX = atX - next
        const nextY = atY - out[0]!
        const better = nextX * nextX * vy + nextY * nextY * vx
        if (better <= merit * (1 + 1e-14)) {
          t = next
          offX = nextX
          offY = nextY
          merit = better
          break
        }
        step /= 2
        if (!(Math.abs(step) > stop)) {
          curve.evaluate(t, theta, out, i)
          return t
        }
      }
      const slope = out[1]!
      const variance = vy + slope * slope * vx
      const pull = offX * vy + slope * vx * offY
      if (!(Math.abs(pull) > stop * variance)) return t
      step = pull / variance
    }
    return t
  }

  /** Weight (as a root) of the residual across the curve at a point, and the curve's slope there. */
  weightAt(i: number, unknowns: Float64Array, xi: number): { root: number; slope: number } {
    for (let j = 0; j < this.thetaCount; j++) this.theta[j] = unknowns[j]!
    this.curve.evaluate(xi, this.theta, this.out, i)
    const slope = this.out[1]!
    return { root: 1 / Math.sqrt(this.uy2[i]! + slope * slope * this.ux2[i]!), slope }
  }

  private aim(unknowns: Float64Array): void {
    const { aimX, aimY, points, thetaCount: p } = this
    const { x, y, factors } = this.observations
    aimX.set(x)
    aimY.set(y)
    for (let j = 0; j < factors.length; j++) {
      const z = unknowns[p + j]!
      if (z === 0) continue
      const { onX, onY } = factors[j]!
      if (onX !== null) for (let i = 0; i < points; i++) aimX[i]! -= onX[i]! * z
      if (onY !== null) for (let i = 0; i < points; i++) aimY[i]! -= onY[i]! * z
    }
  }

  /** Rows below the points: the factors' unit variances, the priors, and the fixed parameters. */
  private assessKnowledge(unknowns: Float64Array, design: Float64Array, residual: Float64Array): number {
    const { points, rows, columns, thetaCount: p } = this
    if (rows === points) return 0
    let cost = 0
    for (let j = 0; j < columns; j++) design.fill(0, j * rows + points, (j + 1) * rows)
    let row = points
    for (let j = p; j < columns; j++, row++) {
      design[j * rows + row] = 1
      residual[row] = -unknowns[j]!
      cost += unknowns[j]! * unknowns[j]!
    }
    for (const { parameter, value, u } of this.weightedPriors) {
      const off = (value - unknowns[parameter]!) / u
      design[parameter * rows + row] = 1 / u
      residual[row] = off
      cost += off * off
      row++
    }
    for (let j = 0; j < p; j++) {
      if (!this.fixed[j]) continue
      design[j * rows + row] = 1
      residual[row] = 0
      row++
    }
    return cost
  }
}
