/**
 * Configurations against the order in which they were driven. Levels are taken as
 * ln level = configuration + slope (order - mean order), so that a slope is relative, and what all
 * runs share relatively (radius, sensor scale) leaves every difference by itself.
 *
 * A run is one observation, however many laps it has: where configurations were repeated, the scatter
 * of the runs about the fit counts with its few degrees of freedom. Where that leaves less than the
 * laps' own scatter does, the laps count: runs that agree by luck do not make laps better.
 */
import {
  combine, COVERAGE_PROBABILITY, effectiveDof, errorOf, fromSource, partsOf, studentQuantile, variance, type Uncertain,
} from '@core/uncertainty'
import { extraVariance } from './runScatter'
import { runScatterSource } from './sources'
import type { RunLevel } from './types'

interface Row { readonly run: RunLevel; readonly order: number; readonly log: number; readonly own: number }
type Groups = ReadonlyMap<string, Row[]>

/** How far runs scatter about a fit. */
export interface RunScatter {
  /** Degrees of freedom; 0 where nothing was repeated. */
  readonly dof: number
  /** Relative variance of a run beyond its laps' own. */
  readonly extra: number
  /** Factor on the runs' variances that the runs themselves tell; null where the laps count. */
  readonly factor: number | null
}

export interface OrderFit {
  /** ln of each configuration's level at the mean order; `plain` leaves the drift in. */
  readonly drifted: ReadonlyMap<string, Uncertain>
  readonly plain: ReadonlyMap<string, Uncertain>
  /** Relative change per run; null where no configuration was driven at two different orders. */
  readonly slope: Uncertain | null
  readonly driftedScatter: RunScatter
  readonly plainScatter: RunScatter
  /** Orders driven, by configuration. */
  readonly orders: ReadonlyMap<string, readonly number[]>
}

/** What of a run's level is its own: what its siblings do not share. */
export const ownError = ({ levelMs2 }: Pick<RunLevel, 'levelMs2'>): Uncertain => errorOf(levelMs2, 'run')

/** Variance of ln level that is the run's own. */
const ownVariance = (run: RunLevel): number => variance(ownError(run)) / run.levelMs2.value ** 2

/** Smallest relative u that a run's own part is taken to have, so that no run outweighs all others. */
const FLOOR_VARIANCE = 1e-8 ** 2

const sumOf = (rows: readonly Row[], of: (row: Row) => number): number =>
  rows.reduce((total, row) => total + of(row), 0)

function byConfiguration(rows: readonly Row[]): Map<string, Row[]> {
  const groups = new Map<string, Row[]>()
  for (const row of rows) {
    const held = groups.get(row.run.configurationId)
    if (held) held.push(row)
    else groups.set(row.run.configurationId, [row])
  }
  return groups
}

/** Weighted means and slope for a given extra variance, as linear forms of the rows' values. */
function solve(groups: Groups, extra: number, withSlope: boolean) {
  const weight = (row: Row) => 1 / (row.own + extra)
  const means = new Map([...groups].map(([id, rows]) => {
    const total = sumOf(rows, weight)
    return [id, {
      total, order: sumOf(rows, (row) => weight(row) * row.order) / total,
      log: sumOf(rows, (row) => weight(row) * row.log) / total,
    }]
  }))
  const all = [...groups.values()].flat()
  const meanOf = (row: Row) => means.get(row.run.configurationId)!
  const square = sumOf(all, (row) => weight(row) * (row.order - meanOf(row).order) ** 2)
  const slope = withSlope ? sumOf(all, (row) => weight(row) * (row.order - meanOf(row).order) * row.log) / square : 0
  const misfit = sumOf(all, (row) =>
    weight(row) * (row.log - meanOf(row).log - slope * (row.order - meanOf(row).order)) ** 2)
  return { means, square, slope, misfit, weight, all }
}

/** Fits a group of runs that may be compared. One or more runs. */
export function fitOrder(runs: readonly RunLevel[], pool: string): OrderFit {
  const rows = runs.map((run) => ({
    run, order: run.order, log: Math.log(run.levelMs2.value), own: ownVariance(run) + FLOOR_VARIANCE,
  }))
  const groups = byConfiguration(rows)
  const orders = new Map([...groups].map(([id, group]) => [id, group.map((row) => row.order)]))
  const hasSlope = [...orders.values()].some((each) => new Set(each).size > 1)
  const plainScatter = scatterOf(groups, rows, false)
  const plain = estimates(groups, plainScatter, pool).plain
  if (!hasSlope) return { plain, drifted: plain, slope: null, plainScatter, driftedScatter: plainScatter, orders }
  const driftedScatter = scatterOf(groups, rows, true)
  const { drifted, slope } = estimates(groups, driftedScatter, pool)
  return { plain, drifted, slope, plainScatter, driftedScatter, orders }
}

