/**
 * How a tyre's grip coefficient falls with its load, mu = mu0 (W/W0)^-s: entered, fitted from runs
 * with ballast, or assumed over the range that covers most tyres.
 */
import { remark, type Remark } from '@core/remark'
import type { TrackSession } from '@core/schema'
import {
  CALLS_FOR_ACTION, chiSquareUpper, combine, entered as measured, fromSource, known, partsOf, scaled,
  standardUncertainty, variance, type Uncertain,
} from '@core/uncertainty'
import type { BenchLoads, CarWeight, RunLevel, Sensitivity, TrackGroup } from './types'

/** Range assumed where nothing is known: none to a third (common practice, no source). */
export const ASSUMED_SENSITIVITY = { low: 0, high: 0.3 } as const

/** Extra load, relative to the weight, that the ballast must make before a fit means anything. */
const LEAST_LOAD_SPAN = 0.05

/** A level held under a load: the points of the fit. */
export interface LoadedLevel {
  readonly runId: string
  /** Total load on the tyres, above zero. */
  readonly loadN: Uncertain
  readonly levelMs2: Uncertain
}

export interface SensitivityFit {
  readonly sensitivity: Uncertain
  readonly chiSquare: number
  readonly dof: number
}

/**
 * Fits s of a = mu0 g (W/W0)^-s by weighted least squares of ln a on ln W; what all points share
 * relatively leaves the slope by itself. Null with fewer than two different loads.
 */
export function fitSensitivity(points: readonly LoadedLevel[]): SensitivityFit | null {
  const shared = sharedSources(points)
  const rows = points.map(({ loadN, levelMs2 }) => {
    const x = combine(Math.log(loadN.value), [[loadN, 1 / loadN.value]])
    const y = combine(Math.log(levelMs2.value), [[levelMs2, 1 / levelMs2.value]])
    const own = partsOf(y, ({ id }) => !shared.has(id))
    return { x, y, weight: 1 / Math.max(variance(own), 1e-16) }
  })
  const total = rows.reduce((sum, row) => sum + row.weight, 0)
  const middle = rows.reduce((sum, row) => sum + row.weight * row.x.value, 0) / total
  const level = rows.reduce((sum, row) => sum + row.weight * row.y.value, 0) / total
  const square = rows.reduce((sum, row) => sum + row.weight * (row.x.value - middle) ** 2, 0)
  const span = Math.max(...rows.map((row) => row.x.value)) - Math.min(...rows.map((row) => row.x.value))
  if (!(span >= LEAST_LOAD_SPAN)) return null
  const cross = rows.reduce((sum, row) => sum + row.weight * (row.x.value - middle) * row.y.value, 0)
  const slope = cross / square
  const fitted = (x: number) => level + slope * (x - middle)
  // First-order: the slope's change with each ordinate, and with each abscissa through the slope itself.
  const terms = rows.flatMap((row) => {
    const lever = (row.weight * (row.x.value - middle)) / square
    return [[row.y, -lever], [row.x, slope * lever]] as const
  })
  const chiSquare = rows.reduce((sum, row) => sum + row.weight * (row.y.value - fitted(row.x.value)) ** 2, 0)
  return { sensitivity: combine(-slope, terms), chiSquare, dof: rows.length - 2 }
}

/** Sources that every point has. */
function sharedSources(points: readonly LoadedLevel[]): Set<string> {
  const [first, ...others] = points.map(({ levelMs2 }) => new Set(levelMs2.parts.map(({ source }) => source.id)))
  return new Set([...(first ?? [])].filter((id) => others.every((other) => other.has(id))))
}

/** The sensitivity that a session's results rest on. */
export function sensitivityOf(
  session: TrackSession, groups: readonly TrackGroup[], weight: CarWeight | null, bench: BenchLoads | null,
): Sensitivity {
  if (session.tyreLaw) return entered(session)
  return fitted(session, groups, weight, bench) ?? assumed(session)
}

