/** Synthetic bench set-ups: a car from the side with stickers, a scale and a camera, and all that is true of them. */
import type { Picture, PictureMark } from '@core/schema'
import { drawFrom, type Draw } from './random'
import { project, render, type Camera, type Gray, type Sticker } from './scene'

export type ScaleKind = 'length' | 'plane' | 'otherDistance' | 'twoLengths'

/** What is true of one set-up, which the product never sees. */
export interface Setup {
  readonly kind: ScaleKind
  readonly camera: Camera
  readonly scale: Sticker[]
  readonly farScale: Sticker[]
  readonly plane: Sticker[]
  readonly edge: Sticker[]
  readonly ground: Sticker[]
  /** Off-plane place of each sticker of the car, mm. */
  readonly depth: Record<'frontHub' | 'frontChassis' | 'rearHub' | 'rearChassis', number>
  readonly stickerMm: number
  readonly dark: boolean
  readonly nominal: Pick<Picture, 'scale' | 'view' | 'widthPx' | 'heightPx'>
}

const WIDTH = 1280
const HEIGHT = 720
const LENGTH_MM = 150
const LENGTH_U = 0.1
const CORNER_U = 0.15
const DEPTH_U = 3
const PATH_U = 4
const DISTANCE_U = 4
const CORNERS_MM = [[-235, 150], [235, 150], [235, 20], [-235, 20]] as const

/** Draws a set-up: the nominal values go to the product, the true ones to the renderer. */
export function drawSetup(seed: number, kind: ScaleKind): Setup {
  const draw = drawFrom(seed)
  const viewMm = draw.between(560, 680)
  const focalPx = WIDTH * draw.between(0.75, 1.1)
  const distanceMm = (viewMm * focalPx) / WIDTH
  const camera: Camera = {
    widthPx: WIDTH, heightPx: HEIGHT, focalPx, xMm: draw.normal(8), yMm: 75 + draw.normal(8), distanceMm,
    yaw: draw.normal(0.03), pitch: draw.normal(0.03), roll: draw.normal(0.01), k1: draw.normal(0.01),
  }
  const stickerMm = draw.between(3, 5)
  const dark = draw.between(0, 1) < 0.6
  const sticker = (xMm: number, yMm: number, zMm = 0): Sticker => stickerAt(xMm, yMm, zMm, stickerMm, dark, draw)
  const behindMm = draw.between(30, 70)
  const length = LENGTH_MM + draw.normal(LENGTH_U)
  const scaleDepth = kind === 'otherDistance' ? behindMm : kind === 'twoLengths' ? -behindMm / 2 : 0
  const scale = kind === 'plane' ? [] : barOf(length, scaleDepth, 110, sticker)
  const far = kind === 'twoLengths' ? barOf(LENGTH_MM + draw.normal(LENGTH_U), behindMm, 160, sticker) : []
  const plane = kind === 'plane'
    ? CORNERS_MM.map(([x, y]) => sticker(x + draw.normal(CORNER_U), y + draw.normal(CORNER_U))) : []
  const edge = kind === 'plane' ? Array.from({ length: 7 }, (_, i) => sticker(-240 + 80 * i, 178)) : []
  const depth = {
    frontHub: draw.normal(DEPTH_U), frontChassis: draw.normal(DEPTH_U),
    rearHub: draw.normal(DEPTH_U), rearChassis: draw.normal(DEPTH_U),
  }
  const measuredDistance = distanceMm + draw.normal(DISTANCE_U)
  return {
    kind, camera, scale, farScale: far, plane, edge, depth, stickerMm, dark,
    ground: [sticker(-180, 0), sticker(180, 0)],
    nominal: {
      widthPx: WIDTH, heightPx: HEIGHT,
      view: { distanceMm: { value: measuredDistance, u: DISTANCE_U }, depthUMm: DEPTH_U, pathUMm: PATH_U },
      scale: kind === 'plane'
        ? { kind: 'plane', cornersMm: CORNERS_MM.map(([xMm, yMm]) => ({ xMm, yMm })), uMm: CORNER_U }
        : {
            kind: 'length',
            lengthMm: { value: LENGTH_MM, u: LENGTH_U },
            distances: kind === 'otherDistance'
              ? {
                  scaleMm: { value: distanceMm + behindMm + draw.normal(DISTANCE_U), u: DISTANCE_U },
                  marksMm: { value: measuredDistance, u: DISTANCE_U },
                }
              : null,
            ...(kind === 'twoLengths'
              ? {
                  far: {
                    lengthMm: { value: LENGTH_MM, u: LENGTH_U },
                    share: { value: 1 / 3 + draw.normal(0.02), u: 0.02 },
                  },
                }
              : {}),
          },
    },
  }
}

