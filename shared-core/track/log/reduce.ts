/** A regular log to the levels it held: rest taken out, low-pass, windows, and what to mind. */
import { remark, type Remark } from '@core/remark'
import { STANDARD_GRAVITY_MS2 } from '@core/units'
import { butterworth, magnitude } from './butterworth'
import { chosenWindow, heldWindows, type HeldOptions, type HeldWindows } from './held'
import { rangesOf, removeRest } from './rest'
import type { HeldWindow, RegularLog, SensorAxis, Stretch, TiltReport } from './types'
import { paddingOf, zeroPhase } from './zeroPhase'

export interface ReduceOptions extends HeldOptions {
  /** The axis that matters, or the length of the two that are not vertical. */
  readonly signal: SensorAxis | 'horizontal'
  /** The car stood still here; null takes nothing out. */
  readonly rest: Stretch | null
  readonly order: number
  readonly cutoffHz: number
  /** Windows chosen by hand; empty lets them be found. */
  readonly chosen: readonly Stretch[]
  /** Body roll per lateral acceleration, degrees per g: a leaning sensor reads part of gravity; null leaves it in. */
  readonly rollDegPerG: number | null
}

export const DEFAULT_REDUCTION: Omit<ReduceOptions, 'signal' | 'rest'> = {
  order: 4, cutoffHz: 3, sustainS: 2, direction: 'either', most: 40, leastShare: 0.85, chosen: [], rollDegPerG: null,
}

export interface Reduction {
  /** Rest taken out, before the filter, m/s2. */
  readonly raw: Float64Array
  readonly filtered: Float64Array
  readonly tilt: TiltReport
  readonly windows: readonly HeldWindow[]
  /** Amplitude left at the cutoff after both passes: one half. */
  readonly amplitudeAtCutoff: number
  readonly remarks: readonly Remark[]
}

/**
 * Reduces a log. Segments too short for the filter are left as they are and take no part.
 *
 * @throws RangeError where the order is not 1 to 8 or the cutoff not below half the rate
 */
export function reduceLog(log: RegularLog, options: ReduceOptions): Reduction {
  const sections = butterworth(options.order, options.cutoffHz, log.rateHz)
  const { axes, report: tilt } = removeRest(log, options.rest)
  const raw = leaned(signalOf(axes, options.signal, tilt), options.rollDegPerG)
  const filtered = new Float64Array(raw.length)
  const pad = paddingOf(sections)
  const usable = log.segments.filter(({ from, to }) => to - from > pad)
  for (const { from, to } of usable) filtered.set(zeroPhase(sections, raw.subarray(from, to)), from)
  const whole: RegularLog = { ...log, segments: usable }
  const { windows, of } = options.chosen.length > 0
    ? byHand(options.chosen.flatMap((stretch) => chosenWindow(whole, filtered, raw, rangesOf(whole, stretch)) ?? []))
    : heldWindows(whole, filtered, raw, options)
  return {
    raw, filtered, tilt, windows,
    amplitudeAtCutoff: magnitude(sections, options.cutoffHz, log.rateHz) ** 2,
    remarks: remarksOf(log, options, tilt, { windows, of }, usable.length),
  }
}

const byHand = (windows: readonly HeldWindow[]): HeldWindows => ({ windows, of: windows.length })

function signalOf(axes: RegularLog['axes'], signal: ReduceOptions['signal'], tilt: TiltReport): Float64Array {
  if (signal !== 'horizontal') return axes[signal] ?? new Float64Array(0)
  const [a, b] = (['x', 'y', 'z'] as const).filter((axis) => axis !== (tilt.vertical ?? 'z')).map((axis) => axes[axis])
  if (!a || !b) return a ?? b ?? new Float64Array(0)
  return a.map((value, index) => Math.hypot(value, b[index]!))
}

/** A body that leans by k per g reads a (1 + k): its sensor takes in part of gravity. */
function leaned(raw: Float64Array, rollDegPerG: number | null): Float64Array {
  if (rollDegPerG === null) return raw
  const factor = 1 / (1 + (rollDegPerG * Math.PI) / 180)
  return raw.map((value) => value * factor)
}

function remarksOf(
  log: RegularLog, options: ReduceOptions, tilt: TiltReport, { windows, of }: HeldWindows, usable: number,
): Remark[] {
  const found: Remark[] = []
  if (tilt.how === 'none') found.push(remark('restMissing'))
  if (tilt.gravityError !== null && Math.abs(tilt.gravityError) > 0.03) {
    found.push(remark('gravityOff', { relative: tilt.gravityError, shownMs2: (1 + tilt.gravityError) * STANDARD_GRAVITY_MS2 }))
  }
  if (tilt.tiltDeg !== null && tilt.tiltDeg > 15) found.push(remark('tiltLarge', { tiltDeg: tilt.tiltDeg }))
  if (tilt.vertical !== null && tilt.vertical === options.signal) found.push(remark('signalIsVertical', { axis: tilt.vertical }))
  if (tilt.how === 'meanRemoved') found.push(remark('restMeanOnly'))
  if (tilt.noiseMs2 > 1) found.push(remark('restNotStill', { noiseMs2: tilt.noiseMs2 }))
  if (log.report.gapCount > 0) found.push(remark('logGaps', { gaps: log.report.gapCount }))
  if (log.report.restartCount > 0) found.push(remark('logRestarts', { restarts: log.report.restartCount }))
  if (log.report.interpolated) found.push(remark('logInterpolated', { jitter: log.report.jitter }))
  if (log.report.filled > 0) found.push(remark('logFilled', { samples: log.report.filled }))
  if (usable < log.segments.length) found.push(remark('segmentsTooShort', { segments: log.segments.length - usable }))
  if (windows.length === 0) found.push(remark('nothingHeld', { sustainS: options.sustainS }))
  if (options.rollDegPerG === null && options.signal !== tilt.vertical) found.push(remark('leanNotRemoved'))
  if (of > windows.length) found.push(remark('windowsThinned', { windows: windows.length, found: of }))
  if (options.sustainS * options.cutoffHz < 2) found.push(remark('sustainShort', { sustainS: options.sustainS, cutoffHz: options.cutoffHz }))
  return found
}
