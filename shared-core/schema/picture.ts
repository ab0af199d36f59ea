/**
 * Pictures and clips: the file stays where the builder keeps it; here are its name, its size, a
 * fingerprint to know it again, a thumbnail and the marks.
 * Picture coordinates are px from the upper left corner of the upper left pixel, x right, y down.
 */
import { z } from 'zod'
import { between, corner, id, moment, name, standardUncertainty } from './scalars'

const px = between(-100_000, 100_000)
export const point = z.strictObject({ xPx: px, yPx: px })

/** A mark made by hand (repeats averaged) or snapped to a sticker, with its standard uncertainty. */
export const mark = z.strictObject({
  id,
  role: z.enum([
    'scaleStart', 'scaleEnd', 'farScaleStart', 'farScaleEnd', 'plane', 'ground', 'hub', 'chassis', 'edge', 'gate',
  ]),
  corner: corner.nullable(),
  frameS: between(0, 1e6).nullable(),
  at: point,
  repeats: z.array(point).max(100),
  uPx: standardUncertainty(1000),
  snapped: z.boolean(),
})

/** How px becomes mm: one length in the plane of the marks, or four points of a known rectangle. */
export const pictureScale = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('length'),
    lengthMm: z.strictObject({ value: between(0.1, 10_000), u: standardUncertainty(1000) }),
    /** Camera to scale and camera to marks, mm, where the scale lies in another plane. */
    distances: z
      .strictObject({
        scaleMm: z.strictObject({ value: between(1, 1e6), u: standardUncertainty(1e5) }),
        marksMm: z.strictObject({ value: between(1, 1e6), u: standardUncertainty(1e5) }),
      })
      .nullable(),
  }),
  z.strictObject({
    kind: z.literal('plane'),
    /** Four corners of the known shape in the order of the four `plane` marks, mm, with their u. */
    cornersMm: z.array(z.strictObject({ xMm: between(-1e5, 1e5), yMm: between(-1e5, 1e5) })).length(4),
    uMm: standardUncertainty(1000),
  }),
])

/** A window of a clip, seconds of media time. */
export const clipWindow = z.strictObject({
  id, use: z.enum(['off', 'on', 'speed']), fromS: between(0, 1e6), toS: between(0, 1e6),
})

export const picture = z.strictObject({
  id,
  kind: z.enum(['still', 'clip']),
  fileName: name,
  sizeBytes: z.number().int().min(0),
  fingerprint: z.string().max(200),
  addedAt: moment,
  widthPx: between(1, 100_000),
  heightPx: between(1, 100_000),
  /** A small JPEG or WebP as a data address, at most about 60 kB. */
  thumbnail: z.string().max(90_000).regex(/^data:image\/(png|jpeg|webp);base64,[A-Za-z0-9+/=]*$/).nullable(),
  scale: pictureScale.nullable(),
  /** Radial lens term k1 about the picture's middle, per squared half-diagonal. */
  lensK1: z.strictObject({ value: between(-1, 1), u: standardUncertainty(1) }).nullable(),
  exposureS: between(0, 10).nullable(),
  marks: z.array(mark).max(5000),
  windows: z.array(clipWindow).max(100),
})

export type Picture = z.infer<typeof picture>
export type PictureMark = z.infer<typeof mark>
export type PicturePoint = z.infer<typeof point>
export type PictureScale = z.infer<typeof pictureScale>
export type ClipWindow = z.infer<typeof clipWindow>
