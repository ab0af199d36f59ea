/** Runs that may be compared, and each configuration against each earlier one. */
import { remark, type Remark } from '@core/remark'
import type { CircleRun, TrackSession } from '@core/schema'
import {
  combine, effectiveDof, intervalStatement, minus, standardUncertainty, studentCdf, told, untold, valueClaim,
  type Uncertain,
} from '@core/uncertainty'
import { fitOrder, logRatio, type OrderFit } from './drift'
import { isGrip, type GripRun } from './gripRuns'
import { lapSlipRemarks, lapSlips } from './lapSlips'
import { pooledScatter, runLevel, type SensorPlaces } from './levels'
import { bendFollows, covariateFit, pairedResult } from './plan'
import type { OrderDrift, RunLevel, TrackComparison, TrackGroup } from './types'

/** A surface this much warmer or cooler is worth a word, K (common practice, no source). */
const TEMPERATURE_MOVED_K = 3

/** What must be the same for two runs to be compared. */
function groupKey(run: GripRun): string {
  const ballast = run.ballastKg && run.ballastKg.value > 0 ? `:ballast-${run.ballastKg.value}` : ''
  if (run.kind === 'circle') return `circle:${run.radiusM.value}${ballast}`
  const where = [run.radiusM?.value, run.coneSpacingM?.value, run.manoeuvre === 'launch' ? run.overM : undefined]
    .flatMap((each) => (each === undefined ? [] : [each]))
  return [`log:${run.manoeuvre}`, ...where].join(':') + ballast
}

const isLevel = (found: RunLevel | Remark): found is RunLevel => 'levelMs2' in found

/** All groups of a session. Runs set aside take no part. */
export function trackGroups(session: TrackSession, places: SensorPlaces): { groups: TrackGroup[]; remarks: Remark[] } {
  const byKey = new Map<string, GripRun[]>()
  for (const run of session.runs) {
    if (run.setAside || !isGrip(run)) continue
    byKey.set(groupKey(run), [...(byKey.get(groupKey(run)) ?? []), run])
  }
  const remarks: Remark[] = []
  const groups: TrackGroup[] = []
  for (const [key, runs] of byKey) {
    const counted = runs.map((run) => (run.kind === 'circle' ? withoutSlips(run, runs) : run))
    const pooled = pooledScatter(counted)
    const levels: RunLevel[] = []
    for (const run of counted) {
      const level = runLevel(session, run, pooled, places)
      const slips = lapSlipRemarks(runs.find(({ id }) => id === run.id)!, runs)
      if (isLevel(level)) levels.push({ ...level, remarks: [...slips, ...level.remarks] })
      else remarks.push(...slips, level)
    }
    levels.sort((a, b) => a.order - b.order)
    if (levels.length > 0) groups.push(groupOf(session, key, runs[0] as GripRun, levels))
  }
  return { groups, remarks }
}

/** A lap that can be none of this circle counts as one put aside, until the builder corrects it or puts it aside. */
function withoutSlips(run: CircleRun, beside: readonly GripRun[]): CircleRun {
  const slips = new Set(lapSlips(run, beside).map(({ lapId }) => lapId))
  return { ...run, lapsS: run.lapsS.map((lap) => (slips.has(lap.id) ? { ...lap, setAside: { at: '', why: '' } } : lap)) }
}

function groupOf(session: TrackSession, key: string, first: GripRun, runs: readonly RunLevel[]): TrackGroup {
  const fit = fitOrder(runs, `track:${session.id}:${key}:runScatter`)
  const configurations = [...new Set(runs.map((run) => run.configurationId))]
  const comparisons = configurations.flatMap((afterId, at) =>
    configurations.slice(0, at).map((beforeId) => compare(fit, runs, beforeId, afterId)))
  const mean = runs.reduce((total, run) => total + run.levelMs2.value, 0) / runs.length
  const { dof, extra } = fit.driftedScatter
  return {
    key, manoeuvre: runs[0]!.manoeuvre, radiusM: first.radiusM?.value ?? null, runs,
    drift: driftOf(fit), runScatterMs2: dof === 0 ? null : Math.sqrt(extra) * mean, comparisons,
    remarks: groupRemarks(fit, runs, configurations.length, comparisons.length),
  }
}

function driftOf(fit: OrderFit): OrderDrift {
  if (!fit.slope) {
    return { perRun: untold('missing', { code: 'notDrivenTwice' }), verdict: 'untold' }
  }
  const perRun = intervalStatement(fit.slope)
  const { low, high } = perRun.interval
  return { perRun, verdict: low > 0 ? 'rises' : high < 0 ? 'falls' : 'none' }
}

