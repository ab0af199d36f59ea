/** The stretch in which the car stood still, and what it tells: the sensor's bias and its tilt in the car. */
import { STANDARD_GRAVITY_MS2 } from '@core/units'
import { seriesMean } from './autocorrelation'
import { SENSOR_AXES, type RegularLog, type SensorAxis, type Stretch, type TiltReport } from './types'

type Axes = RegularLog['axes']

/** Below this the logger has taken gravity out itself, m/s2. */
const HALF_GRAVITY_MS2 = 0.5 * STANDARD_GRAVITY_MS2

/** Samples of a stretch of time, as ranges of the regular series. */
export function rangesOf(log: RegularLog, { fromS, toS }: Stretch): (readonly [number, number])[] {
  return log.segments.flatMap(({ from, to, startS }) => {
    const first = Math.max(from, from + Math.ceil((fromS - startS) * log.rateHz - 1e-6))
    const last = Math.min(to, from + Math.floor((toS - startS) * log.rateHz + 1e-6) + 1)
    return last > first ? [[first, last] as const] : []
  })
}

/** Why a log has a stretch at rest, or none. */
export type RestWhy = 'found' | 'tooShort' | 'speedNeverZero' | 'neverQuiet' | 'meanDoesNotFit'
export interface RestProposal { readonly rest: Stretch | null; readonly why: RestWhy }

/** A wheel or a satellite shows this much of a standing car, m/s. */
const STANDS_MS = 0.5
/** Standing, a car shakes less than this share of what it does while it drives. */
const MOST_SHAKING = 1 / 3
/** Gravity as a sensor without calibration shows it, m/s2 about the standard. */
const GRAVITY_OFF_MS2 = 0.5
/** Without a vertical axis: what bias and a lean of ten degrees come to, m/s2. */
const MOST_OFFSET_MS2 = 1.7

/**
 * The stretch of `lengthS` in which the car stood still, if there is one. It is the quietest of the log,
 * of those in which the speed column (where there is one) says that the car stands; it counts only if the
 * car shakes clearly less there than where it shakes, and if its mean is what a standing sensor shows:
 * gravity by three axes, next to nothing by fewer or where the logger took gravity out.
 */
export function proposeRest(log: RegularLog, lengthS = 2): RestProposal {
  const n = Math.max(2, Math.round(lengthS * log.rateHz))
  const quietest = quietestWindow(log, n)
  if (!quietest) {
    const longEnough = log.segments.some(({ from, to }) => to - from >= n)
    return { rest: null, why: longEnough ? 'speedNeverZero' : 'tooShort' }
  }
  const { from, startS } = quietest
  const limit = MOST_SHAKING * usualShaking(log)
  if (!(shakingOf(log, from, from + n) <= limit)) return { rest: null, why: 'neverQuiet' }
  const { mean } = restOf(log.axes, [[from, from + n]])
  if (!fitsRest(mean)) return { rest: null, why: 'meanDoesNotFit' }
  const [first, last] = extended(log, from, from + n, limit)
  const fromS = startS + (first - from) / log.rateHz
  return { rest: { fromS, toS: fromS + (last - first - 1) / log.rateHz }, why: 'found' }
}

/** A block still belongs to the rest where its mean is off by no more than its own noise makes likely ... */
const BLOCK_DEVIATIONS = 4
/** ... or by this much, m/s2. */
const BLOCK_OFF_MS2 = 0.03

/** The rest as long as the car goes on standing, block by block on either side. */
function extended(log: RegularLog, from: number, to: number, limit: number): readonly [number, number] {
  const segment = log.segments.find((each) => from >= each.from && to <= each.to)!
  const n = Math.max(4, Math.round(BLOCK_S * log.rateHz))
  const { mean, noise } = restOf(log.axes, [[from, to]])
  const off = BLOCK_OFF_MS2 + (BLOCK_DEVIATIONS * noise) / Math.sqrt(n)
  const belongs = (a: number, b: number): boolean => {
    if (a < segment.from || b > segment.to || shakingOf(log, a, b) > limit) return false
    for (let i = a; i < b; i++) if (moves(log, i)) return false
    const own = restOf(log.axes, [[a, b]])
    const near = SENSOR_AXES.every((axis) => Math.abs((own.mean[axis] ?? 0) - (mean[axis] ?? 0)) <= off)
    return near && own.noise <= 2 * noise
  }
  let [first, last] = [from, to]
  while (belongs(first - n, first)) first -= n
  while (belongs(last, last + n)) last += n
  return [first, last]
}