function barOf(
  length: number, zMm: number, yMm: number, sticker: (x: number, y: number, z: number) => Sticker,
): Sticker[] {
  return [sticker(-length / 2, yMm, zMm), sticker(length / 2, yMm, zMm)]
}

function stickerAt(xMm: number, yMm: number, zMm: number, radiusMm: number, dark: boolean, draw: Draw): Sticker {
  return {
    xMm, yMm, zMm, radiusMm,
    level: dark ? draw.between(20, 60) : draw.between(190, 230),
    card: { radiusMm: 2.2 * radiusMm, level: dark ? draw.between(170, 215) : draw.between(30, 75) },
  }
}

/** How one still of a set-up is taken and marked. */
export interface Take {
  readonly seed: number
  readonly pictureId: string
  /** True heights of the chassis stickers above the ground, mm. */
  readonly frontMm: number
  readonly rearMm: number
  readonly marking: 'snap' | 'hand' | 'repeats'
  readonly noiseSd: number
  readonly exposureS: number
  readonly speedMs: number
}

/** Places of the car's stickers, mm; the hubs stand at wheel height. */
const HUB_MM = 32
const CAR = {
  frontHub: { x: -130, role: 'hub', corner: 'frontLeft' }, frontChassis: { x: -95, role: 'chassis', corner: 'frontLeft' },
  rearHub: { x: 130, role: 'hub', corner: 'rearLeft' }, rearChassis: { x: 95, role: 'chassis', corner: 'rearLeft' },
} as const

export const trueHeight = (takeMm: number, datum: 'hubToChassis' | 'groundToChassis'): number =>
  datum === 'hubToChassis' ? takeMm - HUB_MM : takeMm

export interface Taken { readonly gray: Gray; readonly picture: Picture; readonly seen: readonly Seen[] }

/** A mark to be made: where it truly appears, and which mark it is. */
export interface Seen {
  readonly mark: Pick<PictureMark, 'id' | 'role' | 'corner' | 'frameS'>
  readonly x: number
  readonly y: number
}

/** Renders one still; its marks are left for the study to make (snapped or by hand). */
export function take(setup: Setup, still: Take): Taken {
  const draw = drawFrom(still.seed)
  const path = draw.normal(PATH_U)
  const seen: Seen[] = []
  const stickers: Sticker[] = []
  const fixed = new Set<number>()
  const put = (sticker: Sticker, role: PictureMark['role'], id: string, corner: PictureMark['corner'] = null): void => {
    if (corner === null) fixed.add(stickers.length)
    stickers.push(sticker)
    const { x, y } = project(setup.camera, [sticker.xMm, sticker.yMm, sticker.zMm])
    seen.push({ mark: { id, role, corner, frameS: null }, x, y })
  }
  setup.scale.forEach((each, i) => put(each, i === 0 ? 'scaleStart' : 'scaleEnd', `${still.pictureId}-scale-${i}`))
  setup.farScale.forEach((each, i) =>
    put(each, i === 0 ? 'farScaleStart' : 'farScaleEnd', `${still.pictureId}-far-${i}`))
  setup.plane.forEach((each, i) => put(each, 'plane', `${still.pictureId}-plane-${i}`))
  setup.edge.forEach((each, i) => put(each, 'edge', `${still.pictureId}-edge-${i}`))
  setup.ground.forEach((each, i) => put(each, 'ground', `${still.pictureId}-ground-${i}`))
  for (const key of Object.keys(CAR) as (keyof typeof CAR)[]) {
    const { x, role, corner } = CAR[key]
    const y = role === 'hub' ? HUB_MM : corner === 'frontLeft' ? still.frontMm : still.rearMm
    const sticker = stickerAt(x, y, setup.depth[key] + path, setup.stickerMm, setup.dark, draw)
    put(sticker, role, `${still.pictureId}-${key.toLowerCase()}`, corner)
  }
  const smear = still.exposureS * still.speedMs * 1000
  const gray = render({
    camera: setup.camera, stickers, fixed, noiseSd: still.noiseSd, draw,
    ...(smear > 0 ? { smear: { xMm: smear, yMm: 0 } } : {}),
  })
  return { gray, seen, picture: pictureOf(setup, still) }
}

const pictureOf = (setup: Setup, still: Take): Picture => ({
  id: still.pictureId, kind: 'still', fileName: `${still.pictureId}.jpg`, sizeBytes: 1, fingerprint: '-',
  addedAt: '2031-05-04T09:30:00.000Z', thumbnail: null, lensK1: null, cameraKind: 'phoneMain', exposureS: still.exposureS,
  speedMs: still.speedMs, marks: [], windows: [], ...setup.nominal,
})
