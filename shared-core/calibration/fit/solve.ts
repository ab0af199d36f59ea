/**
 * Generalised least squares for y = f(x; theta) with errors in both variables and shared errors:
 * Gauss-Newton steps by orthogonal reduction, damped after Levenberg and Marquardt where a full
 * step does not lower the objective. No allocation in the loop; cost linear in the points.
 */
import { describeFit, untold } from './describe'
import { backSolve, reduce, triangleByNormal, triangleByReduction } from './orthogonal'
import { Problem } from './problem'
import type { Curve, Fit, FitOptions, Observations, Prior, Refusal, RefusalCode } from './types'

/**
 * Where the search ends: the gradient relative to the residual (relative offset of Bates and Watts,
 * Technometrics 23 (1981) 179). A minimum is certified up to `CERTIFIED_OFFSET`.
 */
const WANTED_OFFSET = 1e-8
const CERTIFIED_OFFSET = 1e-5
/** Steps in a row that hardly lower a certified gradient: rounding lets it fall no further. */
const STALL_PATIENCE = 6
/** Share of the objective that rounding may hide. */
const ROUNDING = 1e-13
/**
 * Steps in a row whose undamped form would leave the physical curves: the minimum is outside, at
 * once where the objective hardly falls any more, else after four times as many.
 */
const BOUND_PATIENCE = 10
const IDLE_DROP = 1e-6
const LARGEST_DAMPING = 1e14
/** Secant steps: below this relative offset, where it falls slower than this, with so much of the last step. */
const SECANT_OFFSET = 0.1
const QUICK_DECREASE = 0.02
const LARGEST_SECANT = 20
/** A residual this small against the readings is none; the gradient is then taken relative to the readings. */
const NO_SCATTER = 1e-5

/**
 * Fits a curve to observations.
 *
 * @returns the certified fit, or a refusal that says what is missing; it never throws on data
 */
export function fit(curve: Curve, observations: Observations, options: FitOptions): Fit {
  const priors = options.priors ?? []
  const wrong = checkInput(curve, observations, options, priors)
  if (wrong) return wrong
  const problem = new Problem(curve, observations, priors)
  const search = new Search(curve, problem, observations, options)
  return search.run()
}

function known(values: Float64Array | null): boolean {
  if (values !== null) for (let i = 0; i < values.length; i++) if (!Number.isFinite(values[i])) return false
  return true
}

const refuse = (code: RefusalCode, parameter = -1): Refusal => ({ fitted: false, code, parameter })

function checkInput(
  curve: Curve, { x, y, ux, uy, factors, atLeast }: Observations, options: FitOptions, priors: readonly Prior[],
): Refusal | null {
  const n = x.length
  const lengths = [y, ux, uy, ...factors.flatMap(({ onX, onY }) => [onX, onY])]
  const uneven = lengths.some((each) => each !== null && each.length !== n) || (atLeast && atLeast.length !== n)
  if (uneven || factors.some(({ onX, onY }) => !known(onX) || !known(onY))) return refuse('badInput')
  let told = 0
  for (let i = 0; i < n; i++) {
    const sx = ux[i]!
    const sy = uy[i]!
    const finite = Number.isFinite(x[i]) && Number.isFinite(y[i]) && Number.isFinite(sx)
    if (!finite || sx < 0 || !(sy >= 0)) return refuse('badInput')
    if (sx === 0 && sy === 0) return refuse('exactPoint')
    if (sy < Infinity && !atLeast?.[i]) told++
  }
  const usable = ({ u, value, parameter }: Prior): boolean =>
    u >= 0 && Number.isFinite(value) && parameter in Array.from(options.start)
  if (options.start.length !== curve.parameterCount || !priors.every(usable)) return refuse('badInput')
  const free = curve.parameterCount - new Set(priors.map(({ parameter }) => parameter)).size
  return told < free ? refuse('tooFewPoints') : null
}

