/**
 * One run to the level it held: the mean of its repeats, its own scatter with few degrees of freedom
 * kept apart from what all runs share (the circle's radius, the sensor's scale).
 */
import { remark, type Remark } from '@core/remark'
import type { CircleRun, TrackSession } from '@core/schema'
import { combine, fromSource, intervalStatement, sum, times, type Uncertain } from '@core/uncertainty'
import { bothWays, zeroPart } from './bothWays'
import { circleAcceleration, circleSpeed, timingU } from './circle'
import type { GripRun } from './gripRuns'
import { circleFactor, slalomFactor, type SensorPlace } from './sensor'
import { drifts, outstanding, spreadOf, trend } from './repeats'
import { radiusSource, scatterSource, sensorScaleSource, timingSource, windowSource } from './sources'
import type { Manoeuvre, Repeat, RunLevel } from './types'

/** Relative scatter of a single lap, pooled over other runs; null where none has two laps. */
export interface PooledScatter { readonly relative: number; readonly dof: number }

/** A run's repeats before any mean is taken. `uMs2` of each is its own (timing, or the window's). */
interface Raw {
  readonly id: string
  readonly timeS: number | null
  readonly levelMs2: number
  readonly uMs2: number
  readonly used: boolean
}

const manoeuvreOf = (run: GripRun): Manoeuvre => (run.kind === 'circle' ? 'circle' : run.manoeuvre)

function rawRepeats(run: GripRun): Raw[] {
  switch (run.kind) {
    case 'log': return run.levelsMs2.map(({ value, u }, index) =>
      ({ id: `level-${index + 1}`, timeS: null, levelMs2: value, uMs2: u, used: true }))
    case 'typed': return run.levels.map(({ id, shownMs2, setAside }) =>
      ({ id, timeS: null, levelMs2: shownMs2, uMs2: run.uShownMs2, used: setAside === null }))
    case 'circle': return run.lapsS.map(({ id, timeS, setAside }) => {
      const levelMs2 = circleAcceleration(run.radiusM.value, timeS)
      return { id, timeS, levelMs2, uMs2: timingU(levelMs2, timeS, run.uTimeS), used: setAside === null }
    })
  }
}

/**
 * Pooled relative scatter of single repeats over runs, with its degrees of freedom: what a run with
 * a lone lap has to borrow.
 */
export function pooledScatter(runs: readonly GripRun[]): PooledScatter | null {
  let square = 0
  let dof = 0
  for (const run of runs) {
    const used = rawRepeats(run).filter((each) => each.used)
    if (used.length < 2) continue
    const { mean, deviation, count } = spreadOf(used.map((each) => each.levelMs2))
    square += (count - 1) * (deviation / mean) ** 2
    dof += count - 1
  }
  return dof === 0 ? null : { relative: Math.sqrt(square / dof), dof }
}

/** From so many log windows on their own scatter is what their mean rests on, with its degrees of freedom. */
const ENOUGH_WINDOWS = 6

type Own = { own: Uncertain; scatterFrom: RunLevel['scatterFrom'] }

/** The run's own part of its level's uncertainty, and what it rests on. */
function ownPart(run: GripRun, used: readonly Raw[], pooled: PooledScatter | null): Own {
  const { mean, deviation, count } = spreadOf(used.map((each) => each.levelMs2))
  const within = Math.sqrt(used.reduce((total, each) => total + each.uMs2 ** 2, 0) / count)
  if (run.kind === 'log') return logPart(run, used, { mean, deviation, within })
  if (count > 1 && deviation >= within) {
    return { own: fromSource(mean, deviation / Math.sqrt(count), scatterSource(run.id, count - 1)), scatterFrom: 'repeats' }
  }
  if (count === 1) return loneRepeat(run, mean, within, pooled)
  return { own: fromSource(mean, within / Math.sqrt(count), timingSource(run.id)), scatterFrom: 'within' }
}

