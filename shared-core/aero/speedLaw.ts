/** The speed law of one axle, or of both, from all runs of one measure. */
import type { RunResult } from '@core/airflow'
import type { Axle } from '@core/schema'
import {
  boundedClaim, combine, highEnd, lowEnd, mean, over, overPositive, sumClaims, told, untold, valueClaim,
  type CensorReason, type Claim, type Uncertain,
} from '@core/uncertainty'
import { exponentOf } from './exponent'
import { fitCla, lineThrough } from './forceOverPressure'
import type { ClaPoint, HeightLaw, SpeedLaw } from './types'

/** Set-up heights further apart than this, mm, tell how ClA goes with height. */
const HEIGHTS_APART_MM = 0.3

interface Entry {
  readonly run: RunResult
  readonly flow: NonNullable<RunResult['flow']>
  readonly dropMm: Uncertain | null
  readonly claim: Claim
  readonly staticDropMm: number
}

const entriesOf = (runs: readonly RunResult[], of: Axle | 'total'): Entry[] => runs.flatMap((run): Entry[] => {
  if (!run.flow) return []
  if (of !== 'total') {
    const { netN, totalDropMm } = run.axles[of]
    return [{ run, flow: run.flow, dropMm: totalDropMm, claim: netN.claim, staticDropMm: run.staticDropMm[of] }]
  }
  const { front, rear } = run.axles
  const dropMm = front.totalDropMm && rear.totalDropMm ? mean([front.totalDropMm, rear.totalDropMm]) : null
  return [{ run, flow: run.flow, dropMm, claim: run.totalN.claim, staticDropMm: 0 }]
})

type Plain = Entry & { readonly claim: Extract<Claim, { kind: 'value' }> }
const isPlainEntry = (entry: Entry): entry is Plain => entry.claim.kind === 'value'

/**
 * Fits the law. Plain runs tell the value; where there is none, what the others leave open is told.
 *
 * @param name of the one estimate of surplus scatter: what scatters on both axles alike is shared by both
 * @param chance of a verdict against V squared where it holds
 */
export function speedLaw(runs: readonly RunResult[], of: Axle | 'total', name: string, chance: number): SpeedLaw {
  const entries = entriesOf(runs, of)
  const plain = entries.filter(isPlainEntry)
  const fit = plain.length > 0
    ? fitCla(plain.map(({ claim, flow }) => ({ forceN: claim.value, pressurePa: flow.dynamicPressurePa })), name)
    : null
  const speeds = (plain.length > 0 ? plain : entries).map(({ flow }) => flow.speedMs.value)
  const extrapolated = plain.length > 0 && plain.every(({ claim }) => claim.extrapolated)
  return {
    claM2: told(fit ? valueClaim(fit.claM2, extrapolated) : boundedCla(entries)),
    points: entries.map((entry) => pointOf(entry, plain.indexOf(entry as Plain), fit)),
    chiSquare: fit?.chiSquare ?? 0, dof: fit?.dof ?? 0, pValue: fit?.pValue ?? 1, birge: fit?.birge ?? 1,
    exponent: exponentOf(plain.map(({ claim, flow }) => ({ forceN: claim.value, speedMs: flow.speedMs })), chance),
    height: of === 'total' ? null : heightLaw(plain),
    lowMs: Math.min(...speeds), highMs: Math.max(...speeds),
  }
}

function pointOf(
  { run, flow, dropMm, claim }: Entry, at: number, fit: ReturnType<typeof fitCla> | null,
): ClaPoint {
  return {
    runId: run.runId, speedMs: flow.speedMs, dynamicPressurePa: flow.dynamicPressurePa, dropMm,
    forceN: told(claim), claM2: told(overPositive(claim, flow.dynamicPressurePa)),
    weight: at < 0 ? 0 : fit?.weights[at] ?? 0, residual: at < 0 ? null : fit?.residuals[at] ?? null,
  }
}

/**
 * ClA from runs that only bound it. Forces at touch-down are all much alike, so the run of lowest
 * dynamic pressure bounds from below best, and that of highest from above. The run is chosen by its
 * pressure, not by its bound: choosing the best-looking bound would make it say more than it may.
 */
function boundedCla(entries: readonly Entry[]): Claim {
  const byPressure = [...entries].sort((a, b) => a.flow.dynamicPressurePa.value - b.flow.dynamicPressurePa.value)
  const below = byPressure.find(({ claim }) => lowEnd(claim))
  const above = [...byPressure].reverse().find(({ claim }) => highEnd(claim))
  if (!below && !above) {
    const first = entries[0]?.claim
    return first?.kind === 'untold' ? first : untold('missing', { code: 'noRun' })
  }
  const reason = (entry: Entry): CensorReason => (entry.claim.kind === 'value' ? 'memberCensored' : entry.claim.reason)
  const cla = (entry: Entry, end: Uncertain): Uncertain => over(end, entry.flow.dynamicPressurePa)
  return boundedClaim(
    below ? cla(below, lowEnd(below.claim)!) : null, above ? cla(above, highEnd(above.claim)!) : null,
    reason((below ?? above)!),
  )
}

/** ClA against drop, where runs were made at clearly different set-up heights. */
function heightLaw(plain: readonly Plain[]): HeightLaw | null {
  const set = plain.map(({ staticDropMm }) => staticDropMm)
  if (plain.length < 2 || !(Math.max(...set) - Math.min(...set) >= HEIGHTS_APART_MM)) return null
  if (plain.some(({ dropMm }) => dropMm === null)) return null
  const drops = plain.map(({ dropMm }) => dropMm!)
  const middle = drops.reduce((sum, { value }) => sum + value, 0) / drops.length
  const x = drops.map(({ value }) => value - middle)
  const values = plain.map(({ claim, flow }) => over(claim.value, flow.dynamicPressurePa))
  const first = lineThrough(x, values)
  if (!first) return null
  // Errors of the drops count with the slope just found.
  const whole = values.map((each, i) => combine(each.value, [[each, 1], [drops[i]!, -first.slope.value]]))
  const line = lineThrough(x, whole)!
  return {
    atDropMm: middle, claM2: line.intercept, slopeM2PerMm: line.slope,
    lowMm: Math.min(...drops.map(({ value }) => value)), highMm: Math.max(...drops.map(({ value }) => value)),
  }
}

/**
 * The law of both axles together: its value is the sum of theirs, its points and checks the runs' totals.
 * Where an axle's own load can't be told (a tray on the ground past the other axle), what the totals bound stands.
 */
export function totalLaw(
  runs: readonly RunResult[], axles: Readonly<Record<Axle, SpeedLaw>>, name: string, chance: number,
): SpeedLaw {
  const own = speedLaw(runs, 'total', name, chance)
  const bySum = sumClaims([axles.front.claM2.claim, axles.rear.claM2.claim])
  return bySum.kind === 'value' ? { ...own, claM2: told(bySum) } : own
}

/** ClA at a drop: by the height law where there is one, else the same everywhere. */
export function claAt({ claM2, height }: SpeedLaw, dropMm: number): Claim {
  if (!height) return claM2.claim
  const by = dropMm - height.atDropMm
  const outside = dropMm < height.lowMm - HEIGHTS_APART_MM || dropMm > height.highMm + HEIGHTS_APART_MM
  return valueClaim(combine(height.claM2.value + by * height.slopeM2PerMm.value, [
    [height.claM2, 1], [height.slopeM2PerMm, by],
  ]), outside)
}

/** Change of ClA per mm of drop. */
export const claSlope = ({ height }: SpeedLaw): number => height?.slopeM2PerMm.value ?? 0