class Search {
  private readonly m: number
  private readonly rows: number
  private unknowns: Float64Array
  private xi: Float64Array
  private design: Float64Array
  private residual: Float64Array
  private trialUnknowns: Float64Array
  private trialXi: Float64Array
  private trialDesign: Float64Array
  private trialResidual: Float64Array
  /** R of the design, column-major, and the head of Q'residual. */
  private readonly triangle: Float64Array
  private readonly head: Float64Array
  private readonly step: Float64Array
  private readonly undamped: Float64Array
  private readonly scale: Float64Array
  /** Room for damped steps, made when the first is needed. */
  private damped: Float64Array | null = null
  private dampedRhs = new Float64Array(0)
  private readonly theta: Float64Array
  /** Undamped steps in a row, the last of them, and the last step taken. */
  private undampedMoves = 0
  private lastOffset = Infinity
  private readonly lastUndamped: Float64Array
  private readonly lastMove: Float64Array
  private cost = Infinity
  private damping = 0
  private outside = 0
  private lastDrop = Infinity

  constructor(
    private readonly curve: Curve, private readonly problem: Problem, private readonly observations: Observations,
    private readonly options: FitOptions,
  ) {
    const { columns: m, rows, points, thetaCount } = problem
    this.m = m
    this.rows = rows
    this.unknowns = new Float64Array(m)
    this.trialUnknowns = new Float64Array(m)
    this.xi = observations.x.slice()
    this.trialXi = new Float64Array(points)
    this.design = new Float64Array(rows * m)
    this.trialDesign = new Float64Array(rows * m)
    this.residual = new Float64Array(rows)
    this.trialResidual = new Float64Array(rows)
    this.triangle = new Float64Array(m * m)
    this.head = new Float64Array(m)
    this.step = new Float64Array(m)
    this.undamped = new Float64Array(m)
    this.lastUndamped = new Float64Array(m)
    this.lastMove = new Float64Array(m)
    this.scale = new Float64Array(m)
    this.theta = new Float64Array(thetaCount)
    for (let j = 0; j < thetaCount; j++) this.unknowns[j] = options.start[j]!
    for (const { parameter, value, u } of options.priors ?? []) if (u === 0) this.unknowns[parameter] = value
  }

  run(): Fit {
    const { problem, options } = this
    if (!this.feasible(this.unknowns)) return refuse('infeasibleStart')
    this.cost = problem.assess(this.unknowns, this.xi, this.design, this.residual)
    if (!(this.cost < Infinity)) return refuse('infeasibleStart')
    const limit = options.maxIterations ?? 200
    const wanted = Math.min(options.offset ?? WANTED_OFFSET, CERTIFIED_OFFSET)
    let best = Infinity
    let stalled = 0
    let relativeStep = Infinity
    const floor = NO_SCATTER * this.size()
    for (let iteration = 1; iteration <= limit; iteration++) {
      const length = Math.sqrt(this.cost)
      this.triangulate()
      let along = 0
      for (let j = 0; j < this.m; j++) along += this.head[j]! * this.head[j]!
      const offset = Math.sqrt(along) / Math.max(length, floor)
      if (offset < 0.5 * best) stalled = 0
      else stalled++
      best = Math.min(best, offset)
      const certified = offset <= CERTIFIED_OFFSET
      const settled = offset <= wanted || (certified && (stalled >= STALL_PATIENCE || iteration === limit))
      const progress = settled ? 'stuck' : this.advance(along, offset)
      if (progress === 'outside') return this.atBound()
      if (progress === 'stuck') {
        return settled || certified ? this.minimum(iteration, offset, relativeStep) : this.lost()
      }
      relativeStep = progress
    }
    return this.lost()
  }

  private minimum(iterations: number, gradient: number, step: number): Fit {
    const { unknowns, xi, design, residual, cost: chiSquare, options } = this
    const convergence = { iterations, gradient, step, condition: NaN }
    return describeFit(
      this.problem, this.observations, options, { unknowns, xi, design, residual, chiSquare }, convergence)
  }

