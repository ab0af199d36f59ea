/** A regular log to the levels it held: rest taken out, direction, low-pass, windows, and what to mind. */
import { remark, type Remark } from '@core/remark'
import type { Manoeuvre } from '@core/schema'
import { STANDARD_GRAVITY_MS2 } from '@core/units'
import { butterworth, magnitude } from './butterworth'
import { along, alongEach, principalDirection, type Principal } from './direction'
import { drivenStretches, type Driven, type DrivenOptions } from './driven'
import { cutStretches, type CutWindows, type LapLength } from './laps'
import { launches } from './launch'
import { rangesOf, removeRest } from './rest'
import { halfCycles } from './slalom'
import {
  SENSOR_AXES, type HeldWindow, type RegularLog, type SensorAxis, type SensorCorrection, type Stretch, type TiltReport,
} from './types'
import { chosenWindow } from './window'
import { paddingOf, zeroPhase } from './zeroPhase'

/** An axis of the sensor, the direction in which the car accelerates most, or the one across it. */
export type LogSignal = SensorAxis | 'main' | 'cross'

export interface ReduceOptions extends Pick<DrivenOptions, 'sustainS' | 'settleS' | 'direction'> {
  readonly signal: LogSignal
  /** Decides what a level is: whole laps or pieces, half-cycles of a slalom, or launches. */
  readonly manoeuvre: Manoeuvre
  /** The car stood still here; null takes nothing out. */
  readonly rest: Stretch | null
  /** Standard uncertainty of how level the car stood at rest, degrees. */
  readonly restLevelDeg: number
  readonly order: number
  readonly cutoffHz: number
  /** What tells a lap; null cuts pieces. */
  readonly lap: LapLength | null
  readonly coneSpacingM: number | null
  readonly overM: number
  /** Windows chosen by hand; empty lets them be found. */
  readonly chosen: readonly Stretch[]
  /** Body roll per lateral acceleration, degrees per g: a leaning sensor reads part of gravity; null leaves it in. */
  readonly rollDegPerG: number | null
  /** The sensor's own calibration; null takes its readings as they are. */
  readonly correction: SensorCorrection | null
}

export const DEFAULT_REDUCTION: Omit<ReduceOptions, 'signal' | 'rest'> = {
  manoeuvre: 'circle', restLevelDeg: 0.5, order: 4, cutoffHz: 3, sustainS: 2, settleS: 1, direction: 'either', lap: null,
  coneSpacingM: null, overM: 5, chosen: [], rollDegPerG: null, correction: null,
}

/** How far a sensor may lean that never stood still, degrees: a standard uncertainty (common practice, no source). */
export const LEAN_WITHOUT_REST_DEG = 2

export type Taken = 'laps' | 'swings' | 'pieces' | 'halfCycles' | 'launches' | 'chosen'

export interface Reduction {
  /** The signal, rest taken out, before the filter, m/s2. */
  readonly raw: Float64Array
  readonly filtered: Float64Array
  readonly tilt: TiltReport
  /** The motion's own direction, where it was asked for and could be told. */
  readonly principal: Principal | null
  readonly windows: readonly HeldWindow[]
  readonly taken: Taken
  /** Standard uncertainty of what is shown of nothing, m/s2: it cancels where both ways round were driven. */
  readonly zeroUMs2: number
  /** Amplitude left at the cutoff after both passes: one half. */
  readonly amplitudeAtCutoff: number
  readonly remarks: readonly Remark[]
}

/** Beyond this share of the motion along it a direction is clearly the one that matters. */
const CLEAR_SHARE = 0.75

/**
 * Reduces a log. Segments too short for the filter are left as they are and take no part.
 *
 * @throws RangeError where the order is not 1 to 8 or the cutoff not below half the rate
 */
