/** A session of coasts: from what was entered to the drag of each set-up. */
import { carMass, readAir } from '@core/airflow'
import { localGravity } from '@core/chassis'
import type { Chassis, CoastRun, CoastSession } from '@core/schema'
import {
  fromSource,
  known,
  minus,
  subtractClaims,
  told,
  valueClaim,
  type Claim,
  type Told,
  type Uncertain,
} from '@core/uncertainty'
import { fitCoasts, type CoastRefusal } from './coastFit'
import { coastParts, dragOf, pressedShare, wider, type CoastParts } from './parts'
import type { CoastData, CoastFit, CoastInput, ConfigurationDrag, Speeds } from './types'

/** Gates that a run needs: two speeds and how they differ. */
const LEAST_GATES = 3
const LEAST_READINGS = 3

/** What keeps a session from telling a drag. */
export type CoastsUntold = CoastRefusal | 'noMass' | 'noCoasts'

/** All that a session of coasts tells. */
export interface CoastsRead {
  readonly sessionId: string
  readonly name: string
  readonly untold: CoastsUntold | null
  /** Runs that took no part, for want of readings in order. */
  readonly unreadRunIds: readonly string[]
  readonly fit: CoastFit | null
  readonly rollingShare: Told | null
  readonly windMs: Told | null
  readonly drags: readonly ConfigurationDrag[]
  /** Every pair of set-ups once: drag area of A less that of B. */
  readonly differences: readonly DragDifference[]
  /** True where all coasts went one way: wind and slope are then only as good as what was told of them. */
  readonly oneWay: boolean
  /** True where the motor turned with the wheels: its own drag counts as rolling. */
  readonly motorTurned: boolean
  readonly parts: CoastParts | null
  /** A coast that would part rolling from air, where these can't; else null. */
  readonly wouldPart: Speeds | null
  readonly densityKgM3: Uncertain
  readonly rotatingShare: Uncertain
}

export interface DragDifference {
  readonly configurationA: string
  readonly configurationB: string
  readonly cdaM2: Told
}

/**
 * Reads a session of coasts.
 *
 * @param lift the whole car's lift area of a set-up by the bench, m^2; null where the bench tells none
 */
export function readCoasts(
  session: CoastSession,
  chassis: Chassis,
  lift: (configurationId: string) => Claim | null,
): CoastsRead {
  const densityKgM3 = readAir(session.air, session.id).densityKgM3
  const { value, u } = session.rotatingShare
  const rotatingShare = fromSource(value, u, known('turningParts', `coast:${session.id}:turning`))
  const runs = session.runs.filter((run) => run.purpose === 'coast' && run.setAside === null)
  const read = runs.filter((run) => dataOf(run) !== null)
  const head = {
    sessionId: session.id,
    name: session.name,
    densityKgM3,
    rotatingShare,
    unreadRunIds: runs.filter((run) => !read.includes(run)).map(({ id }) => id),
    oneWay: new Set(read.map(({ direction }) => direction)).size === 1,
    motorTurned: read.some(({ drivetrain }) => drivetrain === 'motorTurns'),
  }
  const nothing = (untold: CoastsUntold): CoastsRead => ({
    ...head,
    untold,
    fit: null,
    rollingShare: null,
    windMs: null,
    drags: [],
    differences: [],
    parts: null,
    wouldPart: untold === 'cantBeParted' ? wider(read.map(endsOf)) : null,
  })
  const mass = carMass(chassis)
  if (!mass) return nothing('noMass')
  if (read.length === 0) return nothing('noCoasts')
  const outcome = fitCoasts(
    read.map((run) => inputOf(run, mass.value, densityKgM3.value)),
    {
      gravityMs2: localGravity(chassis.place).ms2.value,
      rotatingShare: session.rotatingShare.value,
      windMs: session.windMs,
      slope: session.slope,
    },
  )
  if ('refused' in outcome) return nothing(outcome.refused)
  const parts = coastParts(outcome.fit, {
    sessionId: session.id,
    massKg: mass,
    rotatingShare,
    densityKgM3,
    lengthU: lengthU(session, read),
  })
  if (!parts) return nothing('cantBeParted')
  const drags = Object.keys(parts.areas).map((id) => dragOf(outcome.fit, parts, id, countOf(read, id), lift(id)))
  return {
    ...head,
    untold: null,
    fit: outcome.fit,
    parts,
    drags,
    wouldPart: drags.find(({ wouldPart }) => wouldPart)?.wouldPart ?? null,
    differences: differencesOf(drags, parts, lift),
    rollingShare: told(valueClaim(parts.rollingShare)),
    windMs: told(valueClaim(parts.windMs)),
  }
}

