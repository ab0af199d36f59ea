/** A window of a trace as one height, and off / on / off windows as a bracket. */
import { combine, fromData, fromSource, type Uncertain } from '@core/uncertainty'
import { propagate } from '../plane/propagate'
import type { Px } from '../raster/luminance'
import { windowMean, type WindowMean } from './mean'
import type { Trace } from './trace'

type GoodTrace = Extract<Trace, { kind: 'trace' }>

export interface WindowHeight {
  readonly heightMm: Uncertain
  /** Middle of the frames used, s. */
  readonly atS: number
  readonly mean: WindowMean
  /** Frames of the window in which a mark was lost. */
  readonly lost: number
}

/**
 * Mean height over a window. Its scatter (with the autocorrelation of the trace) is a source of its
 * own; the marks' own errors, the scale and the rest come from the model at the window's mean place,
 * and are the same sources in every window of the clip.
 *
 * @param about `line` in a bracket, so that a creeping zero does not count as scatter
 * @param name of the window, unique over the session; names its source
 * @returns null with fewer than five frames in which all marks were found
 */
export function windowHeight(
  trace: GoodTrace, fromS: number, toS: number, name: string, about: 'mean' | 'line' = 'mean',
): WindowHeight | null {
  const inside = trace.points.map((point, i) => ({ point, frame: trace.frames[i]! }))
    .filter(({ point }) => point.timeS >= fromS && point.timeS <= toS)
  const found = inside.filter(({ point }) => point.heightMm !== null)
  const mean = windowMean(found.map(({ point }) => ({ timeS: point.timeS, value: point.heightMm! })), about)
  if (!mean) return null
  const { model } = trace
  const chassis = meanPlace(found.map(({ frame }) => frame.chassis!))
  const hub = model.hub === null ? null : meanPlace(found.map(({ frame }) => frame.hub!))
  const inputs = model.inputs.map((input, i): Uncertain => {
    const moved = movedInput(i, model.chassis, chassis)
      ?? (model.hub === null || !hub ? null : movedInput(i, model.hub, hub))
    return moved === null ? input : { ...input, value: moved }
  })
  const fixed = propagate(inputs, model.height)
  const source = fromData('windowScatter', `camera:${name}:window:${trace.corner}`, mean.dof)
  const scatter = fromSource(0, mean.u, source)
  return {
    heightMm: combine(mean.mean, [[fixed, 1], [scatter, 1]]),
    atS: found.reduce((sum, { point }) => sum + point.timeS, 0) / found.length,
    mean,
    lost: inside.length - found.length,
  }
}

function meanPlace(points: readonly Px[]): Px {
  const n = points.length
  return { x: points.reduce((sum, { x }) => sum + x, 0) / n, y: points.reduce((sum, { y }) => sum + y, 0) / n }
}

const movedInput = (index: number, start: number, { x, y }: Px): number | null =>
  index === start ? x : index === start + 1 ? y : null

/**
 * Drop from the rest height to the height under air, mm, positive down: the rest height is taken on
 * the straight line in time between the two off windows, so that a zero that creeps does not count.
 *
 * @throws RangeError where both off windows lie at one time
 */
export function bracketDrop(before: WindowHeight, on: WindowHeight, after: WindowHeight): Uncertain {
  const span = after.atS - before.atS
  if (span === 0) throw new RangeError('the two off windows must lie at different times')
  const share = (on.atS - before.atS) / span
  const rest = before.heightMm.value + share * (after.heightMm.value - before.heightMm.value)
  return combine(rest - on.heightMm.value, [[before.heightMm, 1 - share], [after.heightMm, share], [on.heightMm, -1]])
}
