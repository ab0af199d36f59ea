/**
 * Drag areas and rolling resistance from coasts, all coasts of a session at once: rolling, wind and
 * slope are common, each set-up has its area, each coast its own start. The wind's changes from coast
 * to coast are a variance of their own (`gust.ts`), since they, not the reading of a speed, limit
 * most coasts. Equation of motion and both ways as in SAE J1263 and ISO 10521-1; the method is ours.
 *
 * The area that the motion shows is CdA + c_r ClA: downforce presses the tyres, which roll the harder
 * for it, with the same square of the air speed. `parts.ts` takes that share off again.
 */
import { likeliestGust, ownStep, reduce, satterthwaite, type Prior, type Products } from './gust'
import { inverseBy } from './normal'
import { COLUMNS, rowsOf, WIDTH, type CoastState, type Rows } from './rows'
import { startOf, type Start } from './start'
import type { CoastFit, CoastInput, CoastParameter, CoastSettings, FittedCoast } from './types'

/** Why a session's coasts give no drag. */
export type CoastRefusal = 'tooFewReadings' | 'notSlowing' | 'cantBeParted' | 'noAgreement'
export type CoastOutcome = { readonly fit: CoastFit } | { readonly refused: CoastRefusal }

const MOST_STEPS = 60
/** A step is the last where it moves each parameter by less than this share of its standard uncertainty. */
const SETTLED = 1e-5
/** Steps in which noise and gust are estimated anew. */
const STEPS_WITH_NEW_WEIGHTS = 3
/** Readings beyond the parameters from which the scatter may be learned (common practice, no source). */
const LEAST_DOF_FOR_SCATTER = 10

/** Rolling resistance and air in the normal equations come before the areas in this order. */
const SHARED_BEFORE_AREAS = 3

interface Iterate {
  readonly shared: readonly number[]
  readonly own: readonly { readonly startMs: number; readonly momentS: number }[]
}

/**
 * Fits all coasts of a session.
 *
 * @param inputs at least one coast; speeds need three readings, gates three gates
 * @returns values with their covariance, in the order rolling share, wind (m/s), slope, areas (m^2)
 */
export function fitCoasts(inputs: readonly CoastInput[], settings: CoastSettings): CoastOutcome {
  if (inputs.length === 0 || inputs.some(({ data }) => data.tS.length < 3)) return { refused: 'tooFewReadings' }
  const start = startOf(inputs, settings)
  if (!start) return { refused: 'notSlowing' }
  const ids = [...new Set(inputs.map(({ configurationId }) => configurationId))]
  const names = namesOf(ids)
  let now = iterateFrom(start, ids, settings)
  let rows = allRows(inputs, settings, ids, now)
  if (!rows) return { refused: 'notSlowing' }
  let noise: readonly number[] = []
  let variance = 0
  for (let step = 0; step < MOST_STEPS; step++) {
    const prior = priorAt(settings, now.shared)
    // Later the weights stand still, so that the fit can come to rest.
    const asStated = productsOf(inputs, rows, ids)
    if (step <= STEPS_WITH_NEW_WEIGHTS) noise = noiseOf(inputs, rows, asStated, prior)
    const coasts = asStated.map((each, index) => over(each, noise[index]! ** 2))
    if (step <= STEPS_WITH_NEW_WEIGHTS) variance = likeliestGust(coasts, prior)
    const reduced = reduce(coasts, prior, variance)
    if (!reduced) return { refused: 'cantBeParted' }
    const covariance = inverseBy(reduced.factor)
    if (step > 0 && reduced.step.every((by, i) => Math.abs(by) <= SETTLED * Math.sqrt(covariance[i]![i]!))) {
      return {
        fit: {
          names,
          values: now.shared,
          covariance,
          dofs: satterthwaite(coasts, prior, variance),
          gustMs: Math.sqrt(variance),
          birge: Math.max(...noise),
          coasts: fittedOf(inputs, rows, now),
        },
      }
    }
    const moved = halvedUntilItMoves(inputs, settings, ids, now, reduced.step, coasts, variance)
    if (!moved) return { refused: 'noAgreement' }
    now = moved.next
    rows = moved.rows
  }
  return { refused: 'noAgreement' }
}

