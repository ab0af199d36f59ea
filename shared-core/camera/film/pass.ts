/** Timing of one pass between ground marks, in the form an airflow state keeps it. */
import type { GateTiming, Picture } from '@core/schema'
import { entered, minus, over, scaled, standardUncertainty, type Uncertain } from '@core/uncertainty'
import { crossingOf, type Crossing } from './speed'
import type { Trace } from './trace'

export type PassLack = 'gates' | 'distance' | 'crossing'

export type PassResult =
  | {
      readonly kind: 'pass'
      readonly timing: GateTiming
      /** Mean speed between the first two gates passed, m/s. */
      readonly speedMs: Uncertain
      /** Way of travel in the picture. */
      readonly way: 'rightward' | 'leftward'
    }
  | { readonly kind: 'lacking'; readonly lack: PassLack }

const lacking = (lack: PassLack): PassResult => ({ kind: 'lacking', lack })

/**
 * Times at which the followed chassis mark passed the gate marks of the picture, and the speed
 * between them. Gates are named in the order of their marks; the car may come from either side. The
 * gates must be marked in the plane in which the mark moves.
 */
export function passOf(trace: Extract<Trace, { kind: 'trace' }>, picture: Picture, name: string): PassResult {
  const marks = picture.marks.filter(({ role }) => role === 'gate')
  const { gates } = picture
  if (marks.length < 2) return lacking('gates')
  if (!gates || (marks.length > 2 && !gates.distanceFarMm)) return lacking('distance')
  const stage = trace.model.stage(trace.model.inputs.map(({ value }) => value))
  const pass = trace.points.flatMap(({ timeS, alongMm }) => (alongMm === null ? [] : [{ timeS, alongMm }]))
  const crossings = marks.slice(0, 3).map(({ id, at, uPx }): Crossing | null => {
    const here = stage.along({ x: at.xPx, y: at.yPx })
    const perPx = Math.abs(stage.along({ x: at.xPx + 1, y: at.yPx }) - here)
    return crossingOf(pass, entered({ value: here, u: uPx * perPx }, 'gateMark', `camera:mark:${id}:along`), `${name}:${id}`)
  })
  if (crossings.some((each) => each === null)) return lacking('crossing')
  const found = crossings as Crossing[]
  const placesMm = [0, gates.distanceMm.value, gates.distanceFarMm?.value ?? Number.NaN].slice(0, found.length)
  const order = found.map((_, i) => i).sort((a, b) => found[a]!.timeS.value - found[b]!.timeS.value)
  const [first, second, third] = order as [number, number, number?]
  const distance = distanceBetween(picture, placesMm, first, second)
  const far = third === undefined ? null : distanceBetween(picture, placesMm, first, third)
  const times = order.map((i) => found[i]!.timeS)
  const tookS = minus(times[1]!, times[0]!)
  if (!(tookS.value > 0)) return lacking('crossing')
  const distanceM = scaled(entered(distance, 'pictureDistance', `camera:${picture.setupId ?? picture.id}:gates`), 1e-3)
  return {
    kind: 'pass',
    speedMs: over(distanceM, tookS),
    way: found[first]!.alongMmS > 0 ? 'rightward' : 'leftward',
    timing: {
      distanceMm: distance,
      firstS: times[0]!.value,
      secondS: times[1]!.value,
      thirdS: times[2]?.value ?? null,
      distanceFarMm: far,
      uTimeS: Math.max(...times.map(standardUncertainty)),
    },
  }
}

function distanceBetween(picture: Picture, placesMm: readonly number[], from: number, to: number) {
  const { distanceMm, distanceFarMm } = picture.gates!
  const u = from === 2 || to === 2
    ? Math.hypot(distanceFarMm!.u, from === 0 || to === 0 ? 0 : distanceMm.u)
    : distanceMm.u
  return { value: Math.abs(placesMm[to]! - placesMm[from]!), u }
}