function scatterOf(groups: Groups, rows: readonly Row[], withSlope: boolean): RunScatter {
  const dof = rows.length - groups.size - (withSlope ? 1 : 0)
  if (dof < 1) return { dof: 0, extra: 0, factor: null }
  const misfit = (more: number): number => solve(groups, more, withSlope).misfit
  const extra = extraVariance(misfit, dof)
  if (extra > 0) return { dof, extra, factor: 1 }
  const factor = misfit(0) / dof
  const half = (1 + COVERAGE_PROBABILITY) / 2
  const byRuns = studentQuantile(half, dof) * Math.sqrt(factor)
  return { dof, extra, factor: byRuns > studentQuantile(half, lapsDof(rows)) ? factor : null }
}

/** Degrees of freedom of what the laps alone tell of all runs together. */
const lapsDof = (rows: readonly Row[]): number =>
  effectiveDof(combine(0, rows.map(({ run }) => [ownError(run), 1 / run.levelMs2.value] as const)))

/**
 * ln of a run's level. Where the runs tell the scatter, the run's whole own variance is theirs, with
 * their degrees of freedom (G. Knapp and J. Hartung, Stat. Med. 22 (2003) 2693).
 */
function logLevel(row: Row, { extra, factor, dof }: RunScatter, pool: string): Uncertain {
  const { levelMs2, runId } = row.run
  if (factor === null) return combine(row.log, [[levelMs2, 1 / levelMs2.value]])
  const shared = partsOf(levelMs2, ({ lifetime }) => lifetime !== 'run')
  const scatter = fromSource(0, Math.sqrt(factor * (row.own + extra)), runScatterSource(runId, pool, dof))
  return combine(row.log, [[shared, 1 / levelMs2.value], [scatter, 1]])
}

function estimates(groups: Groups, scatter: RunScatter, pool: string) {
  const { means, square, slope, weight, all } = solve(groups, scatter.extra, true)
  const values = new Map(all.map((row) => [row, logLevel(row, scatter, pool)]))
  const middle = sumOf(all, (row) => weight(row) * row.order) / sumOf(all, weight)
  const plain = new Map([...groups].map(([id, rows]) => {
    const { total, log } = means.get(id)!
    return [id, combine(log, rows.map((row) => [values.get(row)!, weight(row) / total] as const))]
  }))
  const perRun = combine(slope, all.map((row) => {
    const away = row.order - means.get(row.run.configurationId)!.order
    return [values.get(row)!, (weight(row) * away) / square] as const
  }))
  const drifted = new Map([...plain].map(([id, level]) => {
    const away = middle - means.get(id)!.order
    return [id, combine(level.value + slope * away, [[level, 1], [perRun, away]])]
  }))
  return { plain, drifted, slope: perRun }
}

/** Most that taking the drift out may widen a difference; beyond it, drift and device can't be told apart. */
const MOST_WIDENING = 2

/**
 * Ratio of the standard uncertainties of a difference with the drift taken out and left in, for runs
 * alike: the order alone tells it, so that no reading decides what is stated of it.
 */
function widening(orders: OrderFit['orders'], beforeId: string, afterId: string): number {
  const mean = (of: readonly number[]): number => of.reduce((sum, each) => sum + each, 0) / of.length
  const [before, after] = [orders.get(beforeId)!, orders.get(afterId)!]
  const square = [...orders.values()].reduce((sum, each) =>
    sum + each.reduce((own, order) => own + (order - mean(each)) ** 2, 0), 0)
  return Math.sqrt(1 + (mean(after) - mean(before)) ** 2 / square / (1 / before.length + 1 / after.length))
}

/** ln(after/before) with the drift taken out where the order of the runs allows it. */
export function logRatio(
  fit: OrderFit, beforeId: string, afterId: string,
): { value: Uncertain; driftRemoved: boolean; scatter: RunScatter } {
  const of = (map: ReadonlyMap<string, Uncertain>): Uncertain => {
    const before = map.get(beforeId)!
    const after = map.get(afterId)!
    return combine(after.value - before.value, [[after, 1], [before, -1]])
  }
  if (fit.slope === null || widening(fit.orders, beforeId, afterId) > MOST_WIDENING) {
    return { value: of(fit.plain), driftRemoved: false, scatter: fit.plainScatter }
  }
  return { value: of(fit.drifted), driftRemoved: true, scatter: fit.driftedScatter }
}
