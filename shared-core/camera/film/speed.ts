/** Speed of a pass from the frames between ground marks a known distance apart. */
import { exact, fromData, fromSource, type Uncertain } from '@core/uncertainty'

/** Place along the ground against time, from a trace; frames in which the mark was lost left out. */
export interface PassPoint { readonly timeS: number; readonly alongMm: number }

export interface Crossing {
  readonly timeS: Uncertain
  /** Speed of the mark along the ground there, mm/s, by the picture's own scale, signed. */
  readonly alongMmS: number
}

/**
 * Containers keep frame times to the millisecond or better; half a millisecond either way, taken as
 * rectangular, is the standard uncertainty of one frame's time.
 */
export const FRAME_TIME_U_S = 0.5e-3 / Math.sqrt(3)

/** Frames on each side of a gate from which the crossing is taken. */
const SIDE = 3

/**
 * When the mark passed a gate: a parabola through the frames around the crossing, solved for the
 * gate's place. Times are the frames' own, so an uneven rate needs no care.
 *
 * @param gateMm the gate's place along the ground in the same plane, with its mark's uncertainty
 * @param name names the source of this crossing's own scatter
 * @returns null where the mark is not seen on both sides of the gate in at least two frames each
 */
export function crossingOf(pass: readonly PassPoint[], gateMm: Uncertain, name: string): Crossing | null {
  const before = pass.findIndex((point, i) => {
    const next = pass[i + 1]
    return next !== undefined && (point.alongMm - gateMm.value) * (next.alongMm - gateMm.value) <= 0
      && point.alongMm !== next.alongMm
  })
  if (before < 1 || before + 2 >= pass.length) return null
  const near = pass.slice(Math.max(0, before - SIDE + 1), before + SIDE + 1)
  const fit = parabola(near)
  if (!fit) return null
  const timeS = solve(fit, gateMm.value, (pass[before]!.timeS + pass[before + 1]!.timeS) / 2)
  if (timeS === null) return null
  const speed = fit.b + 2 * fit.c * (timeS - fit.t0)
  const scatter = Math.hypot(fit.spread / Math.abs(speed), FRAME_TIME_U_S) / Math.sqrt(near.length)
  const own = fromSource(timeS, scatter, fromData('crossing', `camera:${name}:crossing`, Infinity))
  // A gate placed farther on by d mm is passed d / v later.
  const parts = [...own.parts, ...gateMm.parts.map((part) => ({ ...part, contribution: part.contribution / speed }))]
  return { timeS: parts.length === 0 ? exact(timeS) : { value: timeS, parts }, alongMmS: speed }
}

/** a + b t + c t^2 with t from `t0`, and the scatter about it. */
interface Parabola {
  readonly a: number
  readonly b: number
  readonly c: number
  readonly t0: number
  readonly spread: number
}

/** Least squares of place against time about the mean time; straight where there are only four frames. */
function parabola(points: readonly PassPoint[]): Parabola | null {
  const n = points.length
  if (n < 4) return null
  const t0 = points.reduce((sum, { timeS }) => sum + timeS, 0) / n
  const s = [0, 0, 0, 0, 0]
  const y = [0, 0, 0]
  for (const { timeS, alongMm } of points) {
    const t = timeS - t0
    for (let k = 0; k < 5; k++) s[k]! += t ** k
    for (let k = 0; k < 3; k++) y[k]! += alongMm * t ** k
  }
  const [s0, , s2, s3, s4] = s as [number, number, number, number, number]
  const [y0, y1, y2] = y as [number, number, number]
  let [a, b, c] = [y0 / s0, y1 / s2, 0]
  if (n > 4) {
    // Normal equations of 1, t, t^2 with the sum of t being zero.
    const d = s0 * (s2 * s4 - s3 * s3) - s2 * s2 * s2
    if (!(Math.abs(d) > 0)) return null
    c = (s0 * s2 * y2 - s0 * s3 * y1 - s2 * s2 * y0) / d
    b = (y1 - s3 * c) / s2
    a = (y0 - s2 * c) / s0
  }
  const left = points.reduce((sum, { timeS, alongMm }) => {
    const t = timeS - t0
    return sum + (alongMm - a - b * t - c * t * t) ** 2
  }, 0)
  return { a, b, c, t0, spread: Math.sqrt(left / (n - (n > 4 ? 3 : 2))) }
}

function solve({ a, b, c, t0 }: Parabola, place: number, guess: number): number | null {
  let t = guess - t0
  for (let round = 0; round < 30; round++) {
    const slope = b + 2 * c * t
    if (slope === 0) return null
    const step = (a + b * t + c * t * t - place) / slope
    t -= step
    if (Math.abs(step) < 1e-12) return t + t0
  }
  return null
}
