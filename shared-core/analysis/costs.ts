/**
 * What downforce costs and what it is worth: drag of each set-up by coasts, load per drag, and laps of
 * the builder's courses with grip, power, load and drag together.
 */
import { ratioStatement, type ConfigurationAero } from '@core/aero'
import { carMass, type SessionRuns } from '@core/airflow'
import { localGravity } from '@core/chassis'
import { cornerLevels, powerFrom, type driveCourse, type CornerCar, type CornerLevels, type UncertainCar } from '@core/course'
import { dataOf, readCoasts, readLines, type CoastData, type CoastsRead, type DragDifference, type LinesRead } from '@core/drag'
import type { AirflowSession, Chassis, CoastSession, Course } from '@core/schema'
import { assumedSensitivity, type BenchLoads, type CarWeight, type TrackResult } from '@core/track'
import {
  combine,
  fromData,
  fromSource,
  isCensored,
  known,
  intervalStatement,
  lowEnd,
  mean,
  minus,
  over,
  standardUncertainty,
  valueClaim,
  type CensorReason,
  type Claim,
  type Statement,
  type Uncertain,
} from '@core/uncertainty'
import { dragSourceOf, type DragSource } from './dragSource'
import type { CostOfPair, CostOfSetup, CostResult, CourseWanting } from './types'

/** What the costs are worked out from. */
export interface CostContext {
  readonly chassis: Chassis
  readonly sessions: readonly CoastSession[]
  /** What was blown, as entered and as read. */
  readonly blown: readonly { readonly session: AirflowSession; readonly runs: SessionRuns }[]
  /** Aero of each set-up that was blown, a bare one by its control runs included. */
  readonly aeros: ReadonlyMap<string, ConfigurationAero>
  readonly bench: BenchLoads | null
  readonly weight: CarWeight | null
  readonly tracks: readonly TrackResult[]
  /** Load on both axles at which the tray is down, N, by set-up; absent where it is not known to touch. */
  readonly touchLoadN: ReadonlyMap<string, number>
  readonly cornerRadiusM: number | null
  /** Drives a course; null where nobody asks for laps. */
  readonly drive: DriveCourse | null
}

export type DriveCourse = typeof driveCourse

/** All costs of a file. Newest coasts first in `coasts`; the newest that tells a drag counts. */
export function costsOf(context: CostContext, troubled: (session: CoastSession, error: unknown) => void): CostResult {
  const lift = (id: string): Claim | null => context.aeros.get(id)?.whole.total.claM2.claim ?? null
  const coasts = context.sessions.flatMap((session) => {
    try {
      return [readCoasts(session, context.chassis, lift)]
    } catch (error) {
      troubled(session, error)
      return []
    }
  })
  const telling = coasts.findLast(({ untold }) => untold === null) ?? null
  const lines = linesOf(context, telling)
  const source = dragSourceOf(telling, lines, context.aeros)
  const setups = (source?.drags ?? []).map(({ configurationId, cdaM2, wouldPart }): CostOfSetup =>
    ({ configurationId, cdaM2, wouldPart, loadPerDrag: ratioOf(lift(configurationId), cdaM2.claim) }))
  const pairs = (source?.differences ?? []).map((difference): CostOfPair => ({
    ...difference,
    loadPerDrag: ratioOf(claDifference(lift, difference), difference.cdaM2.claim),
    loadPerDragDifference: ratioDifference(source!, lift, setups, difference),
  }))
  const gripMs2 = gripOf(context)
  const sensitivity = context.tracks.at(-1)?.sensitivity.sensitivity ?? assumedSensitivity('tyre:sensitivity')
  const powerW = powerOf(context, telling)
  const cars = source && gripMs2 && powerW ? carsOf(context, source, { gripMs2, sensitivity, powerW }) : []
  return {
    coasts,
    dragFrom: source?.from ?? null,
    setups,
    pairs,
    lines: lines.runs,
    lineSetups: lines.setups,
    corner: gripMs2 && cornerOf(context, telling, gripMs2, sensitivity),
    gripMs2,
    powerW,
    courses: (context.chassis.courses ?? []).map((course) =>
      courseOf(course, context, cars, wantingOf(source, gripMs2, powerW)),
    ),
  }
}

/** Drag by the line on the bench; the wheels hold no more than coasts tell of their rolling, its u included. */
function linesOf({ chassis, blown }: CostContext, coasts: CoastsRead | null): LinesRead {
  const rolling = coasts?.parts?.rollingShare
  const most = rolling ? Math.max(0, rolling.value) + standardUncertainty(rolling) : null
  return readLines(blown.map(({ session, runs }) => ({ session, results: runs.runs })), chassis, most)
}