/** True where a mean is what a standing sensor shows. */
function fitsRest(mean: Partial<Record<SensorAxis, number>>): boolean {
  const values = Object.values(mean)
  const size = Math.hypot(...values)
  if (values.length === 3 && size > HALF_GRAVITY_MS2) return Math.abs(size - STANDARD_GRAVITY_MS2) <= GRAVITY_OFF_MS2
  return size <= MOST_OFFSET_MS2
}

function quietestWindow(log: RegularLog, n: number): { from: number; startS: number } | null {
  const columns = Object.values(log.axes) as Float64Array[]
  let best: { from: number; startS: number; unrest: number } | null = null
  for (const { from, to, startS } of log.segments) {
    if (to - from < n) continue
    const unrest = new Float64Array(to - from - n + 1)
    for (const column of columns) addVariance(column, from, to, n, unrest)
    let movingUntil = from
    for (let i = from; i < from + n - 1; i++) if (moves(log, i)) movingUntil = i + 1
    for (let i = 0; i < unrest.length; i++) {
      if (moves(log, from + i + n - 1)) movingUntil = from + i + n
      if (from + i < movingUntil || (best && unrest[i]! >= best.unrest)) continue
      best = { from: from + i, unrest: unrest[i]!, startS: startS + i / log.rateHz }
    }
  }
  return best
}

const moves = ({ speedMs }: RegularLog, i: number): boolean => speedMs !== null && Math.abs(speedMs[i]!) > STANDS_MS

/** Length of the blocks that shaking is judged by, s. */
const BLOCK_S = 0.5
/** Of the blocks of a log, so many shake less: a car may stand for most of its log. */
const SHAKES_AT = 0.9

/** Median size of the steps from sample to sample, over all axes: a blow does not lift it. */
function shakingOf(log: RegularLog, from: number, to: number): number {
  const columns = Object.values(log.axes) as Float64Array[]
  const medians = columns.map((column) => {
    const steps = new Float64Array(Math.max(1, to - from - 1))
    for (let i = from + 1; i < to; i++) steps[i - from - 1] = Math.abs(column[i]! - column[i - 1]!)
    return steps.sort()[steps.length >> 1]!
  })
  return Math.hypot(...medians)
}

function usualShaking(log: RegularLog): number {
  const n = Math.max(4, Math.round(BLOCK_S * log.rateHz))
  const all = log.segments.flatMap(({ from, to }) =>
    Array.from({ length: Math.floor((to - from) / n) }, (_, block) =>
      shakingOf(log, from + block * n, from + (block + 1) * n)))
  return all.sort((a, b) => a - b)[Math.floor(SHAKES_AT * all.length)] ?? 0
}

/** Adds the variance of every window of n samples to `into`, by running sums about the first value. */
function addVariance(column: Float64Array, from: number, to: number, n: number, into: Float64Array): void {
  const shift = column[from]!
  let sum = 0
  let square = 0
  for (let i = from; i < to; i++) {
    const value = column[i]! - shift
    sum += value
    square += value * value
    if (i - from >= n) {
      const old = column[i - n]! - shift
      sum -= old
      square -= old * old
    }
    if (i - from >= n - 1) into[i - from - n + 1]! += Math.max(0, square - (sum * sum) / n) / (n - 1)
  }
}

/**
 * Takes bias and tilt out of every axis. With three axes the rest vector is turned onto the sensor
 * axis nearest to it (the shortest rotation) and its length taken off that axis; bias and tilt of
 * the other two go together, which no single rest window can part. With fewer axes each rest mean
 * is taken off.
 */
export function removeRest(log: RegularLog, rest: Stretch | null): { axes: Axes; report: TiltReport } {
  const found = removed(log, rest)
  return { ...found, report: { ...found.report, uRestMs2: rest ? uOfMean(log, rangesOf(log, rest)) : 0 } }
}

/** Largest standard uncertainty of the axes' means at rest, from their own noise and its memory. */
function uOfMean(log: RegularLog, ranges: readonly (readonly [number, number])[]): number {
  const columns = Object.values(log.axes) as Float64Array[]
  const means = ranges.filter(([from, to]) => to - from > 1).flatMap(([from, to]) =>
    columns.map((column) => seriesMean(column, from, to).u))
  return means.length === 0 ? 0 : Math.max(...means)
}

