/**
 * Configurations against the order in which they were driven. Levels are taken as
 * ln level = configuration + slope (order - mean order), so that a slope is relative, and what all
 * runs share relatively (radius, sensor scale) leaves every difference by itself.
 */
import { combine, fromSource, standardUncertainty, variance, type Uncertain } from '@core/uncertainty'
import { extraVariance } from './runScatter'
import { runScatterSource } from './sources'
import type { RunLevel } from './types'

interface Row { readonly run: RunLevel; readonly order: number; readonly log: number; readonly own: number }

export interface OrderFit {
  /** ln of each configuration's level at the mean order; `plain` leaves the drift in. */
  readonly drifted: ReadonlyMap<string, Uncertain>
  readonly plain: ReadonlyMap<string, Uncertain>
  /** Relative change per run; null where no configuration was driven at two different orders. */
  readonly slope: Uncertain | null
  /** Relative run-to-run scatter beyond the laps' own; null where nothing was repeated. */
  readonly runScatter: number | null
  /** Degrees of freedom of the run scatter. */
  readonly runDof: number
}

const isOwn = (sourceId: string, run: RunLevel): boolean => sourceId.startsWith(`track:run:${run.runId}:`)

/** Variance of ln level that is the run's own: what its siblings do not share. */
function ownVariance(run: RunLevel): number {
  const own = run.levelMs2.parts.filter(({ source }) => isOwn(source.id, run))
  return variance({ value: 0, parts: own }) / run.levelMs2.value ** 2
}

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
function solve(groups: ReadonlyMap<string, Row[]>, extra: number, withSlope: boolean) {
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
  const hasSlope = [...groups.values()].some((group) => new Set(group.map((row) => row.order)).size > 1)
  const dof = rows.length - groups.size - (hasSlope ? 1 : 0)
  const extra = dof > 0 ? extraVariance((more) => solve(groups, more, hasSlope).misfit, dof) : 0
  const values = new Map(rows.map((row) => [row, logLevel(row, extra, pool, dof)]))
  return {
    ...estimates(groups, extra, hasSlope, values),
    runScatter: dof > 0 ? Math.sqrt(extra) : null, runDof: Math.max(0, dof),
  }
}

/**
 * ln of a run's level. Where the runs scatter more than their laps, the run's whole own variance has
 * the degrees of freedom of the run scatter (G. Knapp and J. Hartung, Stat. Med. 22 (2003) 2693): the
 * laps' many cannot make up for few runs.
 */
function logLevel(row: Row, extra: number, pool: string, dof: number): Uncertain {
  const { levelMs2, runId } = row.run
  if (extra === 0) return combine(row.log, [[levelMs2, 1 / levelMs2.value]])
  const shared = { ...levelMs2, parts: levelMs2.parts.filter(({ source }) => !isOwn(source.id, row.run)) }
  const scatter = fromSource(0, Math.sqrt(row.own + extra), runScatterSource(runId, pool, dof))
  return combine(row.log, [[shared, 1 / levelMs2.value], [scatter, 1]])
}

function estimates(
  groups: ReadonlyMap<string, Row[]>, extra: number, hasSlope: boolean, values: ReadonlyMap<Row, Uncertain>,
): Pick<OrderFit, 'drifted' | 'plain' | 'slope'> {
  const { means, square, slope, weight, all } = solve(groups, extra, hasSlope)
  const middle = sumOf(all, (row) => weight(row) * row.order) / sumOf(all, weight)
  const plain = new Map([...groups].map(([id, rows]) => {
    const { total, log } = means.get(id)!
    return [id, combine(log, rows.map((row) => [values.get(row)!, weight(row) / total] as const))]
  }))
  if (!hasSlope) return { plain, drifted: plain, slope: null }
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

/** ln(after/before) with the drift taken out where the order of the runs allows it. */
export function logRatio(
  fit: OrderFit, beforeId: string, afterId: string,
): { value: Uncertain; driftRemoved: boolean } {
  const of = (map: ReadonlyMap<string, Uncertain>): Uncertain => {
    const before = map.get(beforeId)!
    const after = map.get(afterId)!
    return combine(after.value - before.value, [[after, 1], [before, -1]])
  }
  const plain = of(fit.plain)
  if (fit.slope === null) return { value: plain, driftRemoved: false }
  const drifted = of(fit.drifted)
  const widening = standardUncertainty(drifted) / Math.max(standardUncertainty(plain), Number.MIN_VALUE)
  return widening <= MOST_WIDENING ? { value: drifted, driftRemoved: true } : { value: plain, driftRemoved: false }
}
