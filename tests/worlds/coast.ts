/**
 * Coasts of a car that knows nothing of the analysis: the equation of motion stepped by the classical
 * Runge-Kutta method, rolling that grows with the load on the tyres, wind that changes from coast to
 * coast, a slope, and a reader of speeds or of gates with its own errors.
 */

/** Uniform numbers from 0 to 1 by a seed (a multiply-with-carry pair; G. Marsaglia). */
export function uniforms(seed: number): () => number {
  let [z, w] = [(seed * 2654435761) >>> 0 || 362436069, (seed ^ 0x9e3779b9) >>> 0 || 521288629]
  for (let i = 0; i < 20; i++) [z, w] = [next(z, 36969), next(w, 18000)]
  return () => {
    z = next(z, 36969)
    w = next(w, 18000)
    return ((((z << 16) >>> 0) + w) >>> 0) / 2 ** 32
  }
}
const next = (x: number, factor: number): number => (factor * (x & 65535) + (x >>> 16)) >>> 0

/** Standard normal numbers by the polar method. */
export function normals(uniform: () => number): () => number {
  let kept: number | null = null
  return () => {
    if (kept !== null) {
      const out = kept
      kept = null
      return out
    }
    for (;;) {
      const [a, b] = [2 * uniform() - 1, 2 * uniform() - 1]
      const s = a * a + b * b
      if (s > 0 && s < 1) {
        const f = Math.sqrt((-2 * Math.log(s)) / s)
        kept = b * f
        return a * f
      }
    }
  }
}

/** What is true of a car and a day. */
export interface CoastWorld {
  readonly massKg: number
  /** Inertia of turning parts as mass at the tread, kg. */
  readonly turningKg: number
  readonly rollingCoefficient: number
  readonly dragAreaM2: number
  readonly liftAreaM2: number
  readonly airKgM3: number
  /** Mean wind along the way out, its standard deviation from coast to coast, m/s; rise per length of the way out. */
  readonly windMs: number
  readonly gustMs: number
  readonly rise: number
}

const G = 9.80665

/** Speed and distance over ground against time, every `dt` s, until the car is at `endMs`. */
export function coastDown(world: CoastWorld, way: 1 | -1, windMs: number, startMs: number, endMs: number, dt = 0.01) {
  const slowing = (v: number): number => {
    const air = v - way * windMs
    const dynamic = 0.5 * world.airKgM3 * air * Math.abs(air)
    const pressing = world.massKg * G + world.liftAreaM2 * 0.5 * world.airKgM3 * air * air
    const force = dynamic * world.dragAreaM2 + world.rollingCoefficient * pressing + way * world.massKg * G * world.rise
    return -force / (world.massKg + world.turningKg)
  }
  const points = [{ t: 0, v: startMs, x: 0 }]
  let [t, v, x] = [0, startMs, 0]
  while (v > endMs && t < 120) {
    const a = slowing(v)
    const b = slowing(v + (dt / 2) * a)
    const c = slowing(v + (dt / 2) * b)
    const d = slowing(v + dt * c)
    const was = v
    v += (dt / 6) * (a + 2 * b + 2 * c + d)
    // Distance by Simpson's rule with the middle of a cubic.
    const middle = (was + v) / 2 + (dt / 8) * (a - slowing(v))
    x += (dt / 6) * (was + 4 * middle + v)
    t += dt
    points.push({ t, v, x })
  }
  return points
}

/** Moment at which a distance is passed, by the line between the points about it. */
export function momentAt(points: readonly { t: number; x: number; v: number }[], distanceM: number): number | null {
  const after = points.findIndex(({ x }) => x >= distanceM)
  if (after < 0) return null
  if (after === 0) return points[0]!.t
  const [p, q] = [points[after - 1]!, points[after]!]
  return p.t + ((distanceM - p.x) / (q.x - p.x)) * (q.t - p.t)
}
