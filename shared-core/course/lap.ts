/**
 * A lap by the quasi-steady method: speed limits of the corners, then the most that power and grip
 * give forwards, then the most that braking takes backwards, over the whole lap as often as it needs
 * to close (D. L. Brayshaw and M. F. Harrison, Proc. IMechE D 219 (2005) 725, in its simplest form:
 * a point mass, the friction ellipse a circle).
 */
import type { Car, Segment } from './types'

/** Longest step along the path, m, and fewest steps in a segment. */
const STEP_M = 1.5
const LEAST_STEPS = 4

/** A course cut into steps. */
export interface Path {
  readonly stepM: Float64Array
  /** 1/m; 0 on a straight. */
  readonly curvature: Float64Array
  /** Which segment a step belongs to. */
  readonly segment: Int32Array
  readonly segments: number
  readonly lengthM: number
}

export const segmentLength = (segment: Segment): number =>
  segment.kind === 'straight' ? segment.lengthM : (segment.radiusM * segment.turnDeg * Math.PI) / 180

/** Cuts a course into steps; null for one without length. */
export function pathOf(segments: readonly Segment[], stepM = STEP_M): Path | null {
  const steps: { length: number; curvature: number; segment: number }[] = []
  segments.forEach((each, segment) => {
    const length = segmentLength(each)
    const count = Math.max(LEAST_STEPS, Math.ceil(length / stepM))
    const curvature = each.kind === 'straight' ? 0 : 1 / each.radiusM
    for (let i = 0; i < count; i++) steps.push({ length: length / count, curvature, segment })
  })
  const lengthM = steps.reduce((sum, { length }) => sum + length, 0)
  if (!(lengthM > 0)) return null
  return {
    stepM: Float64Array.from(steps, ({ length }) => length),
    curvature: Float64Array.from(steps, ({ curvature }) => curvature),
    segment: Int32Array.from(steps, ({ segment }) => segment),
    segments: segments.length,
    lengthM,
  }
}

/** Level that the tyres can take at a speed, m/s2: proportional to (load/weight)^(1 - s). */
export function gripAt(car: Car, speedMs: number): number {
  const load = Math.min(car.loadNPerMs2 * speedMs * speedMs, car.mostLoadN)
  return car.gripMs2 * Math.max(0, 1 + load / car.weightN) ** (1 - car.sensitivity)
}

/**
 * Speed at which power and resistance meet, m/s: the one root of (A + C V^2) V = P, by Newton's steps
 * from above, where the cubic is convex.
 */
export function topSpeed({ steadyN, squareNPerMs2, powerW }: Car): number {
  const bySquare = squareNPerMs2 > 0 ? Math.cbrt(powerW / squareNPerMs2) : Infinity
  const bySteady = steadyN > 0 ? powerW / steadyN : Infinity
  let v = Math.min(bySquare, bySteady)
  if (!Number.isFinite(v)) return NaN
  for (let step = 0; step < 50; step++) {
    const by = ((steadyN + squareNPerMs2 * v * v) * v - powerW) / (steadyN + 3 * squareNPerMs2 * v * v)
    v -= by
    if (Math.abs(by) <= 1e-12 * v) break
  }
  return v
}

/** Largest speed at which a corner can be held, m/s; `most` where the load outgrows what the corner needs. */
export function cornerSpeed(car: Car, curvature: number, most: number): number {
  if (curvature === 0 || gripAt(car, most) >= most * most * curvature) return most
  let [low, high] = [0, most]
  let v = Math.min(most, Math.sqrt(car.gripMs2 / curvature))
  for (let step = 0; step < 60 && high - low > 1e-9 * most; step++) {
    if (gripAt(car, v) >= v * v * curvature) low = v
    else high = v
    // The fixed point of v = sqrt(grip(v) / curvature) where it stays between the ends, else their middle.
    const next = Math.sqrt(gripAt(car, v) / curvature)
    v = next > low && next < high ? next : (low + high) / 2
  }
  return low
}

/** Entries of the table of grip against squared speed. */
const TABLE = 96

/** Room for the speeds of one lap, reused from lap to lap. */
export interface Work {
  readonly limit: Float64Array
  readonly speed: Float64Array
  readonly grip: Float64Array
}
export const workFor = ({ stepM }: Path): Work => ({
  limit: new Float64Array(stepM.length),
  speed: new Float64Array(stepM.length + 1),
  grip: new Float64Array(TABLE + 1),
})

/**
 * Time of one flying lap, s. `work.speed[i]` holds the speed at the beginning of step i afterwards.
 * Infinity where the car can't get round (no grip, or no power).
 */
