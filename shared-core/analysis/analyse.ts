/** A whole exchange file to all its results. */
import { readSession, type Datum, type SessionRuns } from '@core/airflow'
import { localGravity, staticLoads } from '@core/chassis'
import { driveCourse } from '@core/course'
import { AXLES, type AirflowSession, type Chassis, type CoastSession, type Exchange, type Session } from '@core/schema'
import { trackCheck } from '@core/track'
import { configurationResults, type SetUpResults } from './configurations'
import { analyseSquat, curvesOf, hasCurve } from './squats'
import { costsOf, type DriveCourse } from './costs'
import { aerosOf, benchOf, placesOf, touchLoads, weightOf } from './trackContext'
import { DEFAULT_OPTIONS, type Analysis, type AnalysisOptions, type SquatResult, type Trouble } from './types'

/**
 * Works out everything a file holds. One session that can't be worked out does not stop the others:
 * it stands under `troubles`.
 *
 * @param exchange a parsed exchange file
 * @param options speeds to predict for, in m/s, and what to draw
 * @param drive another way to the same laps, such as one that remembers those it drove
 */
export function analyse(
  { chassis, sessions }: Exchange, options: AnalysisOptions = DEFAULT_OPTIONS, drive: DriveCourse = driveCourse,
): Analysis {
  const troubles: Trouble[] = []
  const trouble = (session: Session, error: unknown): void => {
    troubles.push({ part: 'session', sessionId: session.id, name: session.name, fault: faultOf(error) })
  }
  const each = <S extends Session, T>(kind: S['kind'], make: (session: S) => T): T[] =>
    inOrder(sessions).filter((session): session is S => session.kind === kind).flatMap((session) => {
      try {
        return [make(session)]
      } catch (error) {
        trouble(session, error)
        return []
      }
    })
  const gravity = localGravity(chassis.place)
  const squats = each('squat', (session: Extract<Session, { kind: 'squat' }>) => analyseSquat(session, chassis, options))
  troubles.push(...squats.flatMap(misfits))
  const readBy: Record<string, string | null> = {}
  const airflows = each('airflow', (session: AirflowSession) => {
    const squat = squatFor(session, squats)
    readBy[session.id] = squat?.sessionId ?? null
    return readAirflow(session, chassis, squat, datumOf(sessions, squat))
  })
  const curves = curvesOf(squats.findLast(hasCurve))
  const { configurations, matrix } = setUps(() => configurationResults(chassis, airflows, curves, options), troubles)
  const aeros = aerosOf(configurations, airflows.flatMap(({ runs }) => runs), chassis)
  const bench = benchOf(aeros, curves, chassis)
  const weight = weightOf(chassis)
  const places = placesOf(chassis)
  const tracks = each('track', (session: Extract<Session, { kind: 'track' }>) =>
    trackCheck(session, { bench, weight, places, wheelbaseMm: chassis.wheelbaseMm }))
  const coasts = each('coast', (session: CoastSession) => session)
  const touchLoadN = touchLoads(configurations)
  const blown = airflows.flatMap((runs) => {
    const session = sessions.find((each): each is AirflowSession => each.kind === 'airflow' && each.id === runs.sessionId)
    return session ? [{ session, runs }] : []
  })
  const costs = costsOf({
    chassis, sessions: coasts, blown, aeros, bench, weight, tracks, touchLoadN, cornerRadiusM: options.cornerRadiusM,
    drive: options.courses ? drive : null,
  }, trouble)
  return {
    gravityMs2: gravity.ms2, gravityFrom: gravity.from, squats, readBy, airflows, configurations, matrix,
    tracks, costs,
    staticFrontShare: staticLoads(chassis)?.frontShare ?? null, troubles,
  }
}

/** Curves of a squat test that do not fit, to be said wherever their numbers stand. */
const misfits = ({ sessionId, name, axles }: SquatResult): Trouble[] => AXLES.flatMap((axle) =>
  axles[axle].remarks.filter(({ code }) => code === 'curveDoesNotFit')
    .map((remark): Trouble => ({ part: 'curve', sessionId, name, remark })))

const faultOf = (error: unknown): string => (error instanceof Error ? error.message : String(error))

function setUps(make: () => SetUpResults, troubles: Trouble[]): SetUpResults {
  try {
    return make()
  } catch (error) {
    troubles.push({ part: 'setUps', sessionId: null, name: '', fault: faultOf(error) })
    return { configurations: [], matrix: null }
  }
}

/** Oldest first, so that "the newest" is the last. */
const inOrder = (sessions: readonly Session[]): Session[] =>
  [...sessions].sort((a, b) => (a.createdAt < b.createdAt ? -1 : a.createdAt > b.createdAt ? 1 : 0))

/** The squat test a session names, else the newest with a curve. */
function squatFor(session: AirflowSession, squats: readonly SquatResult[]): SquatResult | undefined {
  const named = squats.find(({ sessionId }) => sessionId === session.squatSessionId)
  return named ?? squats.findLast(hasCurve)
}

const readAirflow = (
  session: AirflowSession, chassis: Chassis, squat: SquatResult | undefined, squatDatum: Datum | null,
): SessionRuns => readSession(session, chassis, curvesOf(squat), { squatDatum })

/** Where a squat test was read, null where it does not say. */
function datumOf(sessions: readonly Session[], squat: SquatResult | undefined): Datum | null {
  const session = sessions.find(({ id }) => id === squat?.sessionId)
  return session?.kind === 'squat' ? session.setup.datum ?? null : null
}
