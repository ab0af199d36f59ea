/**
 * Drag on the bench: the pull of the line that holds a blown car on wheels that turn freely. Balance along the
 * road: D = T cos g + R with T the pull, g the line's fall, and R what the wheels hold by themselves: at rest it
 * lies anywhere between minus and plus rolling share times load, so its estimate is 0 and its distribution
 * rectangular (JCGM 100:2008, 4.3.7). CdA = D / q, q the run's mean dynamic pressure.
 */
import { carMass, controlsFor, linePull, type RunResult } from '@core/airflow'
import { localGravity } from '@core/chassis'
import { AXLES, type AirflowSession, type BlowerRun, type Chassis } from '@core/schema'
import {
  fromSource, known, mean, minus, over, plus, told, valueClaim, type Told, type Uncertain,
} from '@core/uncertainty'

/**
 * Most that rolling takes of the load on the tyres where no coast told it: common practice, no source
 * (scale tyres on hard ground roll with 1 to 3 % of their load).
 */
export const ASSUMED_ROLLING = 0.03

/** Why a pull tells no drag area: the car's weight or the air's speed is not known; the tray held the car, too. */
export type LineUntold = 'noMass' | 'noSpeed' | 'trayDown'

/** What the line of one run tells. */
export interface LineDrag {
  readonly sessionId: string
  readonly runId: string
  readonly name: string
  readonly configurationId: string
  readonly control: boolean
  readonly untold: LineUntold | null
  /** Drag of the car in the jet, N; null where it is not told. */
  readonly dragN: Told | null
  /** Drag area of the car in the jet, m^2. */
  readonly cdaM2: Told | null
  /** Drag area of the device: less the mean of the control runs whose pull was read; null without one. */
  readonly deviceM2: Told | null
  readonly controlRunIds: readonly string[]
  /** Where the most that the wheels hold by themselves comes from. */
  readonly rollingFrom: 'coasts' | 'assumed'
}

interface Pulled {
  readonly run: RunResult
  readonly untold: LineUntold | null
  readonly dragN: Uncertain | null
  readonly areaM2: Uncertain | null
}

/**
 * Drag of every blower run of a session whose line was read.
 *
 * @param results the session's runs as read, set aside ones left out
 * @param rollingShare most that rolling takes of the load, by coasts; null where none told it
 */
export function lineDrags(
  session: AirflowSession, results: readonly RunResult[], chassis: Chassis, rollingShare: number | null,
): LineDrag[] {
  const entered = new Map(session.runs.flatMap((run) => (run.kind === 'blower' ? [[run.id, run] as const] : [])))
  const share = rollingShare ?? ASSUMED_ROLLING
  const pulled = new Map(results.flatMap((run) => {
    const found = entered.get(run.runId)
    const read = found && pulledBy(found, run, chassis, share)
    return read ? [[run.runId, read] as const] : []
  }))
  return [...pulled.values()].map(({ run, untold, dragN, areaM2 }): LineDrag => {
    const controls = run.control ? [] : controlsFor(run, results)
      .flatMap(({ runId }) => {
        const area = pulled.get(runId)?.areaM2
        return area ? [{ runId, area }] : []
      })
    const device = areaM2 && controls.length > 0 ? minus(areaM2, mean(controls.map(({ area }) => area))) : null
    return {
      sessionId: run.sessionId, runId: run.runId, name: run.name, configurationId: run.configurationId,
      control: run.control, untold, dragN: toldOf(dragN), cdaM2: toldOf(areaM2), deviceM2: toldOf(device),
      controlRunIds: device ? controls.map(({ runId }) => runId) : [],
      rollingFrom: rollingShare === null ? 'assumed' : 'coasts',
    }
  })
}

const toldOf = (value: Uncertain | null): Told | null => value && told(valueClaim(value))

/** Null where no line was read. A tray on the ground holds the car by a friction that nobody knows. */
function pulledBy(entered: BlowerRun, run: RunResult, chassis: Chassis, rollingShare: number): Pulled | null {
  const pull = linePull(entered, chassis, run.sessionId)
  if (!pull) return null
  const nothing = (untold: LineUntold): Pulled => ({ run, untold, dragN: null, areaM2: null })
  const mass = carMass(chassis)
  if (!mass) return nothing('noMass')
  if (AXLES.some((axle) => run.axles[axle].touched)) return nothing('trayDown')
  const { claim } = run.grossTotalN
  const airN = claim.kind === 'value' ? claim.value.value : 0
  const loadN = Math.max(0, mass.value * localGravity(chassis.place).ms2.value + airN + pull.downN.value)
  const wheels = fromSource(
    0, (rollingShare * loadN) / Math.sqrt(3), known('lineRolling', `run:${run.runId}:rolling`, 'rectangular'))
  const dragN = plus(pull.alongN, wheels)
  return {
    run, dragN, untold: run.flow ? null : 'noSpeed', areaM2: run.flow && over(dragN, run.flow.dynamicPressurePa),
  }
}
