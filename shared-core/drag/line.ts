/**
 * Drag on the bench: the pull of the line that holds a blown car on wheels that turn freely. Balance along the
 * road: D = T cos g + R with T the pull, g the line's fall, and R what the wheels hold by themselves: at rest it
 * lies anywhere between minus and plus rolling share times load, so its estimate is 0 and its distribution
 * rectangular (JCGM 100:2008, 4.3.7). Half of its variance belongs to all runs of a session, for the same wheels on
 * the same ground, eased into the line by the same hand; half to each run (common practice, no source): so it
 * neither leaves a difference whole nor is averaged away by repeats. CdA = D / q, q the run's mean dynamic pressure.
 */
import { carMass, controlsFor, linePull, type RunResult } from '@core/airflow'
import { localGravity, perAxleOf } from '@core/chassis'
import { AXLES, type AirflowSession, type Axle, type BlowerRun, type Chassis } from '@core/schema'
import {
  fromData, fromSource, known, mean, minus, over, plus, sum, told, valueClaim, variance, type Told, type Uncertain,
} from '@core/uncertainty'

/**
 * Most that rolling takes of the load on the tyres where no coast told it: common practice, no source
 * (scale tyres on hard ground roll with 1 to 3 % of their load).
 */
export const ASSUMED_ROLLING = 0.03

/** Rolling where coasts are wanting and a lap needs one: 1 to 3 % of the load, from the same practice. */
export const ROLLING_WITHOUT_COASTS = { share: 0.02, halfWidth: 0.01 } as const

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
  /** What the line put on each axle by its height and slope, N: taken off the run's load. */
  readonly pitchN: Readonly<Record<Axle, Told | null>>
}

/** All pulls of a set-up together. */
export interface LineSetup {
  readonly configurationId: string
  readonly runIds: readonly string[]
  /** Mean of its pulls, with what they scatter beyond what is stated of each. */
  readonly cdaM2: Told
  /** The same of the device; null where no run of it has a control whose pull was read. */
  readonly deviceM2: Told | null
}

interface Pulled {
  readonly run: RunResult
  readonly untold: LineUntold | null
  readonly dragN: Uncertain | null
  readonly areaM2: Uncertain | null
  readonly deviceM2: Uncertain | null
  readonly controlRunIds: readonly string[]
}

/** Drag by the line: of each run, and of each set-up. */
export interface LinesRead { readonly runs: readonly LineDrag[]; readonly setups: readonly LineSetup[] }

/**
 * Drag of every blower run whose line was read.
 *
 * @param blown sessions as entered and as read, set aside runs left out
 * @param rollingShare most that rolling takes of the load, by coasts; null where none told it
 */
export function readLines(
  blown: readonly { readonly session: AirflowSession; readonly results: readonly RunResult[] }[], chassis: Chassis,
  rollingShare: number | null,
): LinesRead {
  const pulled = blown.flatMap(({ session, results }) =>
    pulledOf(session, results, chassis, rollingShare ?? ASSUMED_ROLLING))
  return {
    runs: pulled.map(({ run, untold, dragN, areaM2, deviceM2, controlRunIds }): LineDrag => ({
      sessionId: run.sessionId, runId: run.runId, name: run.name, configurationId: run.configurationId,
      control: run.control, untold, dragN: toldOf(dragN), cdaM2: toldOf(areaM2), deviceM2: toldOf(deviceM2),
      controlRunIds, rollingFrom: rollingShare === null ? 'assumed' : 'coasts',
      pitchN: perAxleOf((axle) => toldOf(run.axles[axle].holdingN)),
    })),
    setups: chassis.configurations.flatMap(({ id }) => setupOf(id, pulled)),
  }
}

