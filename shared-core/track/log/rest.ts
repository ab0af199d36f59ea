/** The stretch in which the car stood still, and what it tells: the sensor's bias and its tilt in the car. */
import { STANDARD_GRAVITY_MS2 } from '@core/units'
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

/** The quietest stretch of `lengthS` in the log; null where no segment is as long. */
export function proposeRest(log: RegularLog, lengthS = 2): Stretch | null {
  const n = Math.max(2, Math.round(lengthS * log.rateHz))
  const columns = Object.values(log.axes) as Float64Array[]
  let best: { at: Stretch; unrest: number } | null = null
  for (const { from, to, startS } of log.segments) {
    if (to - from < n) continue
    const unrest = new Float64Array(to - from - n + 1)
    for (const column of columns) addVariance(column, from, to, n, unrest)
    for (let i = 0; i < unrest.length; i++) {
      if (best && unrest[i]! >= best.unrest) continue
      const fromS = startS + i / log.rateHz
      best = { unrest: unrest[i]!, at: { fromS, toS: fromS + (n - 1) / log.rateHz } }
    }
  }
  return best?.at ?? null
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
): { axes: Axes; report: TiltReport } {
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