const namesOf = (ids: readonly string[]): CoastParameter[] => [
  { kind: 'rolling' },
  { kind: 'wind' },
  { kind: 'slope' },
  ...ids.map((configurationId) => ({ kind: 'area' as const, configurationId })),
]

const iterateFrom = (start: Start, ids: readonly string[], settings: CoastSettings): Iterate => ({
  shared: [start.rolling, settings.windMs.value, settings.slope.value, ...ids.map(() => start.areaM2)],
  own: start.startsMs.map((startMs) => ({ startMs, momentS: 0 })),
})

function priorAt({ windMs, slope }: CoastSettings, shared: readonly number[]): Prior {
  const precisionOf = (u: number): number => 1 / Math.max(u, 1e-9) ** 2
  return {
    precision: shared.map((_, i) => (i === 1 ? precisionOf(windMs.u) : i === 2 ? precisionOf(slope.u) : 0)),
    pull: shared.map((value, i) => (i === 1 ? windMs.value - value : i === 2 ? slope.value - value : 0)),
  }
}

const areaPlace = (ids: readonly string[], { configurationId }: CoastInput): number =>
  SHARED_BEFORE_AREAS + ids.indexOf(configurationId)

function stateOf(input: CoastInput, ids: readonly string[], now: Iterate, index: number): CoastState {
  const [rolling, windMs, slope] = now.shared as [number, number, number]
  return { ...now.own[index]!, rolling, windMs, slope, areaM2: now.shared[areaPlace(ids, input)]! }
}

function allRows(
  inputs: readonly CoastInput[],
  settings: CoastSettings,
  ids: readonly string[],
  now: Iterate,
): Rows[] | null {
  const rows: Rows[] = []
  for (const [index, input] of inputs.entries()) {
    const own = rowsOf(input, settings, stateOf(input, ids, now, index))
    if (!own) return null
    rows.push(own)
  }
  return rows
}

/** Products of each coast's columns, each reading over its stated standard uncertainty. */
function productsOf(inputs: readonly CoastInput[], rows: readonly Rows[], ids: readonly string[]): Products[] {
  return rows.map(({ count, entries }, index) => {
    const hasMoment = inputs[index]!.data.kind === 'gates'
    const sums = Array.from({ length: WIDTH }, () => new Array<number>(WIDTH).fill(0))
    for (let a = 0; a < WIDTH; a++) {
      if (a === COLUMNS.moment && !hasMoment) continue
      for (let b = 0; b <= a; b++) {
        let sum = 0
        for (let i = 0; i < count; i++) sum += entries[a * count + i]! * entries[b * count + i]!
        sums[a]![b] = sums[b]![a] = sum
      }
    }
    return { sums, areaAt: areaPlace(ids, inputs[index]!), hasMoment }
  })
}

const over = (products: Products, square: number): Products => ({
  ...products,
  sums: products.sums.map((row) => row.map((each) => each / square)),
})

/** A gust so large that it takes nothing from the scatter within a coast, (m/s)^2. */
const FREE_GUST = 1e4

/**
 * Factor of each coast's stated standard uncertainty: from the scatter of all speeds about curves
 * that are free in wind and start, larger where neighbouring residuals are alike (a first-order
 * chain: G. E. P. Box and G. M. Jenkins, Time Series Analysis). Gates keep what was stated.
 */
