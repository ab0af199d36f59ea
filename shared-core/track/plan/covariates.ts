/**
 * The device beside what else moved: ln level = set-up + slope x order + warmth x tyre temperature, by
 * least squares over the runs, each run one observation (analysis of covariance; R. A. Fisher). Where two
 * of the three moved together no reading can part them, and that is said in place of a number.
 */
import { inverseOf } from '@core/linear'
import { combine, fromData, fromSource, intervalStatement, type Statement } from '@core/uncertainty'
import type { RunLevel } from '../types'

export type Covariate = 'order' | 'tyreTemperature'

export interface CovariateFit {
  /** After over before, less 1, with order and tyre temperature taken out. */
  readonly gain: Statement
  /** Relative change of the level per run, and per kelvin of the tyres. */
  readonly perRun: Statement
  readonly perKelvin: Statement
  readonly dof: number
  /** What moved together, and so can't be told apart. */
  readonly together: readonly (readonly ['device' | Covariate, 'device' | Covariate])[]
}

/** Correlation beyond which two can't be told apart: a variance inflated tenfold. */
const TOGETHER = 0.95

/**
 * Null where a run has no tyre temperature, the tyres never moved by a kelvin, or no degree of freedom is left.
 */
export function covariateFit(runs: readonly RunLevel[], beforeId: string, afterId: string): CovariateFit | null {
  const own = runs.filter(({ configurationId }) => configurationId === beforeId || configurationId === afterId)
  const dof = own.length - 4
  const warm = own.map(({ tyreTemperatureK }) => tyreTemperatureK?.value ?? NaN)
  if (dof < 1 || warm.some(Number.isNaN) || Math.max(...warm) - Math.min(...warm) < 1) return null
  const device = own.map(({ configurationId }) => (configurationId === afterId ? 0.5 : -0.5))
  const order = centred(own.map((run) => run.order))
  const kelvin = centred(warm)
  const together = ([['device', 'order', device, order], ['device', 'tyreTemperature', device, kelvin],
    ['order', 'tyreTemperature', order, kelvin]] as const)
    .flatMap(([a, b, x, y]) => (Math.abs(correlation(x, y)) > TOGETHER ? [[a, b] as const] : []))
  const none = { kind: 'untold', reason: 'missing', because: { code: 'movedTogether' } } as const
  if (together.some(([one]) => one === 'device')) return { gain: none, perRun: none, perKelvin: none, dof, together }
  // Where order and temperature moved together either stands for both: the device is still told apart from them.
  const columns = together.length > 0 ? [device, order] : [device, order, kelvin]
  const found = leastSquares(own, columns)
  // A probe's own error moves each run along the slope, as one more part of its scatter.
  const slope = found.values[3] ?? 0
  const probe = own.reduce((sum, { tyreTemperatureK }) => sum + (slope * tyreTemperatureK!.u) ** 2, 0) / own.length
  const coefficient = (at: number) => fromSource(
    found.values[at]!, Math.sqrt((found.variance + probe) * found.inverse[at]![at]!),
    fromData('runScatter', `track:covariates:${beforeId}:${afterId}:${at}`, found.dof))
  const log = coefficient(1)
  const gain = intervalStatement(combine(Math.expm1(log.value), [[log, Math.exp(log.value)]]))
  if (together.length > 0) return { gain, perRun: none, perKelvin: none, dof: found.dof, together }
  const [perRun, perKelvin] = [intervalStatement(coefficient(2)), intervalStatement(coefficient(3))]
  return { gain, perRun, perKelvin, dof, together }
}

/** ln level on a constant and some columns. */
function leastSquares(runs: readonly RunLevel[], columns: readonly (readonly number[])[]) {
  const rows = runs.map((_, i) => [1, ...columns.map((column) => column[i]!)])
  const y = runs.map(({ levelMs2 }) => Math.log(levelMs2.value))
  const places = rows[0]!.map((_, at) => at)
  const inverse = inverseOf(places.map((a) =>
    places.map((b) => rows.reduce((sum, row) => sum + row[a]! * row[b]!, 0))))
  const moments = places.map((a) => rows.reduce((sum, row, i) => sum + row[a]! * y[i]!, 0))
  const values = inverse.map((row) => row.reduce((sum, each, b) => sum + each * moments[b]!, 0))
  const dof = runs.length - places.length
  const square = rows.reduce((sum, row, i) =>
    sum + (y[i]! - row.reduce((at, x, b) => at + x * values[b]!, 0)) ** 2, 0)
  return { values, inverse, dof, variance: square / dof }
}

function centred(values: readonly number[]): number[] {
  const mean = values.reduce((sum, each) => sum + each, 0) / values.length
  return values.map((each) => each - mean)
}

function correlation(x: readonly number[], y: readonly number[]): number {
  const [a, b] = [centred(x), centred(y)]
  const product = (p: readonly number[], q: readonly number[]): number =>
    p.reduce((sum, each, i) => sum + each * q[i]!, 0)
  const size = Math.sqrt(product(a, a) * product(b, b))
  return size === 0 ? 0 : product(a, b) / size
}
