/**
 * A car with a sensor in it, driven over sloping ground. It is made from the laws of motion alone: where
 * the car is in the plane of the ground, how it is turned, what its sensor is pulled by (acceleration less
 * gravity, in the sensor's own frame). Nothing here knows how a log is read, and nothing is imported from
 * the program that reads it.
 *
 * It breaks what a reader would like to assume: the ground is not level, the sensor lies anyhow and not at
 * the centre of gravity, its axes have gains and biases of their own, the car shakes, and it may never stand.
 */
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'
import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64'

const GRAVITY_MS2 = 9.80665
type Vector = readonly [number, number, number]

export interface Drive {
  readonly seed: number
  readonly rateHz: number
  readonly lengthS: number
  readonly course: 'circle' | 'slalom' | 'launch'
  /** Centripetal acceleration on the circle, the largest one of a swing, or that of a launch, m/s2. */
  readonly levelMs2: number
  readonly radiusM: number
  /** One way round without a stop, or both by turns, with a ramp of a second between. */
  readonly ways: 'one' | 'both'
  /** Stands this long at first; 0 never stands. */
  readonly restS: number
  /** While it stands, gravity pulls the car to the side by this, m/s2: it stands on a bump. */
  readonly restSideMs2: number
  /** Steepest fall of the ground, degrees, towards where the car faces at rest plus this much. */
  readonly slopeDeg: number
  readonly slopeTowardsDeg: number
  /** Standing still it shakes a tenth of this: root mean square per axis, m/s2. */
  readonly vibrationMs2: number
  /** How neighbouring shakes hang together at 100 Hz, 0 to just under 1. */
  readonly memory: number
  /** Turned in the car about x (ahead), y (right) and z (down), degrees, in this order. */
  readonly turnedDeg: Vector
  readonly biasMs2: Vector
  readonly gains: Vector
  /** The throttle swings the level by this share, so often a second. */
  readonly swingShare: number
  readonly swingHz: number
  /** Half-cycles a second, for a slalom; seconds of one launch, for launches. */
  readonly beat: number
}

export const CALM: Drive = {
  seed: 1, rateHz: 100, lengthS: 60, course: 'circle', levelMs2: 6.2, radiusM: 5, ways: 'both', restS: 5, restSideMs2: 0, slopeDeg: 0,
  slopeTowardsDeg: 40, vibrationMs2: 0.5, memory: 0.5, turnedDeg: [0, 0, 0], biasMs2: [0, 0, 0], gains: [1, 1, 1],
  swingShare: 0, swingHz: 0.3, beat: 1.2,
}

export interface Driven {
  readonly timeS: Float64Array
  /** What the three axes show, m/s2. */
  readonly x: Float64Array
  readonly y: Float64Array
  readonly z: Float64Array
  readonly speedMs: Float64Array
}

const LEG_S = 20
const RAMP_S = 1
const radians = (degrees: number): number => (degrees * Math.PI) / 180

/** Seeded normal numbers, Box and Muller's. */
export function normals(seed: number): () => number {
  const random = xoroshiro128plus(seed)
  const uniform = (): number => uniformFloat64(random)
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform())
}

/** Sideways and ahead acceleration in the car (right and ahead positive) and its speed at a time. */
function motionAt(drive: Drive, atS: number): { right: number; ahead: number; speed: number } {
  const driven = atS - drive.restS
  if (driven < 0) return { right: drive.restSideMs2, ahead: 0, speed: 0 }
  const swing = 1 + drive.swingShare * Math.sin(2 * Math.PI * drive.swingHz * driven)
  if (drive.course === 'slalom') {
    const speed = 8
    return { right: drive.levelMs2 * Math.sin(Math.PI * drive.beat * driven), ahead: 0, speed }
  }
  if (drive.course === 'launch') {
    const [pause, run] = [4, drive.beat]
    const inside = driven % (pause + 2 * run)
    if (inside < pause) return { right: 0, ahead: 0, speed: 0 }
    const ahead = inside < pause + run ? drive.levelMs2 : -drive.levelMs2
    const since = inside - pause
    return { right: 0, ahead, speed: drive.levelMs2 * (since < run ? since : 2 * run - since) }
  }
  const [leg, inside] = [Math.floor(driven / LEG_S), driven % LEG_S]
  const way = drive.ways === 'both' && leg % 2 === 1 ? -1 : 1
  const ramped = drive.ways === 'one' ? Math.min(1, driven / RAMP_S)
    : Math.min(1, inside / RAMP_S, (LEG_S - inside) / RAMP_S)
  const level = drive.levelMs2 * ramped * swing
  return { right: way * level, ahead: 0, speed: Math.sqrt(level * drive.radiusM) }
}

/** A vector turned about an axis (0 x, 1 y, 2 z) by an angle: its parts as the turned frame sees them. */
function seenFrom(vector: Vector, axis: 0 | 1 | 2, angle: number): Vector {
  const [c, s] = [Math.cos(angle), Math.sin(angle)]
  const [x, y, z] = vector
  if (axis === 0) return [x, c * y + s * z, c * z - s * y]
  if (axis === 1) return [c * x - s * z, y, c * z + s * x]
  return [c * x + s * y, c * y - s * x, z]
}

/** The log of a drive. Same seed, same figures. */
export function drive(world: Drive): Driven {
  const count = Math.round(world.lengthS * world.rateHz)
  const out = {
    timeS: new Float64Array(count), x: new Float64Array(count), y: new Float64Array(count), z: new Float64Array(count),
    speedMs: new Float64Array(count),
  }
  const normal = normals(world.seed)
  const memory = world.memory ** (100 / world.rateHz)
  const fresh = Math.sqrt(1 - memory ** 2)
  const shake = [0, 0, 0]
  const [fall, towards] = [Math.sin(radians(world.slopeDeg)), radians(world.slopeTowardsDeg)]
  const turned = world.turnedDeg.map(radians) as unknown as Vector
  let heading = 0
  for (let i = 0; i < count; i++) {
    const atS = i / world.rateHz
    const { right, ahead, speed } = motionAt(world, atS)
    // Gravity along the ground, as the turned car feels it; z points down into the ground.
    const downhill = towards - heading
    const pulled: Vector = [
      ahead - GRAVITY_MS2 * fall * Math.cos(downhill), right - GRAVITY_MS2 * fall * Math.sin(downhill),
      -GRAVITY_MS2 * Math.sqrt(1 - fall ** 2),
    ]
    let seen = pulled
    seen = seenFrom(seen, 2, turned[2])
    seen = seenFrom(seen, 1, turned[1])
    seen = seenFrom(seen, 0, turned[0])
    const quiet = speed === 0 ? 0.1 : 1
    const shown = seen.map((value, axis) => {
      shake[axis] = memory * shake[axis]! + fresh * normal()
      return world.gains[axis]! * value + world.biasMs2[axis]! + shake[axis]! * world.vibrationMs2 * quiet
    }) as [number, number, number]
    out.timeS[i] = atS
    out.x[i] = shown[0]
    out.y[i] = shown[1]
    out.z[i] = shown[2]
    out.speedMs[i] = speed
    if (speed > 0) heading += right / speed / world.rateHz
  }
  return out
}
