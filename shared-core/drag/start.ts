/** Where the coast fit begins: rolling and air from the slowing between stretches of each coast. */
import type { CoastInput, CoastSettings } from './types'

export interface Start {
  readonly rolling: number
  readonly areaM2: number
  readonly startsMs: readonly number[]
}

/** Stretches that a coast is cut into. */
const STRETCHES = 6

/** Mean speed and slowing of neighbouring stretches. */
interface Slowing {
  readonly speedMs: number
  readonly slowingMs2: number
}

/** First values; null where the cars do not slow down. */
export function startOf(inputs: readonly CoastInput[], settings: CoastSettings): Start | null {
  let [n, x, xx, y, xy] = [0, 0, 0, 0, 0]
  for (const input of inputs) {
    const mass = input.massKg * (1 + settings.rotatingShare)
    for (const { speedMs, slowingMs2 } of slowingsOf(input)) {
      const abscissa = (input.densityKgM3 / 2) * speedMs ** 2
      const ordinate = mass * slowingMs2
      n += 1
      x += abscissa
      xx += abscissa ** 2
      y += ordinate
      xy += abscissa * ordinate
    }
  }
  if (n < 1 || !(y > 0)) return null
  const spread = n * xx - x * x
  const slope = spread > 0 ? (n * xy - x * y) / spread : 0
  // A share for each where the line gives one of them nothing: the fit needs a car that rolls on to its end.
  const areaM2 = Math.min(Math.max(slope, (0.2 * y) / x), (0.8 * y) / x)
  const weight = (inputs.reduce((sum, { massKg }) => sum + massKg, 0) / inputs.length) * settings.gravityMs2
  return { rolling: (y - areaM2 * x) / n / weight, areaM2, startsMs: inputs.map(startSpeed) }
}

function slowingsOf({ data }: CoastInput): Slowing[] {
  const points = data.kind === 'speeds' ? meansOf(data.tS, data.vMs) : spansOf(data.tS, data.xM)
  return points.slice(1).flatMap((point, i) => {
    const before = points[i]!
    const span = point.t - before.t
    return span > 0 ? [{ speedMs: (point.v + before.v) / 2, slowingMs2: (before.v - point.v) / span }] : []
  })
}

function meansOf(tS: readonly number[], vMs: readonly number[]): { t: number; v: number }[] {
  const parts = Math.min(STRETCHES, tS.length)
  return Array.from({ length: parts }, (_, part) => {
    const [from, to] = [Math.floor((part * tS.length) / parts), Math.floor(((part + 1) * tS.length) / parts)]
    const mean = (of: readonly number[]): number =>
      of.slice(from, to).reduce((sum, each) => sum + each, 0) / (to - from)
    return { t: mean(tS), v: mean(vMs) }
  })
}

/** Mean speeds between a few of the gates: from each pulse of a wheel to the next they would be mostly noise. */
function spansOf(tS: readonly number[], xM: readonly number[]): { t: number; v: number }[] {
  const spans = Math.min(STRETCHES, tS.length - 1)
  const at = Array.from({ length: spans + 1 }, (_, k) => Math.round((k * (tS.length - 1)) / spans))
  return at.slice(1).map((j, k) => {
    const i = at[k]!
    return { t: (tS[j]! + tS[i]!) / 2, v: (xM[j]! - xM[i]!) / (tS[j]! - tS[i]!) }
  })
}

/** Speed at the first reading: the line through the first stretches, carried back. */
function startSpeed(input: CoastInput): number {
  const { data } = input
  if (data.kind === 'speeds') {
    const few = Math.max(1, Math.floor(data.vMs.length / 20))
    return data.vMs.slice(0, few).reduce((sum, each) => sum + each, 0) / few
  }
  const [first, second] = spansOf(data.tS, data.xM)
  if (!second) return first!.v
  return first!.v + ((first!.v - second.v) / (second.t - first!.t)) * (first!.t - data.tS[0]!)
}