function noiseOf(
  inputs: readonly CoastInput[],
  rows: readonly Rows[],
  coasts: readonly Products[],
  prior: Prior,
): number[] {
  const speeds = inputs.flatMap(({ data }, index) => (data.kind === 'speeds' ? [index] : []))
  const stated = inputs.map(() => 1)
  const count = speeds.reduce((sum, index) => sum + rows[index]!.count, 0)
  const dof = count - 2 * speeds.length - prior.precision.length
  if (dof < LEAST_DOF_FOR_SCATTER) return stated
  const reduced = reduce(coasts, prior, FREE_GUST)
  if (!reduced) return stated
  let [square, mixed] = [0, 0]
  for (const index of speeds) {
    const left = leftOver(rows[index]!, coasts[index]!, reduced.step)
    for (let i = 0; i < left.length; i++) {
      square += left[i]! ** 2
      if (i > 0) mixed += left[i]! * left[i - 1]!
    }
  }
  const alike = Math.min(0.95, Math.max(0, mixed / square))
  const learned = Math.sqrt((square / dof) * ((1 + alike) / (1 - alike)))
  return inputs.map(({ data, uSpeedMs }) =>
    data.kind === 'gates' ? 1 : uSpeedMs === null ? learned : Math.max(1, learned),
  )
}

/** Residuals over their u after the step that the linear model wants, gust and all. */
function leftOver({ count, entries }: Rows, coast: Products, sharedStep: readonly number[]): Float64Array {
  const own = ownStep(coast, sharedStep, FREE_GUST)
  const gust = gustStep(coast, sharedStep, own)
  const left = new Float64Array(count)
  const steps = [own.start, own.moment, gust, ...sharedStep.slice(0, SHARED_BEFORE_AREAS), sharedStep[coast.areaAt]!]
  for (let i = 0; i < count; i++) {
    let rest = entries[COLUMNS.residual * count + i]!
    for (let column = 0; column < steps.length; column++) rest -= entries[column * count + i]! * steps[column]!
    left[i] = rest
  }
  return left
}

/** The gust that goes with the other steps, free of any size. */
function gustStep(coast: Products, shared: readonly number[], own: { start: number; moment: number }): number {
  const of = (column: number): number => coast.sums[COLUMNS.gust]![column]!
  const rest =
    of(COLUMNS.residual) -
    of(COLUMNS.start) * own.start -
    of(COLUMNS.moment) * own.moment -
    of(COLUMNS.rolling) * shared[0]! -
    of(COLUMNS.wind) * shared[1]! -
    of(COLUMNS.slope) * shared[2]! -
    of(COLUMNS.area) * shared[coast.areaAt]!
  return rest / of(COLUMNS.gust)
}

/** The step, shortened until every coast still moves at its last reading. */
function halvedUntilItMoves(
  inputs: readonly CoastInput[],
  settings: CoastSettings,
  ids: readonly string[],
  now: Iterate,
  step: readonly number[],
  coasts: readonly Products[],
  variance: number,
): { next: Iterate; rows: Rows[] } | null {
  for (let share = 1; share > 1e-4; share /= 2) {
    const shared = now.shared.map((value, i) => value + share * step[i]!)
    const own = now.own.map(({ startMs, momentS }, index) => {
      const by = ownStep(coasts[index]!, step, variance)
      return { startMs: startMs + share * by.start, momentS: momentS + share * by.moment }
    })
    const next = { shared, own }
    const rows = allRows(inputs, settings, ids, next)
    if (rows) return { next, rows }
  }
  return null
}

function fittedOf(inputs: readonly CoastInput[], rows: readonly Rows[], now: Iterate): FittedCoast[] {
  return inputs.map((input, index) => {
    const residuals = [...rows[index]!.residuals]
    const wind = input.sense * now.shared[1]!
    const { startMs } = now.own[index]!
    const { data } = input
    const endMs =
      data.kind === 'speeds'
        ? data.vMs.at(-1)!
        : (data.xM.at(-1)! - data.xM.at(-2)!) / (data.tS.at(-1)! - data.tS.at(-2)!)
    const square = residuals.reduce((sum, each) => sum + each ** 2, 0)
    return {
      id: input.id,
      startMs: startMs + wind,
      endMs,
      residuals,
      scatter: Math.sqrt(square / Math.max(1, residuals.length - 1)),
    }
  })
}
