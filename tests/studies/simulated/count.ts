/** One simulated session and reading after the other, and how often what is said of the force is true. */
import { calibrate, dropBetween, readForce, shownAt, type DropReading } from '@core/calibration'
import { chassisMotion } from '@core/chassis'
import { CORNERS, type Corner } from '@core/schema'
import { mean, type Statement, type Uncertain } from '@core/uncertainty'
import { stated } from '../../unit/calibration/squats'
import { RANGE_N, studySession, type StudySession, type World } from './worlds'

export interface Tally {
  readonly world: string
  sessions: number
  refused: number
  /** Plain intervals, those that cover, those with the truth below or above, and their mean half-width, N. */
  intervals: number
  covered: number
  below: number
  above: number
  halfWidthN: number
  /** One-sided statements and those that hold. */
  bounds: number
  boundsHeld: number
  /** Readings with the tray on the ground, and those of them printed as a plain number: must be none. */
  touched: number
  touchedPlain: number
  /** As above, where the builder did not notice the touch. */
  unseen: number
  unseenPlain: number
  /** Monte Carlo intervals (where asked for) and those that cover. */
  monteCarlo: number
  monteCarloCovered: number
}

export const newTally = (world: string): Tally => ({
  world, sessions: 0, refused: 0, intervals: 0, covered: 0, below: 0, above: 0, halfWidthN: 0, bounds: 0, boundsHeld: 0,
  touched: 0, touchedPlain: 0, unseen: 0, unseenPlain: 0, monteCarlo: 0, monteCarloCovered: 0,
})

/** Readings of the corners averaged for one drop: off and on, this often. */
const BURSTS = 3

/** Simulates one session with one airflow reading and counts it in. */
export function countSession(world: World, seed: number, tally: Tally, monteCarlo = false): void {
  const study = studySession(world, seed)
  tally.sessions++
  const calibration = calibrate(study.session, study.chassis, { kind: 'axle', axle: 'front' })
  if (calibration.refused) {
    tally.refused++
    return
  }
  // Mostly forces within the test's range; some beyond the touch.
  const forceN = study.draws.even() < 0.15 ? study.touchN * study.draws.between(1, 1.3)
    : study.draws.between(0.05, 0.95) * Math.min(RANGE_N, study.touchN)
  const { reading, onGround } = airReading(study, world, forceN, calibration.repeatability)
  const { statement } = readForce(calibration, reading)
  const plainly = statement.kind === 'interval' ? 1 : 0
  if (onGround && reading.touched) {
    tally.touched++
    tally.touchedPlain += plainly
  } else if (onGround) {
    tally.unseen++
    tally.unseenPlain += plainly
  }
  judge(statement, forceN, tally)
  if (monteCarlo && statement.kind === 'interval') {
    const { statement: byTrials } = stated(calibration, reading, { seed, fixedTrials: 20_000 })
    tally.monteCarlo++
    if (byTrials.kind === 'interval' && holds(byTrials, forceN)) tally.monteCarloCovered++
  }
}

function judge(statement: Statement, forceN: number, tally: Tally): void {
  if (statement.kind === 'interval') {
    tally.intervals++
    tally.halfWidthN += (statement.interval.high - statement.interval.low) / 2
    if (holds(statement, forceN)) tally.covered++
    else if (forceN < statement.interval.low) tally.below++
    else tally.above++
    return
  }
  if (statement.kind === 'untold') return
  tally.bounds++
  if (holds(statement, forceN)) tally.boundsHeld++
}

/** Is what is said of the force true? */
export function holds(statement: Statement, forceN: number): boolean {
  switch (statement.kind) {
    case 'interval': return forceN >= statement.interval.low && forceN <= statement.interval.high
    case 'atLeast': return forceN >= statement.bound
    case 'atMost': return forceN <= statement.bound
    case 'between': return forceN >= statement.low && forceN <= statement.high
    case 'untold': return true
  }
}

/** Mean of several off/on readings of the front axle line, as the builder would take them. */
function airReading(
  { bench, chassis, session }: StudySession, world: World, forceN: number,
  repeatability: Parameters<typeof shownAt>[1]['repeatability'],
): { reading: DropReading; onGround: boolean } {
  const gauge = chassis.gauges[0]!
  const context = { sessionId: 'air', gauge, repeatability }
  const settled = world.settle !== 'none'
  let onGround = false
  const drops = Array.from({ length: BURSTS }, (_, burst): Uncertain => {
    bench.load({ front: 0, rear: 0 }, true)
    const off = bench.readings(`${session.id}-off-${burst}`, gauge, 1)
    bench.load({ front: forceN, rear: 0 }, settled)
    onGround ||= bench.front.touched()
    const on = bench.readings(`${session.id}-on-${burst}`, gauge, 1)
    const at = (corner: Corner) => {
      const shown = (list: typeof off) => shownAt(list.filter((each) => each.corner === corner), context)!
      return dropBetween(gauge, shown(off), shown(on))!
    }
    return chassisMotion(chassis, Object.fromEntries(CORNERS.map((corner) => [corner, at(corner)]))).axles.front!
  })
  // Every other touch goes unnoticed.
  const touched = onGround && bench.draws.even() < 0.5
  return { reading: { dropMm: mean(drops), branch: settled ? 'mid' : 'loading', touched }, onGround }
}