export function reduceLog(log: RegularLog, options: ReduceOptions): Reduction {
  const sections = butterworth(options.order, options.cutoffHz, log.rateHz)
  const { axes, report: tilt } = removeRest({ ...log, axes: corrected(log.axes, options.correction) }, options.rest)
  const pad = paddingOf(sections)
  const usable = log.segments.filter(({ from, to }) => to - from > pad)
  const whole: RegularLog = { ...log, segments: usable, axes }
  const { raw, stretches, principal } = signalOf(whole, options, tilt)
  const filtered = new Float64Array(raw.length)
  for (const { from, to } of usable) filtered.set(zeroPhase(sections, raw.subarray(from, to)), from)
  const { windows, taken, swingS = null, of = windows.length } = windowsOf(whole, filtered, raw, stretches, options)
  return {
    raw, filtered, tilt, principal, windows, taken,
    zeroUMs2: Math.hypot(STANDARD_GRAVITY_MS2 * Math.sin((leanOf(options) * Math.PI) / 180), tilt.uRestMs2),
    amplitudeAtCutoff: magnitude(sections, options.cutoffHz, log.rateHz) ** 2,
    remarks: remarksOf(log, options, { tilt, principal, windows, taken, of, swingS }, usable.length),
  }
}

const leanOf = ({ rest, restLevelDeg }: ReduceOptions): number => (rest ? restLevelDeg : LEAN_WITHOUT_REST_DEG)

/** Readings put right by the sensor's own calibration; with fewer than three axes by its own axis alone. */
function corrected(axes: RegularLog['axes'], correction: SensorCorrection | null): RegularLog['axes'] {
  if (!correction) return axes
  const whole = SENSOR_AXES.every((axis) => axes[axis])
  return Object.fromEntries(SENSOR_AXES.flatMap((axis, row) => {
    const own = axes[axis]
    if (!own) return []
    return [[axis, own.map((value, i) => (whole
      ? SENSOR_AXES.reduce((sum, other, column) =>
        sum + correction.matrix[row]![column]! * (axes[other]![i]! - correction.biasMs2[column]!), 0)
      : correction.matrix[row]![row]! * (value - correction.biasMs2[row]!)))]]
  }))
}

/** The signal that matters, and where it was driven. */
function signalOf(
  log: RegularLog, options: ReduceOptions, tilt: TiltReport,
): { raw: Float64Array; stretches: Driven[]; principal: Principal | null } {
  const find = (raw: Float64Array): Driven[] => drivenStretches(log, raw, {
    sustainS: options.sustainS, direction: options.direction, rest: options.rest,
    settleS: options.manoeuvre === 'launch' ? 0 : options.settleS,
  })
  const leaned = (raw: Float64Array): Float64Array => leanedBy(raw, options.rollDegPerG)
  if (wantsAxis(options.signal)) {
    const raw = leaned(log.axes[options.signal] ?? new Float64Array(0))
    return { raw, stretches: find(raw), principal: null }
  }
  // With gravity still in the log its own direction would be the main one.
  const principal = gravityIsIn(log, tilt) ? null : principalDirection(log, log.axes, tilt.vertical, options.sustainS)
  const direction = options.signal === 'main' ? principal?.main : principal?.cross
  if (!direction) return { raw: new Float64Array(lengthOf(log)), stretches: [], principal }
  const first = along(log.axes, direction)
  const stretches = find(first)
  const raw = options.manoeuvre === 'slalom' ? first : alongEach(log.axes, direction, stretches)
  return { raw: leaned(raw), stretches, principal }
}

const lengthOf = ({ axes }: RegularLog): number => Object.values(axes)[0]?.length ?? 0

/** True where three axes were logged, nothing was taken out, and their mean is as long as half of gravity. */
function gravityIsIn({ axes }: RegularLog, tilt: TiltReport): boolean {
  if (tilt.how !== 'none' || SENSOR_AXES.some((axis) => !axes[axis])) return false
  const means = SENSOR_AXES.map((axis) =>
    axes[axis]!.reduce((sum, each) => sum + each, 0) / Math.max(1, axes[axis]!.length))
  return Math.hypot(...means) > STANDARD_GRAVITY_MS2 / 2
}

/** A body that leans by k per g reads a (1 + k): its sensor takes in part of gravity. */
function leanedBy(raw: Float64Array, rollDegPerG: number | null): Float64Array {
  if (rollDegPerG === null) return raw
  const factor = 1 / (1 + (rollDegPerG * Math.PI) / 180)
  return raw.map((value) => value * factor)
}