function pulledOf(
  session: AirflowSession, results: readonly RunResult[], chassis: Chassis, share: number,
): readonly Pulled[] {
  const entered = new Map(session.runs.flatMap((run) => (run.kind === 'blower' ? [[run.id, run] as const] : [])))
  const alone = new Map(results.flatMap((run) => {
    const found = entered.get(run.runId)
    const read = found && pulledBy(found, run, chassis, share)
    return read ? [[run.runId, read] as const] : []
  }))
  return [...alone.values()].map((read): Pulled => {
    const { run, areaM2 } = read
    const controls = run.control ? [] : controlsFor(run, results)
      .flatMap(({ runId }) => {
        const area = alone.get(runId)?.areaM2
        return area ? [{ runId, area }] : []
      })
    if (!areaM2 || controls.length === 0) return read
    return {
      ...read, deviceM2: minus(areaM2, mean(controls.map(({ area }) => area))),
      controlRunIds: controls.map(({ runId }) => runId),
    }
  })
}

/** A bare set-up was pulled as control run alone, and goes by that. */
function setupOf(configurationId: string, pulled: readonly Pulled[]): LineSetup[] {
  const own = pulled.filter(({ run, areaM2 }) => run.configurationId === configurationId && areaM2)
  const device = own.filter(({ run }) => !run.control)
  const counted = device.length > 0 ? device : own
  if (counted.length === 0) return []
  const of = (key: 'areaM2' | 'deviceM2'): Told | null => {
    const values = counted.flatMap((each) => each[key] ?? [])
    return values.length === 0 ? null : toldOf(repeated(values, `line:${configurationId}:${key}`))
  }
  return [{
    configurationId, runIds: counted.map(({ run }) => run.runId), cdaM2: of('areaM2')!, deviceM2: of('deviceM2'),
  }]
}

/**
 * Mean of repeats. They may scatter by more than their own stated parts let expect (the sum of their variances less
 * that of their mean, n times, over n - 1): what is over stands as a part of its own, learned from so many.
 */
export function repeated(values: readonly Uncertain[], id: string): Uncertain {
  const middle = mean(values)
  const n = values.length
  if (n < 2) return middle
  const seen = values.reduce((sum, { value }) => sum + (value - middle.value) ** 2, 0) / (n - 1)
  const stated = (values.reduce((sum, each) => sum + variance(each), 0) - n * variance(middle)) / (n - 1)
  const beyond = Math.sqrt(Math.max(0, seen - stated) / n)
  return beyond === 0 ? middle : plus(middle, fromSource(0, beyond, fromData('pullScatter', id, n - 1)))
}

function toldOf(value: Uncertain): Told
function toldOf(value: Uncertain | null): Told | null
function toldOf(value: Uncertain | null): Told | null {
  return value && told(valueClaim(value))
}

/** Null where no line was read. A tray on the ground holds the car by a friction that nobody knows. */
function pulledBy(entered: BlowerRun, run: RunResult, chassis: Chassis, rollingShare: number): Pulled | null {
  const pull = linePull(entered, chassis, run.sessionId)
  if (!pull) return null
  const alone = { run, deviceM2: null, controlRunIds: [] }
  const nothing = (untold: LineUntold): Pulled => ({ ...alone, untold, dragN: null, areaM2: null })
  const mass = carMass(chassis)
  if (!mass) return nothing('noMass')
  if (AXLES.some((axle) => run.axles[axle].touched)) return nothing('trayDown')
  const { claim } = run.grossTotalN
  const airN = claim.kind === 'value' ? claim.value.value : 0
  const loadN = Math.max(0, mass.value * localGravity(chassis.place).ms2.value + airN + pull.downN.value)
  const half = (rollingShare * loadN) / Math.sqrt(6)
  const dragN = sum([
    pull.alongN,
    fromSource(0, half, known('wheelsHold', `holding:${run.sessionId}:wheels`, 'rectangular')),
    fromSource(0, half, known('lineRolling', `run:${run.runId}:rolling`, 'rectangular')),
  ])
  return {
    ...alone, dragN, untold: run.flow ? null : 'noSpeed', areaM2: run.flow && over(dragN, run.flow.dynamicPressurePa),
  }
}
