/**
 * A car on a bench from its left side, in colour, with round stickers, a ground line and a rule: what a
 * phone on a tripod would see before a blower. It squats by the truth it is given; the stickers are
 * painted by the same exact caster as in every other scene. World as in `scene.ts`, mm.
 */
import { CLIP_CAMERA, placed, type ClipKey, type ClipTruth, type StickerPlace } from './clip'
import { drawFrom } from './random'
import { addNoise, paintSticker, project } from './scene'
import { arc, box, fill, smooth, type Canvas, type Paint } from './shapes'

/** 24-bit colour, three bytes a pixel. */
export interface Colour { width: number; height: number; data: Uint8Array }

export const CAR_SCALE_MM = 200
const HUB_X = 130
const HUB_Y = 32
const CHASSIS_X = 86
const RULE_Y = -27
/** Heights of the chassis stickers above their hubs at which the body is drawn, mm. */
const DRAWN_MM = 30

const CAR_STICKERS: readonly StickerPlace[] = [
  { key: 'scaleStart', x: -CAR_SCALE_MM / 2, y: RULE_Y }, { key: 'scaleEnd', x: CAR_SCALE_MM / 2, y: RULE_Y },
  { key: 'groundLeft', x: -232, y: 0 }, { key: 'groundRight', x: 240, y: 0 },
  { key: 'frontHub', x: -HUB_X, y: HUB_Y }, { key: 'frontChassis', x: -CHASSIS_X, y: 0 },
  { key: 'rearHub', x: HUB_X, y: HUB_Y }, { key: 'rearChassis', x: CHASSIS_X, y: 0 },
]

type Points = readonly (readonly [number, number])[]
type Fill = (points: Points, paint: Paint, share?: number) => void

const WALL: Paint = [206, 203, 194]
const BENCH: Paint = [176, 146, 108]
const BENCH_EDGE: Paint = [134, 104, 72]
const DARK: Paint = [44, 42, 40]
const BODY: Paint = [38, 104, 122]
const BODY_LOW: Paint = [28, 80, 96]
const STRIPE: Paint = [226, 174, 78]
const GLASS: Paint = [52, 60, 66]
const BLACK: Paint = [26, 27, 29]
const TYRE: Paint = [34, 34, 36]
const RIM: Paint = [188, 190, 192]
const STEEL: Paint = [214, 216, 214]
const BLOWER: Paint = [74, 80, 84]
const WHITE: Paint = [246, 246, 242]

const SHELL = smooth([
  [-212, 18], [-212, 18], [-216, 30], [-206, 46], [-178, 58], [-130, 69], [-92, 76], [-58, 98], [-26, 112], [24, 116],
  [72, 108], [116, 88], [150, 83], [204, 80], [212, 74], [212, 74], [208, 40], [202, 20], [202, 20],
])
const LOWER = smooth([
  [-212, 18], [-212, 18], [-214, 28], [-150, 36], [0, 38], [150, 38], [206, 36], [206, 36], [202, 20], [202, 20],
])
const LINE = smooth([
  [-206, 47], [-206, 47], [-120, 60], [0, 64], [120, 66], [210, 70], [210, 70], [209, 65], [209, 65], [120, 61],
  [0, 58], [-120, 54], [-209, 41], [-209, 41],
])
const WINDOWS = [
  smooth([[-82, 78], [-82, 78], [-54, 97], [-26, 107], [2, 110], [2, 110], [2, 78], [2, 78]]),
  smooth([[10, 78], [10, 78], [10, 110], [10, 110], [44, 109], [72, 102], [104, 84], [104, 84], [100, 78], [100, 78]]),
]

/** One frame of the bench. The rule and the ground stand still; wheels stand, the body sinks. */
export function carFrame(truth: ClipTruth, timeS: number, noiseSd = 2): Colour {
  const { widthPx: width, heightPx: height } = CLIP_CAMERA
  const canvas: Canvas = { width, height, planes: backdrop().map((plane) => plane.slice()) }
  const along = truth.alongMm(timeS)
  const sink = (x: number): number => {
    const share = (x + CHASSIS_X) / (2 * CHASSIS_X)
    return (1 - share) * truth.frontMm(timeS) + share * truth.rearMm(timeS) - DRAWN_MM
  }
  const still: Fill = (points, paint, share = 1) =>
    draw(canvas, points.map(([x, y]) => [x + along, y]), paint, share)
  const sprung: Fill = (points, paint, share = 1) => still(points.map(([x, y]) => [x, y + sink(x)]), paint, share)
  for (const reach of [0, 6, 12]) still(shadow(reach), DARK, 0.22)
  sprung(box(-88, 9, 88, 19), BLACK)
  sprung(SHELL, BODY)
  sprung(LOWER, BODY_LOW)
  sprung(LINE, STRIPE)
  WINDOWS.forEach((each) => sprung(each, GLASS))
  sprung(smooth([[-72, 80], [-50, 95], [-34, 102], [-52, 80]]), WHITE, 0.16)
  for (const x of [-HUB_X, HUB_X]) sprung([...arc(x, HUB_Y + 2, 39, 0, Math.PI), [x - 39, 16], [x + 39, 16]], BLACK)
  sprung(box(-222, 12, -166, 17), BLACK)
  sprung(box(196, 78, 203, 122), BLACK)
  sprung([[170, 124], [226, 131], [226, 127], [170, 120]], BLACK)
  sprung([[168, 110], [230, 112], [230, 138], [168, 130]], BODY)
  for (const x of [-HUB_X, HUB_X]) wheel(x, still)
  for (const { key, card, ...spot } of placed(CAR_STICKERS, truth, timeS)) {
    if (key.startsWith('ground')) continue
    paintSticker(canvas.planes, { camera: CLIP_CAMERA }, { ...spot, level: 30, card: { ...card, level: 240 } })
  }
  return grained(canvas, noiseSd, 1 + Math.round(timeS * 1e5))
}