function groupRemarks(fit: OrderFit, runs: readonly RunLevel[], configurations: number, pairs: number): Remark[] {
  const found: Remark[] = []
  const drift = driftOf(fit)
  if (drift.verdict === 'rises' || drift.verdict === 'falls') {
    found.push(remark('levelDrifts', { perRun: fit.slope!.value, runs: runs.length }))
  }
  const { dof } = fit.driftedScatter
  if (configurations > 1 && dof === 0) found.push(remark('runScatterUnknown'))
  if (configurations > 1 && dof > 0 && dof < 3) found.push(remark('runScatterHardlyKnown', { dof }))
  if (pairs > 3) found.push(remark('manyPairs', { pairs }))
  if (new Set(runs.map((run) => run.order)).size < runs.length) found.push(remark('orderTwice'))
  return found
}

const exponential = (log: Uncertain): Uncertain => combine(Math.exp(log.value), [[log, Math.exp(log.value)]])

function compare(fit: OrderFit, runs: readonly RunLevel[], beforeId: string, afterId: string): TrackComparison {
  const { value: log, driftRemoved, scatter } = logRatio(fit, beforeId, afterId)
  const map = driftRemoved ? fit.drifted : fit.plain
  const beforeMs2 = exponential(map.get(beforeId)!)
  const afterMs2 = exponential(map.get(afterId)!)
  const ratio = exponential(log)
  const known = scatter.factor !== null || bothKnown(runs, beforeId, afterId)
  const warmerK = warmerBy(runs, beforeId, afterId)
  const gain = valueClaim({ ...ratio, value: ratio.value - 1 })
  return {
    beforeId, afterId, manoeuvre: runs[0]!.manoeuvre, beforeMs2, afterMs2,
    differenceMs2: known ? intervalStatement(minus(afterMs2, beforeMs2)) : untoldScatter,
    gain: told(known ? gain : untoldScatter),
    probabilityHigher: known ? probabilityAbove(log) : null, driftRemoved, agreement: null,
    paired: pairedResult(runs, beforeId, afterId), covariates: covariateFit(runs, beforeId, afterId),
    warmerK,
    remarks: [
      ...pairRemarks(runs, warmerK, fit, driftRemoved),
      ...(driftRemoved && bendFollows(runs, beforeId, afterId) ? [remark('bendConfounded')] : []),
    ],
  }
}

const untoldScatter = untold('missing', { code: 'singleLap' })

/** True where each side has at least one run whose scatter is known. */
const bothKnown = (runs: readonly RunLevel[], beforeId: string, afterId: string): boolean =>
  [beforeId, afterId].every((id) => runs.some((run) => run.configurationId === id && run.scatterFrom !== 'none'))

/** Probability that an estimate's true value is above zero, given these readings alone. */
function probabilityAbove(value: Uncertain): number {
  const u = standardUncertainty(value)
  if (u === 0) return value.value > 0 ? 1 : 0
  return studentCdf(value.value / u, effectiveDof(value))
}

function pairRemarks(
  runs: readonly RunLevel[], warmerK: number | null, fit: OrderFit, driftRemoved: boolean,
): Remark[] {
  const found: Remark[] = []
  if (!driftRemoved) found.push(remark(fit.slope ? 'orderConfounded' : 'orderUnknown'))
  if (warmerK !== null) found.push(remark('temperaturesDiffer', { differenceK: warmerK }))
  if (runs.some((run) => run.manoeuvre === 'launch')) found.push(remark('launchMayBePower'))
  return found
}

/** How much warmer the surface was after than before, K; null where it is not known or hardly moved. */
function warmerBy(runs: readonly RunLevel[], beforeId: string, afterId: string): number | null {
  const [before, after] = [beforeId, afterId].map((id) =>
    meanTemperature(runs.filter((run) => run.configurationId === id)))
  if (before === null || before === undefined || after === null || after === undefined) return null
  return Math.abs(after - before) >= TEMPERATURE_MOVED_K ? after - before : null
}

function meanTemperature(runs: readonly RunLevel[]): number | null {
  const known = runs.flatMap((run) => (run.surfaceTemperatureK === null ? [] : [run.surfaceTemperatureK]))
  return known.length === 0 ? null : known.reduce((total, each) => total + each, 0) / known.length
}
