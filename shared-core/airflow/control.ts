/**
 * The control run: the same air without the device (or with it shielded). A jet presses on the
 * bodywork by itself; what the control run reads is taken off. What both share (the curve, the
 * gauge's scale, the anemometer) cancels by itself, since the sources have the same names.
 */
import { perAxleOf } from '@core/chassis'
import { remark, type Remark } from '@core/remark'
import type { Axle } from '@core/schema'
import {
  exact, over, scaleClaim, subtractClaims, sumClaims, timesPositive, told, type Claim, type Uncertain,
} from '@core/uncertainty'
import type { AxleLoad, RunResult } from './types'

/** Control runs within this share of the speed may serve where none has the same setting. */
const NEAR_SPEED = 0.15
/** Scaling by more than this is said. */
const SAID_SCALING = 0.02

/**
 * Control runs for a run: of the same kind and setting (else of near speed), of the same configuration
 * where there is one.
 */
export function controlsFor(run: RunResult, all: readonly RunResult[]): RunResult[] {
  const same = all.filter((each) => each.control && each.kind === run.kind && each.sessionId === run.sessionId)
  const matching = run.kind === 'blower' ? same.filter(({ setting }) => setting === run.setting) : []
  const near = matching.length > 0 ? matching : same.filter((each) => nearSpeed(each, run))
  const own = near.filter(({ configurationId }) => configurationId === run.configurationId)
  return own.length > 0 ? own : near
}

const nearSpeed = (one: RunResult, other: RunResult): boolean => {
  if (!one.flow || !other.flow) return false
  return Math.abs(one.flow.speedMs.value / other.flow.speedMs.value - 1) <= NEAR_SPEED
}

/** What a control run's load is to be multiplied by: the ratio of the dynamic pressures, 1 where one is not known. */
export const controlFactor = (run: RunResult, control: RunResult): Uncertain =>
  (run.flow && control.flow ? over(run.flow.dynamicPressurePa, control.flow.dynamicPressurePa) : exact(1))

/** The run with its controls taken off. */
export function lessControl(run: RunResult, all: readonly RunResult[]): RunResult {
  if (run.control) return run
  const controls = controlsFor(run, all)
  if (controls.length === 0) {
    return run.kind === 'blower' ? { ...run, remarks: [...run.remarks, remark('noControlRun')] } : run
  }
  const remarks: Remark[] = []
  const factors = controls.map((control): Uncertain => {
    const factor = controlFactor(run, control)
    if (Math.abs(factor.value - 1) > SAID_SCALING) {
      remarks.push(remark('controlScaled', { factor: factor.value }, { kind: 'run', runId: control.runId }))
    }
    return factor
  })
  const axles = perAxleOf((axle) => axleLess(run.axles[axle], controls, factors, axle))
  const total = meanOf(controls.map((control, i) => timesPositive(control.grossTotalN.claim, factors[i]!)))
  return {
    ...run, axles, totalN: told(subtractClaims(run.grossTotalN.claim, total)),
    controlRunIds: controls.map(({ runId }) => runId), remarks: [...run.remarks, ...remarks],
  }
}

function axleLess(load: AxleLoad, controls: readonly RunResult[], factors: readonly Uncertain[], axle: Axle): AxleLoad {
  const control = meanOf(controls.map((each, i) => timesPositive(each.axles[axle].grossN.claim, factors[i]!)))
  return { ...load, controlN: told(control), netN: told(subtractClaims(load.grossN.claim, control)) }
}

const meanOf = (claims: readonly Claim[]): Claim => scaleClaim(sumClaims(claims), 1 / claims.length)