  /** True for a step that lowers the objective; near the minimum also where rounding may hide the decrease. */
  private lowers(drop: number, offset: number): boolean {
    return drop > 0 || (offset < CERTIFIED_OFFSET && drop >= -ROUNDING * this.cost)
  }

  /** R and Q'residual at the present unknowns, and the lengths of the columns. */
  private triangulate(): void {
    const { design, residual, rows, m, triangle, head } = this
    if (!triangleByNormal(design, rows, m, residual, triangle, head)) {
      triangleByReduction(design, rows, m, residual, triangle, head, this.trialDesign, this.trialResidual)
    }
    for (let j = 0; j < m; j++) {
      let square = 0
      for (let i = 0; i <= j; i++) square += triangle[j * m + i]! * triangle[j * m + i]!
      this.scale[j] = Math.sqrt(square)
    }
  }

  /** Tries steps from the reduced system until one lowers the objective; returns its relative size. */
  private advance(along: number, offset: number): number | 'stuck' | 'outside' {
    const { m } = this
    const regular = backSolve(this.triangle, m, m, this.head, this.undamped)
    if (regular) {
      for (let j = 0; j < m; j++) this.trialUnknowns[j] = this.unknowns[j]! + this.undamped[j]!
      this.outside = this.feasible(this.trialUnknowns) ? 0 : this.outside + 1
      const idle = this.lastDrop < IDLE_DROP * this.cost
      if (this.outside >= (idle ? BOUND_PATIENCE : 4 * BOUND_PATIENCE)) return 'outside'
    }
    if (regular && this.damping === 0) {
      const progress = this.advanceBySecant(offset)
      if (progress !== null) return progress
    } else {
      this.undampedMoves = 0
      this.lastOffset = Infinity
    }
    let damping = regular ? this.damping : Math.max(this.damping, 1e-6)
    let growth = 2
    for (;;) {
      const gain = this.solveDamped(damping, along)
      for (let j = 0; j < m; j++) this.trialUnknowns[j] = this.unknowns[j]! + this.step[j]!
      const cost = this.tryStep()
      const drop = this.cost - cost
      if (this.lowers(drop, offset)) {
        // Where rounding hides the decrease, nothing is learnt about the damping.
        if (gain > 1e3 * ROUNDING * this.cost) damping *= Math.max(1 / 5, 1 - (2 * drop / gain - 1) ** 3)
        this.damping = damping < 1e-6 ? 0 : damping
        this.lastDrop = drop
        return this.accept(cost)
      }
      damping = Math.max(damping * growth, 1e-4)
      growth *= 2
      if (damping > LARGEST_DAMPING) return this.outside > 0 ? 'outside' : 'stuck'
    }
  }

  /**
   * Gauss-Newton leaves out the curvature that goes with the residuals, so near the minimum its steps
   * shrink by a constant factor; two of them tell that factor, and the step that takes it into
   * account (D. G. Anderson, J. ACM 12 (1965) 547, depth 1). Taken only where it lowers the
   * objective; returns its relative size, null where it was not taken.
   */
  private advanceBySecant(offset: number): number | null {
    const { m, undamped, lastUndamped, lastMove, scale } = this
    let along = 0
    let square = 0
    const slow = this.lastOffset < SECANT_OFFSET && offset > QUICK_DECREASE * this.lastOffset
    if (this.undampedMoves > 0 && slow) {
      for (let j = 0; j < m; j++) {
        const change = scale[j]! * (undamped[j]! - lastUndamped[j]!)
        along += change * scale[j]! * undamped[j]!
        square += change * change
      }
    }
    const share = along / square
    const usable = Math.abs(share) < LARGEST_SECANT
    for (let j = 0; j < m; j++) {
      const change = undamped[j]! - lastUndamped[j]!
      this.step[j] = usable ? undamped[j]! - share * (lastMove[j]! + change) : undamped[j]!
      lastUndamped[j] = undamped[j]!
    }
    this.lastOffset = offset
    this.undampedMoves++
    if (!usable) return null
    for (let j = 0; j < m; j++) this.trialUnknowns[j] = this.unknowns[j]! + this.step[j]!
    const cost = this.tryStep()
    const drop = this.cost - cost
    if (!this.lowers(drop, offset)) return null
    this.lastDrop = drop
    return this.accept(cost)
  }