function entered(session: TrackSession): Sensitivity {
  const sensitivity = measured(session.tyreLaw!.sensitivity, 'sensitivity', `track:${session.id}:sensitivity`)
  return { sensitivity, from: 'entered', points: [], chiSquare: null, dof: null, remarks: [] }
}

/** The sensitivity where nothing is known: even over the assumed range, one source by the id given. */
export function assumedSensitivity(id: string): Uncertain {
  const { low, high } = ASSUMED_SENSITIVITY
  return fromSource((low + high) / 2, (high - low) / Math.sqrt(12), known('sensitivity', id, 'rectangular'))
}

const assumed = (session: TrackSession): Sensitivity => ({
  sensitivity: assumedSensitivity(`track:${session.id}:sensitivity`), from: 'assumed', points: [], chiSquare: null,
  dof: null, remarks: [remark('sensitivityAssumed', { ...ASSUMED_SENSITIVITY })],
})

/** From the configuration driven with the widest span of ballast on one circle. */
function fitted(
  session: TrackSession, groups: readonly TrackGroup[], weight: CarWeight | null, bench: BenchLoads | null,
): Sensitivity | null {
  if (!weight) return null
  const sets = new Map<string, RunLevel[]>()
  for (const group of groups) {
    if (group.manoeuvre !== 'circle') continue
    for (const run of group.runs) {
      const key = `${group.radiusM}|${run.configurationId}`
      sets.set(key, [...(sets.get(key) ?? []), run])
    }
  }
  const spanOf = (runs: readonly RunLevel[]) =>
    Math.max(...runs.map((run) => run.ballastKg)) - Math.min(...runs.map((run) => run.ballastKg))
  const [widest] = [...sets.values()].sort((a, b) => spanOf(b) - spanOf(a))
  if (!widest || spanOf(widest) === 0) return null
  const remarks: Remark[] = []
  const points = widest.map((run) => loaded(session, run, weight, bench, remarks))
  const fit = fitSensitivity(points)
  if (!fit) return null
  if (fit.dof > 0 && chiSquareUpper(fit.chiSquare, fit.dof) < CALLS_FOR_ACTION) {
    remarks.push(remark('sensitivityMisfit', { chiSquare: fit.chiSquare, dof: fit.dof }))
  }
  if (standardUncertainty(fit.sensitivity) > (ASSUMED_SENSITIVITY.high - ASSUMED_SENSITIVITY.low) / Math.sqrt(12)) {
    return null
  }
  return {
    sensitivity: fit.sensitivity, from: 'fitted', chiSquare: fit.chiSquare, dof: fit.dof, remarks,
    points: points.map(({ runId, loadN, levelMs2 }) => ({ runId, loadN: loadN.value, levelMs2: levelMs2.value })),
  }
}

/** Weight, ballast and, where the bench tells it plainly, the aero load at the speed driven. */
function loaded(
  session: TrackSession, run: RunLevel, weight: CarWeight, bench: BenchLoads | null, remarks: Remark[],
): LoadedLevel {
  const ballast = session.runs.find((each) => each.id === run.runId)?.ballastKg
  const ballastN = scaled(
    measured(ballast ?? { value: 0, u: 0 }, 'ballast', `track:run:${run.runId}:ballast`), weight.gravityMs2)
  const aero = run.speedMs && bench ? bench.loadAt(run.configurationId, run.speedMs)?.total : undefined
  const terms: (readonly [Uncertain, number])[] = [[weight.totalN, 1], [ballastN, 1]]
  if (aero?.kind === 'value') terms.push([aero.value, 1])
  else if (aero) remarks.push(remark('sensitivityWithoutAero', null, { kind: 'run', runId: run.runId }))
  return {
    runId: run.runId, levelMs2: run.levelMs2,
    loadN: combine(terms.reduce((total, [each]) => total + each.value, 0), terms),
  }
}
