/** Run results made by hand for the aero tests. */
import type { AxleLoad, RunResult } from '@core/airflow'
import {
  addClaims, combine, exact, fromData, fromSource, known, plus, scaled, told, valueClaim, type Claim, type Source,
  type   Uncertain,
} from '@core/uncertainty'

export const source = (id: string, dof = Infinity): Source =>
  (dof === Infinity ? known('weighing', id) : fromData('weighingRepeats', id, dof))

export const uncertain = (value: number, u: number, id: string, dof = Infinity): Uncertain =>
  fromSource(value, u, source(id, dof))

export interface Made {
  readonly id: string
  readonly configurationId?: string
  readonly pressurePa: Uncertain
  readonly front: Claim
  readonly rear: Claim
  readonly measured?: 'lessControl' | 'asRead'
  readonly staticDropMm?: number
  readonly dropMm?: number
  /** What the bare bodywork adds on each axle, N: in the load as read, not in what is left of it. */
  readonly bareN?: number
}

/** A plain load. */
export const load = (value: number, u: number, id: string, dof = Infinity): Claim =>
  valueClaim(uncertain(value, u, id, dof))
/** A plain load whose error each reading draws anew. */
export const readAnew = (value: number, u: number, id: string): Claim =>
  valueClaim(fromSource(value, u, known('readingRepeats', id)))
/** A load known to be at least this. */
export const atLeast = (value: number, u: number, id: string): Claim =>
  ({ kind: 'atLeast', low: uncertain(value, u, id), reason: 'touchedGround' })

export const DENSITY = 1.2

/** A run with these loads; its air has a density of exactly 1.2 kg/m3. */
export function made(
  {
    id, configurationId = 'plain', pressurePa, front, rear, measured = 'lessControl', staticDropMm = 0, dropMm = 1, bareN = 0,
  }: Made,
): RunResult {
  const square = scaled(pressurePa, 2 / DENSITY)
  const speed = Math.sqrt(square.value)
  const axle = (which: 'front' | 'rear', claim: Claim): AxleLoad => ({
    axle: which, dropMm: exact(dropMm), totalDropMm: plus(exact(dropMm), exact(staticDropMm)), driftMm: null, branch: 'mid',
    touched: claim.kind === 'atLeast', ground: 'none', pitchN: null, holdingN: null, tyreMm: null, grossN: told(addClaims(claim, valueClaim(exact(bareN)))), controlN: null, netN: told(claim),
  })
  const total = told(addClaims(front, rear))
  return {
    runId: id, sessionId: 'air', name: id, configurationId, kind: 'blower', control: false, setting: 'full',
    datum: 'hubToChassis', staticDropMm: { front: staticDropMm, rear: staticDropMm },
    air: {
      densityKgM3: exact(DENSITY), pressurePa: exact(1e5), temperatureK: exact(293), relativeHumidity: exact(0.5),
      remarks: [],
    },
    flow: {
      meanSquareM2S2: square, speedMs: combine(speed, [[square, 0.5 / speed]]), dynamicPressurePa: pressurePa,
      unevenness: null, pointCount: 1,
    },
    states: [], axles: { front: axle('front', front), rear: axle('rear', rear) },
    grossTotalN: told(addClaims(addClaims(front, rear), valueClaim(exact(2 * bareN)))), totalN: total,
    controlRunIds: measured === 'lessControl' ? ['control'] : [], remarks: [],
  }
}

/** Half rho V squared at a speed, with a shared relative uncertainty. */
export const pressure = (speedMs: number, relativeU = 0): Uncertain => {
  const value = 0.5 * DENSITY * speedMs ** 2
  return relativeU === 0 ? exact(value) : uncertain(value, relativeU * value, 'anemometer')
}
