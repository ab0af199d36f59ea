/**
 * Pictures and clips: the file stays where the builder keeps it; here are its name, its size, a
 * fingerprint to know it again, a thumbnail and the marks.
 * Picture coordinates are px from the upper left corner of the upper left pixel, x right, y down.
 */
import { z } from 'zod'
import { between, corner, id, measured, moment, name, standardUncertainty } from './scalars'

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
  /** Radius of the round sticker it was snapped to. */
  radiusPx: between(0.5, 2000).optional(),
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
    /**
     * A second length, farther off than the first, between the marks `farScaleStart` and
     * `farScaleEnd`. `share`: where the car's marks lie between the two, 0 at the first, 1 at the far one.
     */
    far: z.strictObject({ lengthMm: measured(0.1, 10_000), share: measured(-0.5, 1.5) }).optional(),
  }),
  z.strictObject({
    kind: z.literal('plane'),
    /** Four corners of the known shape in the order of the four `plane` marks, mm, with their u. */
    cornersMm: z.array(z.strictObject({ xMm: between(-1e5, 1e5), yMm: between(-1e5, 1e5) })).length(4),
    uMm: standardUncertainty(1000),
  }),
])

/** What kind of camera took a picture: how bent its lens usually is, and how wide it looks. */
export const CAMERA_KINDS = ['phoneMain', 'phoneWide', 'webcam', 'action', 'lensCamera'] as const
export const cameraKind = z.enum(CAMERA_KINDS)
export type CameraKind = z.infer<typeof cameraKind>

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
  /**
   * Radial lens term k1 about the picture's middle, per squared half-diagonal, where it was measured
   * elsewhere. Marks on a straight edge tell it anew and count before it.
   */
  lensK1: z.strictObject({ value: between(-1, 1), u: standardUncertainty(1) }).nullable(),
  /** Asked of the builder; where left out nobody said. */
  cameraKind: cameraKind.optional(),
  /** What the file itself says of its camera (Exif): maker and model, and the focal length on the 35 mm format. */
  camera: z.strictObject({ says: z.string().max(200), focal35Mm: between(1, 5000).nullable() }).optional(),
  exposureS: between(0, 10).nullable(),
  marks: z.array(mark).max(5000),
  windows: z.array(clipWindow).max(100),
  /**
   * The set-up of tripod and scale this picture was taken from. Pictures that name the same one share
   * the errors of the scale, the lens and each sticker's depth, which then cancel in a drop.
   */
  setupId: id.optional(),
  /**
   * For parallax: camera to the plane of the scale; how well each sticker's depth to that plane is
   * known; and how well the car's sideways place is repeated from picture to picture.
   */
  view: z
    .strictObject({
      distanceMm: measured(1, 1e6), depthUMm: standardUncertainty(1000), pathUMm: standardUncertainty(1000),
    })
    .optional(),
  /** How square the camera stood to the car's side, rad, where one length is the scale; 0.03 if left out. */
  tiltURad: standardUncertainty(0.5).optional(),
  /** Speed of the car in the picture along its path, for the motion blur. */
  speedMs: between(0, 100).optional(),
  /** On the ground in the plane of the path: first gate to second, and to a third where there is one. */
  gates: z.strictObject({ distanceMm: measured(10, 1e6), distanceFarMm: measured(10, 2e6).nullable() }).optional(),
})

export type Picture = z.infer<typeof picture>
export type PictureMark = z.infer<typeof mark>
export type PicturePoint = z.infer<typeof point>
export type PictureScale = z.infer<typeof pictureScale>
export type ClipWindow = z.infer<typeof clipWindow>