  /** Step minimising |R s - c|^2 + damping |D s|^2; returns the decrease it promises. */
  private solveDamped(damping: number, along: number): number {
    const { m, triangle, head } = this
    if (damping === 0) {
      this.step.set(this.undamped)
      return along
    }
    if (this.damped === null) {
      this.damped = new Float64Array(2 * m * m)
      this.dampedRhs = new Float64Array(2 * m)
    }
    const { damped, dampedRhs } = this
    damped.fill(0)
    dampedRhs.fill(0)
    const root = Math.sqrt(damping)
    for (let j = 0; j < m; j++) {
      for (let i = 0; i <= j; i++) damped[j * 2 * m + i] = triangle[j * m + i]!
      damped[j * 2 * m + m + j] = root * (this.scale[j]! > 0 ? this.scale[j]! : 1)
      dampedRhs[j] = head[j]!
    }
    reduce(damped, 2 * m, m, dampedRhs)
    backSolve(damped, 2 * m, m, dampedRhs, this.step)
    let left = 0
    for (let i = 0; i < m; i++) {
      let value = head[i]!
      for (let j = i; j < m; j++) value -= triangle[j * m + i]! * this.step[j]!
      left += value * value
    }
    return along - left
  }

  private tryStep(): number {
    if (!this.feasible(this.trialUnknowns)) return Infinity
    this.trialXi.set(this.xi)
    const cost = this.problem.assess(this.trialUnknowns, this.trialXi, this.trialDesign, this.trialResidual)
    return cost < Infinity ? cost : Infinity
  }

  private accept(cost: number): number {
    const size = this.sizeOfStep()
    this.lastMove.set(this.step)
    ;[this.unknowns, this.trialUnknowns] = [this.trialUnknowns, this.unknowns]
    ;[this.xi, this.trialXi] = [this.trialXi, this.xi]
    ;[this.design, this.trialDesign] = [this.trialDesign, this.design]
    ;[this.residual, this.trialResidual] = [this.trialResidual, this.residual]
    this.cost = cost
    return size
  }

  /** Largest step of any parameter of the curve, relative to the parameter. */
  private sizeOfStep(): number {
    let size = 0
    for (let j = 0; j < this.problem.thetaCount; j++) {
      const value = Math.abs(this.unknowns[j]!)
      if (this.step[j] !== 0) size = Math.max(size, Math.abs(this.step[j]!) / Math.max(value, Number.MIN_VALUE))
    }
    return size
  }

  /** Length of the readings themselves in the residual's unit: what rounding is relative to. */
  private size(): number {
    const { y, ux, uy } = this.observations
    let square = 0
    for (let i = 0; i < y.length; i++) {
      if (uy[i]! < Infinity) square += y[i]! ** 2 / (uy[i]! ** 2 + (uy[i] === 0 ? ux[i]! ** 2 : 0))
    }
    return Math.sqrt(square)
  }

  private feasible(unknowns: Float64Array): boolean {
    for (let j = 0; j < this.theta.length; j++) this.theta[j] = unknowns[j]!
    for (let j = 0; j < this.m; j++) if (!Number.isFinite(unknowns[j])) return false
    return this.curve.feasible?.(this.theta) ?? true
  }

  /** The parameter that wants to move furthest, relative to its size, where the minimum lies outside. */
  private atBound(): Refusal {
    let worst = 0
    for (let j = 1; j < this.problem.thetaCount; j++) if (this.wish(j) > this.wish(worst)) worst = j
    return refuse('atBound', worst)
  }

  private wish(j: number): number {
    return Math.abs(this.undamped[j]!) / Math.max(Math.abs(this.unknowns[j]!), Number.MIN_VALUE)
  }

  private lost(): Refusal {
    return untold(this.problem, this.design) ?? refuse('notConverged')
  }
}