function removed(log: RegularLog, rest: Stretch | null): { axes: Axes; report: Omit<TiltReport, 'uRestMs2'> } {
  const ranges = rest ? rangesOf(log, rest) : []
  if (ranges.length === 0) {
    return {
      axes: log.axes,
      report: { rest: {}, noiseMs2: 0, tiltDeg: null, vertical: null, gravityError: null, how: 'none' },
    }
  }
  const found = restOf(log.axes, ranges)
  const size = Math.hypot(...Object.values(found.mean))
  const whole = SENSOR_AXES.every((axis) => log.axes[axis])
  if (!whole || size < HALF_GRAVITY_MS2) {
    const axes = mapAxes(log.axes, (column, axis) => column.map((value) => value - found.mean[axis]!))
    return {
      axes,
      report: { rest: found.mean, noiseMs2: found.noise, tiltDeg: null, vertical: null, gravityError: null, how: 'meanRemoved' },
    }
  }
  return rotated(log.axes as Record<SensorAxis, Float64Array>, found, size)
}

function restOf(axes: Axes, ranges: readonly (readonly [number, number])[]) {
  const mean: Partial<Record<SensorAxis, number>> = {}
  let square = 0
  let count = 0
  for (const axis of SENSOR_AXES) {
    const column = axes[axis]
    if (!column) continue
    let sum = 0
    let n = 0
    for (const [from, to] of ranges) for (let i = from; i < to; i++, n++) sum += column[i]!
    mean[axis] = sum / n
    for (const [from, to] of ranges) for (let i = from; i < to; i++) square += (column[i]! - sum / n) ** 2
    count += n
  }
  return { mean, noise: Math.sqrt(square / Math.max(1, count)) }
}

const mapAxes = (axes: Axes, of: (column: Float64Array, axis: SensorAxis) => Float64Array): Axes =>
  Object.fromEntries(SENSOR_AXES.flatMap((axis) => (axes[axis] ? [[axis, of(axes[axis], axis)]] : [])))

/** Rodrigues' rotation of the rest direction onto the nearest signed axis. */
function rotated(
  axes: Record<SensorAxis, Float64Array>, found: ReturnType<typeof restOf>, size: number,
): { axes: Axes; report: Omit<TiltReport, 'uRestMs2'> } {
  const rest = SENSOR_AXES.map((axis) => found.mean[axis]! / size)
  const at = rest.reduce((most, value, index) => (Math.abs(value) > Math.abs(rest[most]!) ? index : most), 0)
  const sign = Math.sign(rest[at]!)
  const [p, q] = [(at + 1) % 3, (at + 2) % 3] as [number, number]
  const cosine = rest[at]! * sign
  // v = rest x target, only its p and q components are not zero; R = I + [v] + [v]^2 / (1 + cosine).
  const [vp, vq] = [rest[q]! * sign, -rest[p]! * sign]
  const factor = 1 / (1 + cosine)
  const [A, P, Q] = [at, p, q].map((index) => axes[SENSOR_AXES[index]!]) as [Float64Array, Float64Array, Float64Array]
  const out = [new Float64Array(A.length), new Float64Array(A.length), new Float64Array(A.length)] as const
  for (let i = 0; i < A.length; i++) {
    const [a, b, c] = [A[i]!, P[i]!, Q[i]!]
    out[0][i] = a * (1 - factor * (vp * vp + vq * vq)) - vq * b + vp * c - sign * size
    out[1][i] = vq * a + b * (1 - factor * vq * vq) + factor * vp * vq * c
    out[2][i] = -vp * a + factor * vp * vq * b + c * (1 - factor * vp * vp)
  }
  const order = [at, p, q]
  return {
    axes: Object.fromEntries(order.map((index, place) => [SENSOR_AXES[index]!, out[place]!])),
    report: {
      rest: found.mean, noiseMs2: found.noise, tiltDeg: (Math.acos(Math.min(1, cosine)) * 180) / Math.PI,
      vertical: SENSOR_AXES[at]!, gravityError: size / STANDARD_GRAVITY_MS2 - 1, how: 'rotated',
    },
  }
}