function ratioOf(cla: Claim | null, cda: Claim): Statement | null {
  if (!cla || cla.kind !== 'value' || cda.kind !== 'value') return null
  return ratioStatement(cla.value, cda.value, cla.extrapolated)
}

/** First order in load and drag, whose shared sources cancel; only where either ratio is a value by itself. */
function ratioDifference(
  { drags }: DragSource,
  lift: (id: string) => Claim | null,
  setups: readonly CostOfSetup[],
  { configurationA, configurationB }: DragDifference,
): Statement | null {
  const [a, b] = [configurationA, configurationB].map((id) => {
    const cda = drags.find(({ configurationId }) => configurationId === id)?.cdaM2.claim
    const cla = lift(id)
    const said = setups.find(({ configurationId }) => configurationId === id)?.loadPerDrag
    return said?.kind === 'interval' && cda?.kind === 'value' && cla?.kind === 'value' ? over(cla.value, cda.value) : null
  })
  return a && b ? intervalStatement(minus(a, b)) : null
}

function claDifference(
  lift: (id: string) => Claim | null,
  { configurationA, configurationB }: DragDifference,
): Claim | null {
  const [a, b] = [lift(configurationA), lift(configurationB)]
  return a?.kind === 'value' && b?.kind === 'value'
    ? valueClaim(minus(a.value, b.value), a.extrapolated || b.extrapolated)
    : null
}

/** Level that the tyres hold without air load: entered, else from circles with the bench's load taken out. */
function gripOf({ chassis, tracks, bench, weight }: CostContext): Uncertain | null {
  const entered = chassis.drive?.gripMs2
  if (entered) return fromSource(entered.value, entered.u, known('tyreGrip', 'drive:grip'))
  const track = tracks.findLast(({ groups }) => groups.some(({ manoeuvre }) => manoeuvre === 'circle'))
  if (!track || !weight) return null
  const s = track.sensitivity.sensitivity
  const bare = track.groups
    .filter(({ manoeuvre }) => manoeuvre === 'circle')
    .flatMap(({ runs }) => runs)
    .flatMap(({ levelMs2, speedMs, configurationId, ballastKg }) => {
      if (ballastKg > 0) return []
      const load = speedMs && bench?.loadAt(configurationId, speedMs)?.total
      if (!load) return [levelMs2]
      if (load.kind !== 'value') return []
      const ratio = 1 + load.value.value / weight.totalN.value
      const power = 1 - s.value
      const value = levelMs2.value / ratio ** power
      return [
        combine(value, [
          [levelMs2, value / levelMs2.value],
          [load.value, (-value * power) / ratio / weight.totalN.value],
          [weight.totalN, (value * power * load.value.value) / ratio / weight.totalN.value ** 2],
          [s, value * Math.log(ratio)],
        ]),
      ]
    })
  return bare.length > 0 ? mean(bare) : null
}

/** Power at the wheels: entered, else from the session's full-throttle runs. */
function powerOf({ chassis, sessions }: CostContext, coasts: CoastsRead | null): Uncertain | null {
  const entered = chassis.drive?.powerW
  if (entered) return fromSource(entered.value, entered.u, known('motorPower', 'drive:power'))
  const mass = carMass(chassis)
  const session = sessions.find(({ id }) => id === coasts?.sessionId)
  if (!session || !coasts?.parts || !mass) return null
  const { parts, densityKgM3, rotatingShare } = coasts
  const gravity = localGravity(chassis.place).ms2.value
  const found = session.runs.flatMap((run) => {
    const data = speedsOf(dataOf(run))
    const area = parts.areas[run.configurationId]
    if (run.purpose !== 'fullThrottle' || run.setAside || !data || !area) return []
    const inputs = [mass, rotatingShare, parts.rollingShare, area, densityKgM3]
    const at = (values: readonly number[]) =>
      powerFrom(data.tS, data.vMs, {
        movingMassKg: (values[0]! + run.ballastKg) * (1 + values[1]!),
        steadyN: (values[0]! + run.ballastKg) * gravity * values[2]!,
        squareNPerMs2: (values[4]! * values[3]!) / 2,
      })
    const values = inputs.map(({ value }) => value)
    const here = at(values)
    if (!here) return []
    const terms = inputs.map((input, i) => {
      const step = Math.max(standardUncertainty(input), 1e-6 * Math.abs(values[i]!))
      const moved = (by: number) => at(values.map((each, j) => (i === j ? each + by : each)))?.powerW ?? here.powerW
      return [input, (moved(step) - moved(-step)) / (2 * step)] as const
    })
    const own = fromSource(0, here.uW, fromData('fullThrottle', `coast:run:${run.id}:power`, here.dof))
    return [combine(here.powerW, [...terms, [own, 1]])]
  })
  return found.length > 0 ? mean(found) : null
}

