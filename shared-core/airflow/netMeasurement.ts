/** The load of a run as trials are to draw it: the same measurand as its statement, nothing left out. */
import type { DropReading, NetForce } from '@core/calibration'
import type { Axle } from '@core/schema'
import { exact, plus, scaled, sum, times, type Uncertain } from '@core/uncertainty'
import { controlFactor } from './control'
import type { AxleLoad, RunResult } from './types'

/** A drop to be read by the axle's curve, and what is taken off the force it gives. */
export interface NetMeasurement { readonly reading: DropReading; readonly net: NetForce }

/**
 * What the net load of an axle is made from: its drop, less the set-up's own, pitch, holding and the control
 * runs, scaled as in the statement. Null where the axle was not read.
 *
 * @param runs of the session, in which the control runs are found
 */
export function netMeasurement(run: RunResult, axle: Axle, runs: readonly RunResult[]): NetMeasurement | null {
  const load = run.axles[axle]
  const own = readingOf(run, load)
  if (!own) return null
  const controls = runs.filter(({ runId }) => run.controlRunIds.includes(runId))
  const shares = controls.map((control) => scaled(controlFactor(run, control), -1 / controls.length))
  const others = controls.flatMap((control, i) => {
    const reading = readingOf(control, control.axles[axle])
    return reading ? [{ reading, factor: shares[i]! }, ...resting(control, axle, shares[i]!)] : []
  })
  const less = sum([takenOff(load), ...controls.map((control, i) => times(takenOff(control.axles[axle]), shares[i]!))])
  return {
    reading: own,
    net: { others: [...resting(run, axle, exact(1)), ...others], less, claim: load.netN.claim },
  }
}

const loweredMm = ({ staticDropMm }: RunResult, axle: Axle): number => Math.max(0, staticDropMm[axle])

function readingOf(run: RunResult, { dropMm, branch, ground, axle }: AxleLoad): DropReading | null {
  return dropMm && { dropMm: plus(dropMm, exact(loweredMm(run, axle))), branch, touched: ground === 'relieved' }
}

/** Where the car was set lower, the force of that much drop is the springs', not the air's. */
function resting(run: RunResult, axle: Axle, factor: Uncertain): NetForce['others'] {
  const lowered = loweredMm(run, axle)
  if (lowered === 0) return []
  return [{ reading: { dropMm: exact(lowered), branch: 'mid', touched: false }, factor: scaled(factor, -1) }]
}

/** Load of pitch and holding, N: what the run's load was read too high by. */
function takenOff({ axle, pitchN, holdingN }: AxleLoad): Uncertain {
  const pitch = pitchN ? scaled(pitchN, axle === 'front' ? -1 : 1) : exact(0)
  return holdingN ? plus(pitch, holdingN) : pitch
}
