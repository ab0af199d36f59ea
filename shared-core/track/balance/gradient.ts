/**
 * Understeer gradient from steady circles at several speeds (ISO 4138). The front wheels' angle on a circle
 * is L/R + K a. With the angle logged K is the slope of (angle less L/R) against a; with the steering held
 * and nothing measured the angle is one unknown, and 1/R falls along a straight line of slope -K/L.
 * K above zero understeers: the path widens as the car goes faster.
 */
import type { Chassis, SteadyRun } from '@core/schema'
import { combine, fromData, fromSource, intervalStatement, known, type Statement, type Uncertain } from '@core/uncertainty'

export interface SteadyPoint {
  readonly id: string
  readonly accelerationMs2: number
  /** What is fitted against it: the angle beyond L/R, or L/R itself, rad. */
  readonly angleRad: number
  readonly residualRad: number
}

export interface UndersteerGradient {
  readonly runId: string
  readonly name: string
  readonly configurationId: string
  /** rad per m/s2. */
  readonly value: Uncertain
  readonly statement: Statement
  readonly tendency: 'understeer' | 'oversteer' | 'neutral'
  readonly points: readonly SteadyPoint[]
  readonly dof: number
}

const radians = (degrees: number): number => (degrees * Math.PI) / 180

/** Null with fewer than three points that count, or where all were driven at one acceleration. */
export function understeerGradient(
  run: SteadyRun, { wheelbaseMm }: Pick<Chassis, 'wheelbaseMm'>,
): UndersteerGradient | null {
  const lengthM = wheelbaseMm.value / 1000
  const used = run.points.filter((each) => !each.setAside && (run.steering === 'held' || each.steerDeg !== null))
  if (used.length < 3) return null
  const logged = run.steering === 'logged'
  const rows = used.map(({ radiusM, lapS, steerDeg }) => {
    const ackermann = lengthM / radiusM
    return {
      x: (4 * Math.PI ** 2 * radiusM) / lapS ** 2,
      y: logged ? Math.abs(radians(steerDeg!)) - ackermann : -ackermann,
      // What tape, stopwatch and servo leave of one point, to first order.
      u: Math.hypot((lengthM * run.uRadiusM) / radiusM ** 2, logged ? radians(run.uSteerDeg) : 0),
    }
  })
  const count = rows.length
  const mean = (of: (row: (typeof rows)[number]) => number): number =>
    rows.reduce((sum, row) => sum + of(row), 0) / count
  const [mx, my] = [mean(({ x }) => x), mean(({ y }) => y)]
  const square = rows.reduce((sum, { x }) => sum + (x - mx) ** 2, 0)
  if (!(square > (0.05 * mx) ** 2)) return null
  const slope = rows.reduce((sum, { x, y }) => sum + (x - mx) * (y - my), 0) / square
  const rests = rows.map(({ x, y }) => y - my - slope * (x - mx))
  const dof = count - 2
  const scatter = rests.reduce((sum, each) => sum + each * each, 0) / dof
  const stated = mean(({ u }) => u * u)
  const timing = (2 * mean(({ x }) => x) * run.uTimeS) / (used.reduce((sum, { lapS }) => sum + lapS, 0) / count)
  // The larger of what the points show and what tape, watch and servo allow for.
  const own = scatter >= stated ? fromData('lapScatter', `track:run:${run.id}:steady`, dof)
    : known('lapTiming', `track:run:${run.id}:steady`)
  const value = combine(slope, [
    [fromSource(0, Math.sqrt(Math.max(scatter, stated) + (slope * timing) ** 2) / Math.sqrt(square), own), 1],
    [fromSource(0, wheelbaseMm.u / wheelbaseMm.value, known('chassis', 'chassis:wheelbase')), slope],
  ])
  const statement = intervalStatement(value)
  const { low, high } = statement.interval
  return {
    runId: run.id, name: run.name, configurationId: run.configurationId, value, statement, dof,
    tendency: low > 0 ? 'understeer' : high < 0 ? 'oversteer' : 'neutral',
    points: used.map(({ id }, i) =>
      ({ id, accelerationMs2: rows[i]!.x, angleRad: rows[i]!.y, residualRad: rests[i]! })),
  }
}
