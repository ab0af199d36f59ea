/**
 * A synthetic view of a car from the side, with known truth: a pinhole camera with one radial lens
 * term, round stickers in the plane of the car's side or before it, motion blur, pixel noise.
 *
 * World: mm, x along the ground to the right, y up from the ground, z from the plane of the car's
 * side away from the camera. The picture is made by casting rays, independently of the product's code.
 */
import { drawFrom, type Draw } from './random'

export interface Camera {
  widthPx: number
  heightPx: number
  focalPx: number
  /** Foot of the camera in the car's plane, mm, and its distance from it. */
  xMm: number
  yMm: number
  distanceMm: number
  /** Turns about the upright, the sideways and the viewing axis, rad. */
  yaw: number
  pitch: number
  roll: number
  /** x_ideal = c + (x_seen - c)(1 + k1 r^2 / R^2), R half the diagonal. */
  k1: number
}

export interface Sticker {
  xMm: number
  yMm: number
  zMm: number
  radiusMm: number
  level: number
  /** A light or dark card behind it. */
  card: { radiusMm: number; level: number }
}

export interface Shot {
  camera: Camera
  stickers: readonly Sticker[]
  /** Way of the car during the exposure, mm; the picture is taken in the middle of it. */
  smear?: { xMm: number; yMm: number }
  /** Stickers that do not move with the car, by index. */
  fixed?: ReadonlySet<number>
  noiseSd: number
  draw: Draw
}

export interface Gray { width: number; height: number; data: Uint8Array }

type Vector = [number, number, number]

/** Axes of the camera: right, down and ahead, in world coordinates. */
function axesOf({ yaw, pitch, roll }: Camera): { right: Vector; down: Vector; ahead: Vector } {
  const ahead: Vector = [Math.sin(yaw) * Math.cos(pitch), Math.sin(pitch), Math.cos(yaw) * Math.cos(pitch)]
  const level: Vector = [Math.cos(yaw), 0, -Math.sin(yaw)]
  const plumb = cross(ahead, level)
  const mix = (a: number, b: number): Vector =>
    [a * level[0] + b * plumb[0], a * level[1] + b * plumb[1], a * level[2] + b * plumb[2]]
  return { right: mix(Math.cos(roll), Math.sin(roll)), down: mix(-Math.sin(roll), Math.cos(roll)), ahead }
}

/** Picture's "down" for a camera looking along `a` with `b` to the right. */
const cross = (a: Vector, b: Vector): Vector => {
  const up: Vector = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
  const sign = up[1] > 0 ? -1 : 1
  return [sign * up[0], sign * up[1], sign * up[2]]
}

const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]

/** Where a world point appears, px. */
export function project(camera: Camera, [x, y, z]: Vector): { x: number; y: number } {
  const { right, down, ahead } = axesOf(camera)
  const from: Vector = [x - camera.xMm, y - camera.yMm, z + camera.distanceMm]
  const depth = dot(from, ahead)
  const ideal = {
    x: (camera.focalPx * dot(from, right)) / depth,
    y: (camera.focalPx * dot(from, down)) / depth,
  }
  const half = (camera.widthPx ** 2 + camera.heightPx ** 2) / 4
  let seen = ideal
  for (let round = 0; round < 50; round++) {
    const stretch = 1 + (camera.k1 * (seen.x ** 2 + seen.y ** 2)) / half
    seen = { x: ideal.x / stretch, y: ideal.y / stretch }
  }
  return { x: seen.x + camera.widthPx / 2, y: seen.y + camera.heightPx / 2 }
}

/** Casts rays: px to the world point on the plane z, into the one point it always gives back. */
function caster(camera: Camera): (px: number, py: number, zMm: number) => { x: number; y: number } {
  const { right, down, ahead } = axesOf(camera)
  const half = (camera.widthPx ** 2 + camera.heightPx ** 2) / 4
  const point = { x: 0, y: 0 }
  return (px, py, zMm) => {
    const u = px - camera.widthPx / 2
    const v = py - camera.heightPx / 2
    const stretch = (1 + (camera.k1 * (u * u + v * v)) / half) / camera.focalPx
    const a = u * stretch
    const b = v * stretch
    const reach = (zMm + camera.distanceMm) / (ahead[2] + a * right[2] + b * down[2])
    point.x = camera.xMm + reach * (ahead[0] + a * right[0] + b * down[0])
    point.y = camera.yMm + reach * (ahead[1] + a * right[1] + b * down[1])
    return point
  }
}

const SUBSAMPLES = 6