/** Speeds of a run; of gates and pulses the mean from each to the next. */
function speedsOf(data: CoastData | null): Pick<Extract<CoastData, { kind: 'speeds' }>, 'tS' | 'vMs'> | null {
  if (data?.kind !== 'gates') return data
  const { tS, xM } = data
  return {
    tS: tS.slice(1).map((t, i) => (t + tS[i]!) / 2),
    vMs: xM.slice(1).map((x, i) => (x - xM[i]!) / (tS[i + 1]! - tS[i]!)),
  }
}

interface Common {
  readonly gripMs2: Uncertain
  readonly sensitivity: Uncertain
  readonly powerW: Uncertain
}

/** Set-ups of which both load and drag are known. */
function carsOf(context: CostContext, source: DragSource, common: Common): UncertainCar[] {
  const mass = carMass(context.chassis)
  if (!mass) return []
  return source.drags.flatMap(({ configurationId, cdaM2 }): UncertainCar[] => {
    const cla = context.aeros.get(configurationId)?.whole.total.claM2.claim
    const least = cla && lowEnd(cla)
    if (!cla || !least || cdaM2.claim.kind !== 'value') return []
    const boundOnly: CensorReason | null = isCensored(cla) && cla.kind !== 'value' ? cla.reason : null
    return [
      {
        configurationId,
        massKg: mass,
        rotatingShare: source.rotatingShare,
        ...common,
        claM2: least,
        cdaM2: cdaM2.claim.value,
        rollingShare: source.rollingShare,
        densityKgM3: source.densityKgM3,
        drivenShare: context.chassis.drive?.drivenShare ?? 1,
        mostLoadN: context.touchLoadN.get(configurationId) ?? Infinity,
        boundOnly,
      },
    ]
  })
}

/** Every set-up that was blown, in one air: that of the coasts, else of the newest runs. */
function cornerOf(
  { chassis, aeros, touchLoadN, cornerRadiusM }: CostContext,
  coasts: CoastsRead | null,
  gripMs2: Uncertain,
  sensitivity: Uncertain,
): CornerLevels | null {
  const massKg = carMass(chassis)
  const densityKgM3 = coasts?.densityKgM3 ?? [...aeros.values()].at(-1)?.densityKgM3
  if (!massKg || !densityKgM3 || cornerRadiusM === null) return null
  const cars = [...aeros].flatMap(([configurationId, aero]): CornerCar[] => {
    const { claim } = aero.whole.total.claM2
    const claM2 = lowEnd(claim)
    if (!claM2) return []
    const boundOnly = claim.kind !== 'value' && claim.kind !== 'untold' ? claim.reason : null
    const mostLoadN = touchLoadN.get(configurationId) ?? Infinity
    return [{ configurationId, massKg, gripMs2, sensitivity, claM2, densityKgM3, mostLoadN, boundOnly }]
  })
  return cornerLevels(cornerRadiusM, localGravity(chassis.place).ms2.value, cars)
}

function wantingOf(source: DragSource | null, grip: Uncertain | null, power: Uncertain | null): CourseWanting[] {
  return [
    ...(source ? [] : ['drag' as const]),
    ...(grip ? [] : ['grip' as const]),
    ...(power ? [] : ['power' as const]),
  ]
}

function courseOf(
  course: Course,
  { chassis, drive }: CostContext,
  cars: readonly UncertainCar[],
  wanting: CourseWanting[],
): CostResult['courses'][number] {
  const result = drive && drive(
    {
      courseId: course.id,
      name: course.name,
      segments: course.segments,
      launchM: course.launchM,
      gravityMs2: localGravity(chassis.place).ms2.value,
    },
    cars,
  )
  const missing: CourseWanting[] = course.segments.length === 0 ? [...wanting, 'segments'] : wanting
  return {
    courseId: course.id,
    name: course.name,
    result,
    wanting: missing.length > 0 ? missing : result || !drive ? [] : ['load'],
  }
}