export function lapTime(car: Car, path: Path, work: Work): number {
  const top = topSpeed(car)
  if (!(top > 0) || !(car.gripMs2 > 0)) return Infinity
  const n = path.stepM.length
  const most = top * top
  for (let i = 0; i <= TABLE; i++) work.grip[i] = gripAt(car, Math.sqrt((most * i) / TABLE))
  limits(car, path, work, top)
  let slowest = 0
  for (let i = 1; i < n; i++) if (work.limit[i]! < work.limit[slowest]!) slowest = i
  // Squared speeds at the beginnings of the steps. From the slowest corner on the lap closes by itself.
  const square = work.speed
  square[slowest] = Math.min(most, limitAt(work, path, slowest))
  for (let k = 0; k < 2 * n; k++) {
    const i = (slowest + k) % n
    const next = (i + 1) % n
    const speed = Math.min(advance(car, path, work, i, square[i]!, most), limitAt(work, path, next))
    // The second time round nothing changes any more once one step doesn't.
    if (k >= n && speed === square[next]) break
    square[next] = speed
  }
  for (let k = 2 * n - 1; k >= 0; k--) {
    const i = (slowest + k) % n
    const before = retreat(car, path, work, i, square[(i + 1) % n]!, most)
    if (before < square[i]!) square[i] = before
    else if (k < n) break
  }
  let time = 0
  for (let i = 0; i < n; i++) {
    const v = Math.sqrt(square[i]!)
    const w = Math.sqrt(square[(i + 1) % n]!)
    time += (2 * path.stepM[i]!) / (v + w)
  }
  for (let i = 0; i < n; i++) work.speed[i] = Math.sqrt(square[i]!)
  work.speed[n] = work.speed[0]!
  return time
}

/** Squared speed limit at the beginning of a step: the tighter of the two steps that meet there. */
function limitAt(work: Work, path: Path, i: number): number {
  const before = (i + path.stepM.length - 1) % path.stepM.length
  return Math.min(work.limit[i]!, work.limit[before]!)
}

function limits(car: Car, path: Path, work: Work, top: number): void {
  let last = -1
  let held = 0
  for (let i = 0; i < path.stepM.length; i++) {
    const segment = path.segment[i]!
    if (segment !== last) {
      held = cornerSpeed(car, path.curvature[i]!, top) ** 2
      last = segment
    }
    work.limit[i] = held
  }
}

/** Grip by the table, at a squared speed. */
function tabled(grip: Float64Array, square: number, most: number): number {
  const at = Math.min(TABLE - 1e-9, (square / most) * TABLE)
  const low = Math.floor(at)
  return grip[low]! + (at - low) * (grip[low + 1]! - grip[low]!)
}

/** What grip is left along the path at a squared speed, m/s2. */
function alongGrip(work: Work, square: number, most: number, curvature: number): number {
  const grip = tabled(work.grip, square, most)
  if (curvature === 0) return grip
  const across = square * curvature
  return across >= grip ? 0 : Math.sqrt(grip * grip - across * across)
}

function driving(car: Car, work: Work, square: number, most: number, curvature: number): number {
  const grip = car.massKg * car.drivenShare * alongGrip(work, square, most, curvature)
  const push = square > 0 ? Math.min(car.powerW / Math.sqrt(square), grip) : grip
  return (push - car.steadyN - car.squareNPerMs2 * square) / car.movingMassKg
}

function braking(car: Car, work: Work, square: number, most: number, curvature: number): number {
  const grip = car.massKg * alongGrip(work, square, most, curvature)
  return (grip + car.steadyN + car.squareNPerMs2 * square) / car.movingMassKg
}

/** Squared speed at a step's end (Heun's method in the squared speed). */
function advance(car: Car, path: Path, work: Work, i: number, square: number, most: number): number {
  const curvature = path.curvature[i]!
  const twice = 2 * path.stepM[i]!
  const first = driving(car, work, square, most, curvature)
  const guess = Math.min(most, Math.max(1e-6, square + twice * first))
  return Math.min(most, Math.max(1e-6, square + (twice / 2) * (first + driving(car, work, guess, most, curvature))))
}

/** Squared speed at a step's beginning from which it can still be braked to the end's. */
function retreat(car: Car, path: Path, work: Work, i: number, square: number, most: number): number {
  const curvature = path.curvature[i]!
  const twice = 2 * path.stepM[i]!
  const first = braking(car, work, square, most, curvature)
  const guess = Math.min(most, square + twice * first)
  return Math.min(most, square + (twice / 2) * (first + braking(car, work, guess, most, curvature)))
}

/** Time in each segment of the lap just driven, s. */
export function segmentTimes(path: Path, work: Work): number[] {
  const times = new Array<number>(path.segments).fill(0)
  path.stepM.forEach((length, i) => {
    times[path.segment[i]!]! += (2 * length) / (work.speed[i]! + work.speed[i + 1]!)
  })
  return times
}

/** Time from rest over a distance, s; Infinity where the car does not move. */
export function launchTime(car: Car, distanceM: number): number {
  const top = topSpeed(car)
  if (!(top > 0)) return Infinity
  const steps = 100
  const dt = distanceM / (steps * top)
  let [v, x, t] = [0, 0, 0]
  const acceleration = (speed: number): number => {
    const grip = car.massKg * car.drivenShare * gripAt(car, speed)
    const push = speed > 0 ? Math.min(car.powerW / speed, grip) : grip
    return (push - car.steadyN - car.squareNPerMs2 * speed * speed) / car.movingMassKg
  }
  if (!(acceleration(0) > 0)) return Infinity
  for (let step = 0; step < 50 * steps; step++) {
    const a = acceleration(v)
    const middle = acceleration(v + (dt / 2) * a)
    const next = v + dt * middle
    const by = dt * (v + (dt / 2) * a)
    if (x + by >= distanceM) return t + (dt * (distanceM - x)) / by
    x += by
    v = next
    t += dt
  }
  return Infinity
}
