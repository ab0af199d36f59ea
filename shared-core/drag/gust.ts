/**
 * The wind is not the same in every coast. How much it changes is one variance of a linear mixed
 * model, found by restricted maximum likelihood (H. D. Patterson and R. Thompson, Biometrika 58
 * (1971) 545), and the degrees of freedom that it leaves to each parameter by F. E. Satterthwaite's
 * method (Biometrics Bull. 2 (1946) 110) from that variance's expected information.
 */
import { choleskyOf, inverseBy, logDeterminant, solveBy } from './normal'
import { COLUMNS } from './rows'

/** Products of one coast's columns with each other, `WIDTH` by `WIDTH`, and where its area stands among the shared. */
export interface Products {
  readonly sums: readonly (readonly number[])[]
  readonly areaAt: number
  readonly hasMoment: boolean
}

/** Knowledge of the shared parameters from elsewhere: precision and how far the present values are from it. */
export interface Prior {
  readonly precision: readonly number[]
  readonly pull: readonly number[]
}

/** The shared parameters' normal equations with everything that is a coast's own taken out. */
export interface Reduced {
  readonly hessian: number[][]
  readonly factor: number[][]
  readonly step: number[]
  /** Minus twice the restricted log-likelihood, up to a constant. */
  readonly criterion: number
  readonly sumOfSquares: number
}

/** Columns of the shared parameters of a coast: rolling, wind, slope, then its own set-up's area. */
const sharedColumns = [COLUMNS.rolling, COLUMNS.wind, COLUMNS.slope, COLUMNS.area]
const entryOf = (column: number, areaAt: number): number =>
  column === COLUMNS.area ? areaAt : column - COLUMNS.rolling

/**
 * Eliminates what is each coast's own at a gust variance.
 *
 * @param varianceMs2 variance of the wind from coast to coast; 0 for none
 * @returns null where the shared parameters can't be told from each other
 */
export function reduce(coasts: readonly Products[], prior: Prior, varianceMs2: number): Reduced | null {
  const p = prior.precision.length
  const hessian = prior.precision.map((each, i) => Array.from({ length: p }, (_, j) => (i === j ? each : 0)))
  const gradient = prior.pull.map((pull, i) => pull * prior.precision[i]!)
  let criterion = 0
  let sumOfSquares = prior.pull.reduce((sum, pull, i) => sum + pull * pull * prior.precision[i]!, 0)
  for (const coast of coasts) {
    const own = ownColumns(coast, varianceMs2 > 0)
    const block = own.map((i) =>
      own.map((j) => coast.sums[i]![j]! + (i === COLUMNS.gust && j === COLUMNS.gust ? 1 / varianceMs2 : 0)),
    )
    const factor = choleskyOf(block)
    if (!factor) return null
    criterion += logDeterminant(factor) + (varianceMs2 > 0 ? Math.log(varianceMs2) : 0)
    const residual = own.map((i) => coast.sums[i]![COLUMNS.residual]!)
    const solvedResidual = solveBy(factor, residual)
    sumOfSquares += coast.sums[COLUMNS.residual]![COLUMNS.residual]! - dot(residual, solvedResidual)
    for (const column of sharedColumns) {
      const mixed = own.map((i) => coast.sums[i]![column]!)
      const solved = solveBy(factor, mixed)
      const at = entryOf(column, coast.areaAt)
      gradient[at]! += coast.sums[column]![COLUMNS.residual]! - dot(solved, residual)
      for (const other of sharedColumns) {
        const theirs = own.map((i) => coast.sums[i]![other]!)
        hessian[at]![entryOf(other, coast.areaAt)]! += coast.sums[column]![other]! - dot(solved, theirs)
      }
    }
  }
  const factor = choleskyOf(hessian)
  if (!factor) return null
  const step = solveBy(factor, gradient)
  const rest = sumOfSquares - dot(gradient, step)
  return { hessian, factor, step, sumOfSquares: rest, criterion: criterion + logDeterminant(factor) + rest }
}