/**
 * Windows of a log: the two ways round apart, so that what the sensor shows of nothing cancels; from six
 * windows on by their scatter alone, since the larger of two estimates would be too large too often.
 */
function logPart(
  run: Extract<GripRun, { kind: 'log' }>, used: readonly Raw[], at: { mean: number; deviation: number; within: number },
): Own {
  const both = bothWays(run)
  const count = used.length
  if (both) return { own: fromSource(both.mean, both.u, scatterSource(run.id, both.dof)), scatterFrom: 'repeats' }
  if (count >= ENOUGH_WINDOWS || (count > 1 && at.deviation >= at.within)) {
    const u = at.deviation / Math.sqrt(count)
    return { own: fromSource(at.mean, u, scatterSource(run.id, count - 1)), scatterFrom: 'repeats' }
  }
  return { own: windowsMean(run, at.mean), scatterFrom: 'within' }
}

function loneRepeat(
  run: Pick<CircleRun, 'id'>, level: number, timing: number, pooled: PooledScatter | null,
): Own {
  if (!pooled || pooled.relative * level < timing) {
    return { own: fromSource(level, timing, timingSource(run.id)), scatterFrom: pooled ? 'within' : 'none' }
  }
  return { own: fromSource(level, pooled.relative * level, scatterSource(run.id, pooled.dof)), scatterFrom: 'otherRuns' }
}

/** Mean of log windows, each with its own source. */
function windowsMean(run: Extract<GripRun, { kind: 'log' }>, mean: number): Uncertain {
  const count = run.levelsMs2.length
  const each = run.levelsMs2.map(({ value, u }, index) =>
    [fromSource(value, u, windowSource(run.id, index + 1, run.levelDofs?.[index] ?? Infinity)), 1 / count] as const)
  return combine(mean, each)
}

/** The terms that the run shares with others of its session, as relative contributions of the level. */
function sharedTerms(session: Pick<TrackSession, 'id'>, run: GripRun): readonly Uncertain[] {
  if (run.kind === 'circle') {
    const { value, u } = run.radiusM
    return [fromSource(1, u / value, radiusSource(session.id, value))]
  }
  const sensor = run.kind === 'log' ? run.accelerometerId : undefined
  return run.sensorScaleU ? [fromSource(1, run.sensorScaleU, sensorScaleSource(sensor ?? session.id))] : []
}

/** Where no speed was logged or entered: from the level held on a circle of known radius. */
function onRadius(session: Pick<TrackSession, 'id'>, run: GripRun, level: Uncertain): Uncertain | null {
  if (manoeuvreOf(run) !== 'circle' || !run.radiusM) return null
  const { value, u } = run.radiusM
  return circleSpeed(level, fromSource(value, u, radiusSource(session.id, value)))
}

/** Road speed of a run: from the circle, or as entered with a log. */
function speedOf(session: Pick<TrackSession, 'id'>, run: GripRun, level: Uncertain): Uncertain | null {
  if (run.kind === 'circle') {
    const { value, u } = run.radiusM
    return circleSpeed(level, fromSource(value, u, radiusSource(session.id, value)))
  }
  if (!run.speedMs || run.speedMs.value <= 0) return onRadius(session, run, level)
  return fromSource(run.speedMs.value, run.speedMs.u, timingSource(`${run.id}:speed`))
}

function remarksOf(run: GripRun, used: readonly Raw[], scatterFrom: RunLevel['scatterFrom']): Remark[] {
  const levels = used.map((each) => each.levelMs2)
  const of = { kind: 'run', runId: run.id } as const
  const found: Remark[] = []
  if (used.length === 1) found.push(remark(scatterFrom === 'none' ? 'loneLap' : 'oneRepeat', null, of))
  const odd = outstanding(levels)
  if (odd !== null) {
    const { mean, deviation } = spreadOf(levels)
    found.push(remark('repeatStandsOut', {
      repeat: odd + 1, levelMs2: levels[odd]!, meanMs2: mean, deviations: Math.abs(levels[odd]! - mean) / deviation,
    }, of))
  }
  const slope = trend(levels)
  if (slope && drifts(slope)) {
    found.push(remark('repeatsDrift', {
      perRepeat: slope.perRepeat / spreadOf(levels).mean, repeats: levels.length,
    }, of))
  }
  return found
}

