/** All runs of a configuration to what is known of it. */
import { STANDARD_DENSITY, type RunResult } from '@core/airflow'
import { perAxleOf } from '@core/chassis'
import { remark, type Remark } from '@core/remark'
import { AXLES, type Axle, type Chassis } from '@core/schema'
import { lowerBound, mean, upperBound, WARNS } from '@core/uncertainty'
import { balanceOf } from './balance'
import { speedLaw, totalLaw } from './speedLaw'
import type { ConfigurationAero, Laws, Measure, SpeedLaw } from './types'

/** What a run measures: see `Measure`. */
export const measureOf = ({ controlRunIds }: RunResult): Measure => (controlRunIds.length > 0 ? 'lessControl' : 'asRead')

/**
 * ClA, balance and checks of one configuration from any mix of runs of any sessions; null where no
 * run with a speed belongs to it. Control runs take no part of their own.
 */
export function configurationAero(
  allRuns: readonly RunResult[], configurationId: string, chassis: Chassis,
): ConfigurationAero | null {
  const runs = allRuns.filter((run) => run.configurationId === configurationId && !run.control && run.flow !== null)
  const setUps = new Set(allRuns.filter(({ control }) => !control).map((run) => run.configurationId)).size
  const chance = WARNS / (AXLES.length * Math.max(1, setUps))
  const laws = (['lessControl', 'asRead'] as const).flatMap((measure): Laws[] => {
    const own = runs.filter((run) => measureOf(run) === measure)
    return own.length > 0 ? [lawsOf(own, measure, configurationId, chance)] : []
  })
  const [first, other = null] = laws
  if (!first) return null
  const { axles } = first
  const whole = runs.every((run) => measureOf(run) === 'asRead') ? first
    : lawsOf(runs.map(grossOf), 'asRead', `${configurationId}:whole`, chance)
  const densities = runs.map(({ air }) => air.densityKgM3)
  return {
    ...first, configurationId, other, whole,
    balance: balanceOf(axles.front.claM2.claim, axles.rear.claM2.claim, chassis),
    densityKgM3: densities.length > 0 ? mean(densities) : STANDARD_DENSITY, remarks: remarksOn(first, other, chance),
  }
}

/**
 * The car of a set-up that was blown only as control runs: what they read, as it was read. A control
 * run is the bare car in the same air, so it tells what the bare car carries; null where there is none.
 */
export const bareAero = (
  allRuns: readonly RunResult[], configurationId: string, chassis: Chassis,
): ConfigurationAero | null => configurationAero(
  allRuns.filter(({ control }) => control).map((run) => ({ ...run, control: false })), configurationId, chassis,
)

/** A run with its load as read, the control not taken off. */
const grossOf = (run: RunResult): RunResult => ({
  ...run, totalN: run.grossTotalN,
  axles: perAxleOf((axle) => ({ ...run.axles[axle], netN: run.axles[axle].grossN })),
})

function lawsOf(
  runs: readonly RunResult[], measure: Measure, configurationId: string, chance: number,
): Laws {
  const name = `speedLaw:${configurationId}:${measure}`
  const axles = perAxleOf((axle) => speedLaw(runs, axle, name, chance))
  return { measure, runIds: runs.map(({ runId }) => runId), axles, total: totalLaw(runs, axles, name, chance) }
}

function remarksOn(laws: Laws, other: Laws | null, chance: number): Remark[] {
  const remarks: Remark[] = []
  if (laws.measure === 'lessControl') remarks.push(remark('bodyworkLeftOut'))
  if (other) remarks.push(remark('twoMeasures', { runs: other.runIds.length }))
  for (const axle of AXLES) remarks.push(...lawRemarks(laws.axles[axle], axle, chance))
  return remarks
}

function lawRemarks(law: SpeedLaw, axle: Axle, chance: number): Remark[] {
  const remarks: Remark[] = []
  // A little more scatter widens the interval without a word: chance makes it in one project of twenty.
  if (law.birge > 1 && law.pValue < chance) {
    remarks.push(remark('runsScatter', { axle, factor: law.birge, pValue: law.pValue }))
  }
  const { verdict, exponent } = law.exponent
  if ((verdict === 'above' || verdict === 'below') && exponent.kind === 'interval') {
    remarks.push(remark(verdict === 'above' ? 'exponentAbove' : 'exponentBelow', {
      axle, exponent: exponent.value, low: exponent.interval.low, high: exponent.interval.high,
    }))
  }
  const { claim } = law.claM2
  for (const { claM2, runId, weight } of claim.kind === 'value' ? law.points : []) {
    if (weight > 0 || claim.kind !== 'value') continue
    const bound = claM2.claim
    if (bound.kind === 'atLeast' && lowerBound(bound.low) > upperBound(claim.value)) {
      remarks.push(remark('boundAboveLaw', { axle, boundM2: lowerBound(bound.low) }, { kind: 'run', runId }))
    }
  }
  return remarks
}