/** Steps of a coast's own parameters that go with a step of the shared ones: start, moment, gust. */
export function ownStep(
  coast: Products,
  sharedStep: readonly number[],
  varianceMs2: number,
): { start: number; moment: number } {
  const own = ownColumns(coast, varianceMs2 > 0)
  const block = own.map((i) =>
    own.map((j) => coast.sums[i]![j]! + (i === COLUMNS.gust && j === COLUMNS.gust ? 1 / varianceMs2 : 0)),
  )
  const factor = choleskyOf(block)!
  const right = own.map(
    (i) =>
      coast.sums[i]![COLUMNS.residual]! -
      sharedColumns.reduce(
        (sum, column) => sum + coast.sums[i]![column]! * sharedStep[entryOf(column, coast.areaAt)]!,
        0,
      ),
  )
  const solved = solveBy(factor, right)
  return { start: solved[0]!, moment: coast.hasMoment ? solved[1]! : 0 }
}

const ownColumns = ({ hasMoment }: Products, gusty: boolean): number[] => [
  COLUMNS.start,
  ...(hasMoment ? [COLUMNS.moment] : []),
  ...(gusty ? [COLUMNS.gust] : []),
]

const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((sum, each, i) => sum + each * b[i]!, 0)

/** Largest gust looked for, m/s, and the smallest that is told from none. */
const LARGEST_GUST_MS = 5
const SMALLEST_GUST_MS = 1e-4

/** The gust variance that the coasts make likeliest, (m/s)^2; 0 where none is likelier. */
export function likeliestGust(coasts: readonly Products[], prior: Prior): number {
  const of = (logU: number): number => reduce(coasts, prior, Math.exp(2 * logU))?.criterion ?? Infinity
  let [low, high] = [Math.log(SMALLEST_GUST_MS), Math.log(LARGEST_GUST_MS)]
  const golden = (Math.sqrt(5) - 1) / 2
  let [a, b] = [high - golden * (high - low), low + golden * (high - low)]
  let [atA, atB] = [of(a), of(b)]
  while (high - low > 1e-3) {
    if (atA <= atB) {
      ;[high, b, atB] = [b, a, atA]
      a = high - golden * (high - low)
      atA = of(a)
    } else {
      ;[low, a, atA] = [a, b, atB]
      b = low + golden * (high - low)
      atB = of(b)
    }
  }
  const found = (low + high) / 2
  return of(found) < of(Math.log(SMALLEST_GUST_MS)) ? Math.exp(2 * found) : 0
}

/** Degrees of freedom of each shared parameter's variance, given that one variance was estimated. */
export function satterthwaite(coasts: readonly Products[], prior: Prior, varianceMs2: number): number[] {
  const at = Math.max(varianceMs2, SMALLEST_GUST_MS ** 2)
  const here = reduce(coasts, prior, at)
  const step = Math.max(1e-3 * at, 1e-6)
  const there = reduce(coasts, prior, at + step)
  if (!here || !there) return prior.precision.map(() => 1)
  const information = gustInformation(coasts, here.factor, prior.precision.length, at)
  const [now, then] = [inverseBy(here.factor), inverseBy(there.factor)]
  return now.map((row, i) => {
    const slope = (then[i]![i]! - row[i]!) / step
    return slope <= 0 ? Infinity : Math.max(1, (2 * row[i]! ** 2 * information) / slope ** 2)
  })
}

/** Expected restricted information of the gust variance: half the trace of (P G P G). */
function gustInformation(coasts: readonly Products[], factor: number[][], p: number, variance: number): number {
  const levers = coasts.map((coast) => {
    const own = ownColumns(coast, false)
    const block = choleskyOf(own.map((i) => own.map((j) => coast.sums[i]![j]!)))!
    const gust = own.map((i) => coast.sums[i]![COLUMNS.gust]!)
    const solved = solveBy(block, gust)
    const self = Math.max(0, coast.sums[COLUMNS.gust]![COLUMNS.gust]! - dot(gust, solved))
    const h = new Array<number>(p).fill(0)
    for (const column of sharedColumns) {
      h[entryOf(column, coast.areaAt)]! +=
        (coast.sums[column]![COLUMNS.gust]! -
          dot(
            solved,
            own.map((i) => coast.sums[i]![column]!),
          )) /
        (1 + variance * self)
    }
    return { self: self / (1 + variance * self), h, solved: solveBy(factor, h) }
  })
  let sum = 0
  levers.forEach((one, i) =>
    levers.forEach((other, j) => {
      sum += ((i === j ? one.self : 0) - dot(one.h, other.solved)) ** 2
    }),
  )
  return sum / 2
}
