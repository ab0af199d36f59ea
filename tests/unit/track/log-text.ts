/** An invented acceleration log: a car that stands still, then drives circles to the left and to the right. */
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64'

export interface LogWorld {
  readonly seed: number
  readonly rateHz: number
  readonly lengthS: number
  /** Level held in each circle, m/s2, and the stretches it is held in. */
  readonly levelMs2: number
  readonly noiseMs2: number
  /** Correlation of neighbouring noise samples, 0 to just under 1. */
  readonly memory: number
  /** The sensor leans by this much about x, degrees. */
  readonly tiltDeg: number
  /** A blow over a kerb, m/s2, in the middle of each circle. */
  readonly peakMs2: number
}

export const PLAIN_WORLD: LogWorld = {
  seed: 1, rateHz: 200, lengthS: 60, levelMs2: 6.2, noiseMs2: 0.4, memory: 0.9, tiltDeg: 4, peakMs2: 25,
}

const REST_S = 5
const CIRCLE_S = 8

/** True lateral acceleration at a time: rest, then circles by turns to both sides with ramps between. */
export function truth(world: LogWorld, atS: number): number {
  if (atS < REST_S) return 0
  const inCircle = (atS - REST_S) % CIRCLE_S
  const sign = Math.floor((atS - REST_S) / CIRCLE_S) % 2 === 0 ? 1 : -1
  const ramp = Math.min(1, inCircle, CIRCLE_S - inCircle)
  const peak = Math.abs(inCircle - CIRCLE_S / 2) < 0.02 ? world.peakMs2 : 0
  return sign * (world.levelMs2 * ramp + peak)
}

const GRAVITY = 9.80665

/** Samples of time and of the three axes (z up), in s and m/s2. */
export function samples(world: LogWorld): { timeS: number; x: number; y: number; z: number }[] {
  const random = xoroshiro128plus(world.seed)
  const gauss = () =>
    Math.sqrt(-2 * Math.log(1 - uniformFloat64(random))) * Math.cos(2 * Math.PI * uniformFloat64(random))
  const noise = [0, 0, 0]
  const lean = (world.tiltDeg * Math.PI) / 180
  return Array.from({ length: Math.round(world.lengthS * world.rateHz) }, (_, i) => {
    const timeS = i / world.rateHz
    const moving = timeS < REST_S ? 0.1 : 1
    for (let axis = 0; axis < 3; axis++) {
      noise[axis] = world.memory * noise[axis]! + Math.sqrt(1 - world.memory ** 2) * gauss() * world.noiseMs2
    }
    const y = truth(world, timeS)
    return {
      timeS, x: noise[0]! * moving, y: y * Math.cos(lean) + GRAVITY * Math.sin(lean) + noise[1]! * moving,
      z: GRAVITY * Math.cos(lean) - y * Math.sin(lean) + noise[2]! * moving,
    }
  })
}

/** The log as text, one row per sample, with the writer's habits. */
export function logText(
  world: LogWorld, { delimiter = ',', comma = false, head = ['time (s),ax (m/s2),ay (m/s2),az (m/s2)'] } = {},
): string {
  const number = (value: number, digits: number) => value.toFixed(digits).replace('.', comma ? ',' : '.')
  const rows = samples(world).map(({ timeS, x, y, z }) =>
    [number(timeS, 4), number(x, 3), number(y, 3), number(z, 3)].join(delimiter))
  return [...head.map((line) => line.replaceAll(',', delimiter)), ...rows, ''].join('\n')
}