/** Renders one shot to 8-bit luminance. */
export function render(shot: Shot): Gray {
  const { camera, draw } = shot
  const { widthPx: width, heightPx: height } = camera
  const field = backdrop(width, height, draw)
  shot.stickers.forEach((sticker, index) => paintSticker([field], shot, sticker, shot.fixed?.has(index) ?? false))
  return addNoise(field, width, height, shot.noiseSd, draw)
}

/** Soft light, a darker floor and a few stripes: nothing with a sharp edge near a sticker. */
function backdrop(width: number, height: number, draw: Draw): Float32Array {
  const field = new Float32Array(width * height)
  const slopeX = draw.between(-25, 25) / width
  const slopeY = draw.between(-25, 25) / height
  const phase = draw.between(0, 6)
  const columns = Float32Array.from({ length: width }, (_, i) => slopeX * i + 8 * Math.sin(i / 37 + phase))
  for (let j = 0; j < height; j++) {
    const row = 120 + slopeY * j + 8 * Math.sin(j / 23 + phase)
    for (let i = 0; i < width; i++) field[j * width + i] = row + columns[i]!
  }
  return field
}

/** Paints one sticker and its card into every plane of a picture (one of luminance, or three of colour). */
export function paintSticker(
  planes: readonly Float32Array[], shot: Pick<Shot, 'camera' | 'smear'>, sticker: Sticker, fixed = false,
): void {
  const { camera } = shot
  const smear = fixed ? undefined : shot.smear
  const steps = smear ? 8 : 1
  const cast = caster(camera)
  const outer = sticker.card.radiusMm
  const middle = project(camera, [sticker.xMm, sticker.yMm, sticker.zMm])
  const rim = project(camera, [sticker.xMm + outer, sticker.yMm, sticker.zMm])
  const length = smear ? Math.hypot(smear.xMm, smear.yMm) / outer : 0
  const reach = Math.hypot(rim.x - middle.x, rim.y - middle.y) * (1.1 + length) + 3
  const left = Math.max(0, Math.floor(middle.x - reach))
  const right = Math.min(camera.widthPx - 1, Math.ceil(middle.x + reach))
  const top = Math.max(0, Math.floor(middle.y - reach))
  const bottom = Math.min(camera.heightPx - 1, Math.ceil(middle.y + reach))
  const total = SUBSAMPLES * SUBSAMPLES * steps
  for (let j = top; j <= bottom; j++) {
    for (let i = left; i <= right; i++) {
      let card = 0
      let spot = 0
      for (let sub = 0; sub < SUBSAMPLES * SUBSAMPLES; sub++) {
        const px = i + ((sub % SUBSAMPLES) + 0.5) / SUBSAMPLES
        const py = j + (Math.floor(sub / SUBSAMPLES) + 0.5) / SUBSAMPLES
        const at = cast(px, py, sticker.zMm)
        for (let step = 0; step < steps; step++) {
          const share = smear ? (step + 0.5) / steps - 0.5 : 0
          const dx = at.x - sticker.xMm - share * (smear?.xMm ?? 0)
          const dy = at.y - sticker.yMm - share * (smear?.yMm ?? 0)
          const square = dx * dx + dy * dy
          if (square <= sticker.radiusMm ** 2) spot += 1
          else if (square <= outer ** 2) card += 1
        }
      }
      const index = j * camera.widthPx + i
      for (const plane of planes) {
        const behind = plane[index]!
        plane[index] = behind + (card * (sticker.card.level - behind) + spot * (sticker.level - behind)) / total
      }
    }
  }
}

/** Pixels of 8 bits from a plane, with noise of a standard deviation. */
export function addNoise(field: Float32Array, width: number, height: number, sd: number, draw: Draw): Gray {
  const data = new Uint8Array(field.length)
  const table = noiseTable()
  const mask = table.length - 1
  let at = draw.whole(0, mask)
  const stride = 2 * draw.whole(1000, 20_000) + 1
  for (let i = 0; i < field.length; i++) {
    at = (at + stride) & mask
    const level = field[i]! + sd * table[at]! + 0.5
    data[i] = level < 0 ? 0 : level > 255 ? 255 : level
  }
  return { width, height, data }
}

let held: Float32Array | null = null

/** Normal draws, made once; each picture walks through them from its own place with its own stride. */
function noiseTable(): Float32Array {
  held ??= normals()
  return held
}

function normals(): Float32Array {
  const draw = drawFrom(20_311)
  return Float32Array.from({ length: 1 << 18 }, () => draw.normal(1))
}