/** Where each sensor sits in the car, by its id. */
export type SensorPlaces = ReadonlyMap<string, SensorPlace>
const NO_PLACES: SensorPlaces = new Map()

/** The level at the centre of gravity, from what a sensor showed at its own place. */
function atCentre(run: GripRun, shown: Uncertain, places: SensorPlaces): Uncertain {
  if (run.kind !== 'log' || !run.accelerometerId) return shown
  const place = places.get(run.accelerometerId)
  if (!place) return shown
  if (run.manoeuvre === 'slalom' && run.coneSpacingM) {
    return times(shown, slalomFactor(run.accelerometerId, place, run.coneSpacingM.value))
  }
  if (run.manoeuvre !== 'circle' || !run.radiusM || bothWays(run)) return shown
  return times(shown, circleFactor(run.accelerometerId, place, run.radiusM.value, run.turn ?? null))
}

/**
 * The level of one run, or a remark that says why there is none.
 *
 * @param session the run's session: what it names, its runs share
 * @param pooled scatter of other runs, for a run with a lone lap
 * @param places where each sensor sits in the car
 */
export function runLevel(
  session: Pick<TrackSession, 'id'>, run: GripRun, pooled: PooledScatter | null, places: SensorPlaces = NO_PLACES,
): RunLevel | Remark {
  const repeats = rawRepeats(run)
  const used = repeats.filter((each) => each.used)
  if (used.length === 0) return remark('noRepeats', { name: run.name }, { kind: 'run', runId: run.id })
  const { own, scatterFrom } = ownPart(run, used, pooled)
  if (!(own.value > 0)) return remark('noAcceleration', { name: run.name }, { kind: 'run', runId: run.id })
  const scaled = sharedTerms(session, run).reduce(
    (level, shared) => combine(own.value, [[level, 1], [shared, own.value]]), own)
  const zero = run.kind === 'log' ? zeroPart(run) : null
  const shown = zero ? combine(scaled.value, [[scaled, 1], [zero, 1]]) : scaled
  const levelMs2 = atCentre(run, shown, places)
  const { mean, deviation, count } = spreadOf(used.map((each) => each.levelMs2))
  const statement = intervalStatement(levelMs2)
  return {
    runId: run.id, name: run.name, configurationId: run.configurationId, kind: run.kind, manoeuvre: manoeuvreOf(run),
    order: run.order, surfaceTemperatureK: run.surfaceTemperatureK,
    tyreTemperatureK: run.tyreTemperatureK ?? null, ballastKg: run.ballastKg?.value ?? 0,
    levelMs2, statement,
    repeats: repeats.map((each) => ({ ...each, residual: residualOf(each, mean, count > 1 ? deviation : 0) })),
    scatterMs2: count > 1 ? deviation : null, scatterFrom,
    speedMs: speedOf(session, run, levelMs2), remarks: remarksOf(run, used, scatterFrom),
  }
}

const residualOf = (each: Raw, mean: number, deviation: number): Repeat['residual'] =>
  (each.used && deviation > 0 ? (each.levelMs2 - mean) / deviation : null)

/** Mean road speed of runs; null where one is unknown. */
export function meanSpeed(runs: readonly RunLevel[]): Uncertain | null {
  const speeds = runs.map((run) => run.speedMs)
  if (speeds.length === 0 || speeds.some((speed) => speed === null)) return null
  const known = speeds as Uncertain[]
  return known.length === 1 ? known[0]! : combine(
    known.reduce((total, each) => total + each.value, 0) / known.length, [[sum(known), 1 / known.length]])
}
