/**
 * The motion's own direction. A sensor that lies anyhow in the car tells the vertical by gravity, and in
 * the plane across it the direction in which the car accelerates most: to the side in a circle or a
 * slalom, ahead in a launch. It is the first principal direction of the smoothed acceleration (K.
 * Pearson, Phil. Mag. 2 (1901) 559), and only then is the unfiltered signal taken along it: a length of
 * two shaking axes would read the shaking itself as acceleration.
 */
import { movingMean, type Driven } from './driven'
import { SENSOR_AXES, type RegularLog, type SensorAxis } from './types'

type Axes = RegularLog['axes']

/** A direction across the vertical, as shares of the axes; each has a length of 1. */
export type Direction = Readonly<Partial<Record<SensorAxis, number>>>

export interface Principal {
  readonly main: Direction
  /** At right angles to it and to the vertical; null where three axes were left to it. */
  readonly cross: Direction | null
  /** Share of the smoothed motion's mean square along the main direction, 0 to 1. */
  readonly share: number
}

const STEPS = 200

/** The principal direction over the axes that are not vertical; null with fewer than two. */
export function principalDirection(
  log: RegularLog, axes: Axes, vertical: SensorAxis | null, smoothS: number,
): Principal | null {
  const names = SENSOR_AXES.filter((axis) => axis !== vertical && axes[axis])
  if (names.length < 2) return null
  const n = Math.max(3, Math.round(smoothS * log.rateHz))
  const smooth = names.map((axis) => movingMean(log, axes[axis]!, n))
  const moment = names.map((_, a) => names.map((__, b) => {
    let sum = 0
    for (let i = 0; i < smooth[a]!.length; i++) sum += smooth[a]![i]! * smooth[b]![i]!
    return sum
  }))
  const trace = moment.reduce((sum, row, a) => sum + row[a]!, 0)
  if (!(trace > 0)) return null
  let vector = names.map((_, a) => (a === 0 ? 1 : 0.7 - 0.3 * a))
  let value = 0
  for (let step = 0; step < STEPS; step++) {
    const next = moment.map((row) => row.reduce((sum, each, b) => sum + each * vector[b]!, 0))
    value = Math.hypot(...next)
    vector = next.map((each) => each / value)
  }
  const widest = vector.reduce((at, each, index) => (Math.abs(each) > Math.abs(vector[at]!) ? index : at), 0)
  const main = vector.map((each) => each * Math.sign(vector[widest]!))
  const named = (values: readonly number[]): Direction =>
    Object.fromEntries(names.map((axis, index) => [axis, values[index]!]))
  return {
    main: named(main), share: value / trace,
    cross: names.length === 2 ? named([-main[1]!, main[0]!]) : null,
  }
}

/** The unfiltered signal along a direction. */
export function along(axes: Axes, direction: Direction): Float64Array {
  const named = SENSOR_AXES.filter((axis) => direction[axis] !== undefined)
  const out = new Float64Array(axes[named[0]!]!.length)
  for (const axis of named) {
    const [column, share] = [axes[axis]!, direction[axis]!]
    for (let i = 0; i < out.length; i++) out[i]! += share * column[i]!
  }
  return out
}

/**
 * The signal with each way round taken along its own mean direction: a car that slides turns its nose
 * in or out, the other way in the other turn, and its side is not where the acceleration points.
 */
export function alongEach(axes: Axes, main: Direction, stretches: readonly Driven[]): Float64Array {
  const out = along(axes, main)
  for (const sign of [1, -1] as const) {
    const own = stretches.filter((each) => each.sign === sign)
    if (own.length === 0) continue
    const named = SENSOR_AXES.filter((axis) => main[axis] !== undefined)
    const means = named.map((axis) => {
      let [sum, count] = [0, 0]
      for (const { from, to } of own) for (let i = from; i < to; i++, count++) sum += axes[axis]![i]!
      return (sum / count) * sign
    })
    const size = Math.hypot(...means)
    if (!(size > 0)) continue
    const turned = along(axes, Object.fromEntries(named.map((axis, at) => [axis, means[at]! / size])))
    for (const { from, to } of own) for (let i = from; i < to; i++) out[i] = turned[i]!
  }
  return out
}