/** Speeds at the beginning and the end of a run, as read. */
function endsOf(run: CoastRun): Speeds {
  const data = dataOf(run)!
  if (data.kind === 'speeds') return { startMs: data.vMs[0]!, endMs: data.vMs.at(-1)! }
  const over = (from: number, to: number): number => (data.xM[to]! - data.xM[from]!) / (data.tS[to]! - data.tS[from]!)
  const last = data.xM.length - 1
  return { startMs: over(0, 1), endMs: over(last - 1, last) }
}

const countOf = (runs: readonly CoastRun[], id: string): number =>
  runs.filter(({ configurationId }) => configurationId === id).length

/**
 * Differences of the areas as shown, less the tyres' share: told even where neither area can be parted
 * from rolling by itself, since the rolling that both share leaves the difference.
 */
function differencesOf(
  drags: readonly ConfigurationDrag[],
  parts: CoastParts,
  lift: (id: string) => Claim | null,
): DragDifference[] {
  return drags.flatMap((one, i) =>
    drags.slice(i + 1).map((other): DragDifference => {
      const shown = valueClaim(minus(parts.areas[one.configurationId]!, parts.areas[other.configurationId]!))
      const [a, b] = [one, other].map(({ configurationId }) => pressedShare(parts, lift(configurationId)))
      const pressed =
        a && b ? subtractClaims(a, b) : (a ?? (b && subtractClaims(valueClaim({ value: 0, parts: [] }), b)))
      return {
        configurationA: one.configurationId,
        configurationB: other.configurationId,
        cdaM2: told(pressed ? subtractClaims(shown, pressed) : shown),
      }
    }),
  )
}

/** Relative standard uncertainty of lengths: of the gates' tape, or of the log's speeds; the larger of both. */
function lengthU(session: CoastSession, runs: readonly CoastRun[]): number {
  return Math.max(
    ...runs.map(({ data }) => {
      if (data.kind === 'speeds') return session.speedScaleU
      if (data.kind === 'pulses') return data.perPulseMm.u / data.perPulseMm.value
      const far = data.gates.at(-1)!.distanceMm
      return far.u / far.value
    }),
  )
}

/** A run's data in SI; null with too few readings, or where they are not in order. */
export function dataOf({ data }: CoastRun): CoastData | null {
  if (data.kind === 'speeds') {
    const tS = data.readings.map(({ timeS }) => timeS)
    return tS.length >= LEAST_READINGS && rises(tS)
      ? { kind: 'speeds', tS, vMs: data.readings.map(({ speedMs }) => speedMs) }
      : null
  }
  const tS = data.kind === 'gates' ? data.gates.map(({ timeS }) => timeS) : data.timesS
  const xM =
    data.kind === 'gates'
      ? data.gates.map(({ distanceMm }) => distanceMm.value / 1000)
      : data.timesS.map((_, i) => (i * data.perPulseMm.value) / 1000)
  return tS.length >= LEAST_GATES && rises(tS) && rises(xM) ? { kind: 'gates', tS, xM } : null
}

const rises = (values: readonly number[]): boolean => values.every((each, i) => i === 0 || each > values[i - 1]!)

function inputOf(run: CoastRun, massKg: number, densityKgM3: number): CoastInput {
  const { data } = run
  return {
    id: run.id,
    configurationId: run.configurationId,
    sense: run.direction === 'out' ? 1 : -1,
    massKg: massKg + run.ballastKg,
    densityKgM3,
    data: dataOf(run)!,
    uSpeedMs: data.kind === 'speeds' ? data.uSpeedMs : null,
    uTimeS: data.uTimeS,
  }
}
