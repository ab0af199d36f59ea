/** From followed marks to ride height against time. */
import type { Corner, Picture } from '@core/schema'
import type { Px } from '../raster/luminance'
import { heightModel, type Datum, type HeightLack, type HeightModel } from '../height/model'

/** Where one corner's marks were in one frame; null where one of them was lost. */
export interface FramePoints { readonly timeS: number; readonly chassis: Px | null; readonly hub: Px | null }

export interface TracePoint {
  readonly timeS: number
  /** Height above the datum, mm; null where a mark was lost. */
  readonly heightMm: number | null
  /** Place of the chassis mark along the ground, mm; null where it was lost. */
  readonly alongMm: number | null
}

export type Trace =
  | {
      readonly kind: 'trace'
      readonly corner: Corner
      readonly datum: Datum
      readonly points: readonly TracePoint[]
      readonly model: HeightModel
      readonly frames: readonly FramePoints[]
    }
  | { readonly kind: 'lacking'; readonly lack: HeightLack }

/**
 * Height against time of one corner.
 *
 * @param startS media time of the frame in which the marks were made; null where they were made in a still
 * @param frames where the marks were, in the order of time
 */
export function traceOf(
  picture: Picture, corner: Corner, datum: Datum, startS: number | null, frames: readonly FramePoints[],
): Trace {
  const model = heightModel(picture, corner, datum, startS)
  if (!model.ok) return { kind: 'lacking', lack: model.lack }
  const stage = model.stage(model.inputs.map(({ value }) => value))
  const points = frames.map(({ timeS, chassis, hub }): TracePoint => {
    if (!chassis || (model.hub !== null && !hub)) return { timeS, heightMm: null, alongMm: null }
    return { timeS, heightMm: stage.height(chassis, hub), alongMm: stage.along(chassis) }
  })
  return { kind: 'trace', corner, datum, points, model, frames }
}
