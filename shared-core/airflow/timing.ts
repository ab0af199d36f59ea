/** Speed and acceleration of one pass from its gates. */
import type { GateTiming } from '@core/schema'
import { combine, entered, fromSource, known, type Uncertain } from '@core/uncertainty'

export interface PassTiming {
  /** Speed midway between the outer gates, which is where the heights are read. */
  readonly speedMs: Uncertain
  /** Constant acceleration that fits the three gates; null without a third. */
  readonly accelerationMs2: Uncertain | null
}

/**
 * Reads the gates; null where the moments are not in order.
 *
 * Sources: `timing:<name>:first` and so on, one per moment; the distances by session and value, since
 * gates stand where they stand for all passes.
 *
 * @param scope the session's id
 * @param name what makes the moments this pass' own
 */
export function readTiming(timing: GateTiming, scope: string, name: string): PassTiming | null {
  const { firstS, secondS, thirdS, uTimeS } = timing
  if (!(secondS > firstS)) return null
  const moment = (which: string, value: number): Uncertain =>
    fromSource(value, uTimeS, known('gateTiming', `timing:${scope}:${name}:${which}`))
  const distance = (measured: { value: number; u: number }): Uncertain =>
    entered(measured, 'gateDistance', `distance:${scope}:${measured.value}`)
  const near = distance(timing.distanceMm)
  const first = moment('first', firstS)
  const second = moment('second', secondS)
  const span = secondS - firstS
  const speed = near.value / 1000 / span
  const speedMs = combine(speed, [[near, speed / near.value], [second, -speed / span], [first, speed / span]])
  if (thirdS === null || !timing.distanceFarMm || !(thirdS > secondS)) return { speedMs, accelerationMs2: null }
  if (!(timing.distanceFarMm.value > near.value)) return { speedMs, accelerationMs2: null }
  const inputs = [near, distance(timing.distanceFarMm), first, second, moment('third', thirdS)]
  const steps = [1e-3, 1e-3, 1e-7, 1e-7, 1e-7]
  return { speedMs: smooth(inputs, middleSpeedOf, steps), accelerationMs2: smooth(inputs, accelerationOf, steps) }
}

/** Constant acceleration through three gates, m/s2: near and far distance in mm, three moments in s. */
function accelerationOf([nearMm, farMm, first, second, third]: readonly number[]): number {
  const earlier = nearMm! / 1000 / (second! - first!)
  const later = (farMm! - nearMm!) / 1000 / (third! - second!)
  return (2 * (later - earlier)) / (third! - first!)
}

/** Speed of that motion midway between first and third gate, m/s. */
function middleSpeedOf(inputs: readonly number[]): number {
  const [nearMm, farMm, first, second] = inputs as [number, number, number, number, number]
  const span = second - first
  const acceleration = accelerationOf(inputs)
  const atFirst = nearMm / 1000 / span - (acceleration * span) / 2
  return Math.sqrt(Math.max(0, atFirst ** 2 + acceleration * (farMm / 1000)))
}

/** A smooth function of several values by central differences. */
function smooth(inputs: readonly Uncertain[], of: (values: number[]) => number, steps: readonly number[]): Uncertain {
  const values = inputs.map(({ value }) => value)
  const slope = (i: number): number => {
    const moved = (by: number) => of(values.map((each, j) => (j === i ? each + by : each)))
    return (moved(steps[i]!) - moved(-steps[i]!)) / (2 * steps[i]!)
  }
  return combine(of(values), inputs.map((input, i) => [input, slope(i)] as const))
}