/** Where each mark of the bench truly appears, px. */
export function carPlaces(truth: ClipTruth, timeS: number): Record<ClipKey, { x: number; y: number }> {
  const entries = placed(CAR_STICKERS, truth, timeS)
    .map(({ key, xMm, yMm, zMm }) => [key, project(CLIP_CAMERA, [xMm, yMm, zMm])])
  return Object.fromEntries(entries) as Record<ClipKey, { x: number; y: number }>
}

function draw(canvas: Canvas, points: Points, paint: Paint, share = 1): void {
  fill(canvas, points.map(([x, y]) => project(CLIP_CAMERA, [x, y, 0])), paint, share)
}

const shadow = (reach: number): Points =>
  smooth([[-214 - reach, -3], [-120, -6 - reach / 3], [120, -6 - reach / 3], [212 + reach, -3], [190, 6], [-190, 6]])

function wheel(x: number, still: Fill): void {
  still(arc(x, HUB_Y, HUB_Y), TYRE)
  still(arc(x, HUB_Y, 22), RIM)
  for (let k = 0; k < 10; k++) {
    const angle = (k * Math.PI) / 5 + 0.2
    const [dx, dy] = [Math.cos(angle), Math.sin(angle)]
    still([[x + 12 * dx - 1.5 * dy, HUB_Y + 12 * dy + 1.5 * dx], [x + 20 * dx - 4 * dy, HUB_Y + 20 * dy + 4 * dx],
      [x + 20 * dx + 4 * dy, HUB_Y + 20 * dy - 4 * dx], [x + 12 * dx + 1.5 * dy, HUB_Y + 12 * dy - 1.5 * dx]], TYRE)
  }
}

let held: readonly Float32Array[] | null = null

/** What never moves: wall, bench, ground line, rule, blower. */
function backdrop(): readonly Float32Array[] {
  if (held) return held
  const { widthPx: width, heightPx: height } = CLIP_CAMERA
  const planes = WALL.map((level) => Float32Array.from({ length: width * height }, (_, i) => {
    const [x, y] = [(i % width) / width - 0.4, Math.floor(i / width) / height - 0.3]
    return level - 46 * (x * x + y * y)
  }))
  const canvas: Canvas = { width, height, planes }
  draw(canvas, box(-500, -12, 500, 22), BENCH)
  for (let k = 0; k < 5; k++) draw(canvas, box(-500, 17 - 6 * k, 500, 17.6 - 6 * k), BENCH_EDGE, 0.3)
  draw(canvas, box(-500, -44, 500, -12), BENCH_EDGE)
  draw(canvas, box(-500, -200, 500, -44), DARK)
  draw(canvas, box(-250, -1, 258, 1), WHITE)
  draw(canvas, box(-116, -40, 116, -15), STEEL)
  for (let mm = -110; mm <= 110; mm += 5) {
    draw(canvas, box(mm - 0.3, -15 - (mm % 10 === 0 ? 6 : 3.5), mm + 0.3, -15), BLACK)
  }
  draw(canvas, [[-420, 10], [-262, 26], [-262, 84], [-420, 112]], BLOWER)
  draw(canvas, box(-268, 24, -258, 86), BLACK)
  draw(canvas, [[-420, 92], [-268, 70], [-268, 74], [-420, 100]], WHITE, 0.25)
  held = planes
  return planes
}

function grained({ width, height, planes }: Canvas, sd: number, seed: number): Colour {
  const data = new Uint8Array(3 * width * height)
  planes.forEach((plane, k) => {
    const grain = addNoise(plane, width, height, sd, drawFrom(seed)).data
    for (let i = 0; i < grain.length; i++) data[3 * i + k] = grain[i]!
  })
  return { width, height, data }
}