function windowsOf(
  log: RegularLog, filtered: Float64Array, raw: Float64Array, stretches: readonly Driven[], options: ReduceOptions,
): Pick<Reduction, 'windows' | 'taken'> & Partial<Pick<CutWindows, 'of' | 'swingS'>> {
  if (options.chosen.length > 0) {
    return {
      taken: 'chosen',
      windows: options.chosen.flatMap((each) => chosenWindow(log, filtered, raw, rangesOf(log, each)) ?? []),
    }
  }
  if (options.manoeuvre === 'slalom') {
    return { taken: 'halfCycles', windows: halfCycles(log, filtered, raw, options.coneSpacingM, options.direction) }
  }
  if (options.manoeuvre === 'launch') {
    return { taken: 'launches', windows: launches(log, filtered, raw, stretches, options.overM) }
  }
  return cutStretches(log, filtered, raw, stretches, options.lap, options.sustainS)
}

const wantsAxis = (signal: LogSignal): signal is SensorAxis => signal !== 'main' && signal !== 'cross'

type Found = Pick<Reduction, 'tilt' | 'principal' | 'windows' | 'taken'> & Pick<CutWindows, 'of' | 'swingS'>

function remarksOf(log: RegularLog, options: ReduceOptions, found: Found, usable: number): Remark[] {
  const { windows, of } = found
  const { cutoffHz, sustainS } = options
  const said = [...restRemarks(options, found), ...directionRemarks(options, found), ...samplingRemarks(log.report)]
  if (usable < log.segments.length) said.push(remark('segmentsTooShort', { segments: log.segments.length - usable }))
  if (windows.length === 0) said.push(remark('nothingHeld', { sustainS }))
  if (options.rollDegPerG === null && options.signal !== found.tilt.vertical) said.push(remark('leanNotRemoved'))
  if (of > windows.length) said.push(remark('windowsThinned', { windows: windows.length, found: of }))
  if (sustainS * cutoffHz < 2) said.push(remark('sustainShort', { sustainS, cutoffHz }))
  return said
}

function restRemarks(options: ReduceOptions, { tilt, windows }: Found): Remark[] {
  const said: Remark[] = []
  if (tilt.how === 'none') {
    const bothWays = windows.some(({ sign }) => sign === 1) && windows.some(({ sign }) => sign === -1)
    const costMs2 = STANDARD_GRAVITY_MS2 * Math.sin((LEAN_WITHOUT_REST_DEG * Math.PI) / 180)
    said.push(bothWays ? remark('restMissingBothWays') : remark('restMissing', { costMs2 }))
  }
  if (tilt.noiseMs2 > 1) said.push(remark('restNotStill', { noiseMs2: tilt.noiseMs2 }))
  if (tilt.gravityError !== null && Math.abs(tilt.gravityError) > 0.03) {
    const shownMs2 = (1 + tilt.gravityError) * STANDARD_GRAVITY_MS2
    said.push(remark('gravityOff', { relative: tilt.gravityError, shownMs2 }))
  }
  if (tilt.tiltDeg !== null && tilt.tiltDeg > 15 && wantsAxis(options.signal)) {
    said.push(remark('tiltLarge', { tiltDeg: tilt.tiltDeg }))
  }
  if (tilt.vertical !== null && tilt.vertical === options.signal) {
    said.push(remark('signalIsVertical', { axis: tilt.vertical }))
  }
  if (tilt.how === 'meanRemoved') said.push(remark('restMeanOnly'))
  return said
}

function samplingRemarks({ spread, gapCount, restartCount, interpolated, jitter, filled }: RegularLog['report']): Remark[] {
  const said: Remark[] = []
  if (spread > 0) said.push(remark('timesSpread', { rows: spread }))
  if (gapCount > 0) said.push(remark('logGaps', { gaps: gapCount }))
  if (restartCount > 0) said.push(remark('logRestarts', { restarts: restartCount }))
  if (interpolated) said.push(remark('logInterpolated', { jitter }))
  if (filled > 0) said.push(remark('logFilled', { samples: filled }))
  return said
}

function directionRemarks(options: ReduceOptions, { principal, windows, taken, swingS }: Found): Remark[] {
  const said: Remark[] = []
  const wanted = !wantsAxis(options.signal)
  if (wanted && !principal) said.push(remark('directionNeedsRest'))
  if (wanted && principal && principal.share < CLEAR_SHARE) {
    said.push(remark('directionUnclear', { share: principal.share }))
  }
  if (options.manoeuvre === 'circle' && taken === 'pieces' && windows.length > 0) {
    said.push(remark(options.lap ? 'noWholeLap' : 'lapsNotTold'))
  }
  if (swingS !== null) said.push(remark('levelSwings', { swingS }))
  return said
}
