/**
 * The model of one height read from a picture: which uncertain inputs it has, and the height as a
 * function of their values. A still evaluates it once; a film once for each frame.
 */
import type { Corner, Picture, PictureMark } from '@core/schema'
import { entered, exact, fromSource, known, type Source, type Uncertain } from '@core/uncertainty'
import { focalPx } from '../plane/cameraKind'
import { homography, mapBy } from '../plane/homography'
import { lensFrom, lensOf } from '../plane/lensOf'
import { straightened } from '../plane/lens'
import type { Px } from '../raster/luminance'
import { pointOf } from './marks'

/** From which point the chassis mark's height is taken. */
export type Datum = 'hubToChassis' | 'groundToChassis'

/** What is missing or wrong before a height can be read. */
export type HeightLack = 'scale' | 'scaleMarks' | 'planeMarks' | 'planeShape' | 'hub' | 'chassis' | 'ground'

/** What nobody measured and was therefore assumed, each with its uncertainty in the budget. */
export type Assumption = 'lens' | 'lensUnknown' | 'tilt' | 'level' | 'depth'

/** How square a camera is set up by eye, rad (common practice, no source). */
export const ASSUMED_TILT_U_RAD = 0.03

/** How level a phone is held by its own gauge, rad (common practice, no source). */
export const ASSUMED_LEVEL_U_RAD = 0.01

/** How far a sticker may stand off the scale's plane where no one said so, mm (common practice, no source). */
export const ASSUMED_DEPTH_U_MM = 3

/** How well the path in the picture is known to run along the ground line, rad. */
const PATH_ANGLE_U_RAD = 0.02

export interface HeightModel {
  readonly ok: true
  readonly inputs: readonly Uncertain[]
  /** Height of the chassis mark above the datum, mm, positive up, from values of the inputs. */
  readonly height: (values: readonly number[]) => number
  /** The same with scale, lens and ground worked out once, for the many frames of a film. */
  readonly stage: (values: readonly number[]) => Stage
  /** Indices of the coordinates that a film moves: chassis x, y, and the hub's where the datum is the hub. */
  readonly chassis: number
  readonly hub: number | null
  readonly assumed: readonly Assumption[]
}

/** A picture with everything but the car's marks in its place. */
export interface Stage {
  /** Height above the datum, mm, of a chassis mark (and its hub mark where the hub is the datum). */
  readonly height: (chassis: Px, hub: Px | null) => number
  /** Place of a point along the ground, mm, in the plane of the scale. */
  readonly along: (p: Px) => number
}

export type HeightModelOrLack = HeightModel | { readonly ok: false; readonly lack: HeightLack }

type Read = (values: readonly number[]) => number
type ReadPoint = (values: readonly number[]) => Px

/** Collects inputs and hands back how to read each from a list of values. */
class Inputs {
  readonly list: Uncertain[] = []

  add(input: Uncertain): Read {
    const index = this.list.push(input) - 1
    return (values) => values[index]!
  }

  point(mark: PictureMark): ReadPoint {
    const index = this.list.length
    this.list.push(...pointOf(mark))
    return (values) => ({ x: values[index]!, y: values[index + 1]! })
  }
}

/** The map from a straightened picture point to mm in the plane of the marks, and the scale's middle in px. */
interface PlaneMap {
  readonly map: (values: readonly number[]) => (p: Px) => Px
  /** Middle of the one length that is the scale; null where a plane gives the scale everywhere. */
  readonly scaleMiddle: ((values: readonly number[]) => Px) | null
}

/**
 * Builds the model of one corner's height.
 *
 * @param corner whose marks; each mark role is taken at `frameS` if given, else the newest
 * @param frameS media time at which the moving marks were made; null for a still
 */
export function heightModel(picture: Picture, corner: Corner, datum: Datum, frameS: number | null): HeightModelOrLack {
  const setup = picture.setupId ?? picture.id
  const inputs = new Inputs()
  const chassisMark = markOf(picture, 'chassis', corner, frameS)
  if (!chassisMark) return { ok: false, lack: 'chassis' }
  const chassis = inputs.list.length
  const chassisPoint = inputs.point(chassisMark)
  const hubMark = datum === 'hubToChassis' ? markOf(picture, 'hub', corner, frameS) : null
  if (datum === 'hubToChassis' && !hubMark) return { ok: false, lack: 'hub' }
  const hub = hubMark ? inputs.list.length : null
  const hubPoint = hubMark ? inputs.point(hubMark) : null

  const lens = lensOf(picture)
  const [k1, k2, offX, offY] = lens.inputs.map((each) => inputs.add(each)) as [Read, Read, Read, Read]
  const straight = (values: readonly number[], p: Px): Px =>
    straightened(p, lensFrom([k1(values), k2(values), offX(values), offY(values)]), picture)
  const plane = planeMap(picture, setup, inputs, straight)
  if (typeof plane === 'string') return { ok: false, lack: plane }

  const grounds = picture.marks.filter(({ role }) => role === 'ground').map((mark) => inputs.point(mark))
  if (datum === 'groundToChassis' && grounds.length === 0) return { ok: false, lack: 'ground' }
  const level = grounds.length > 1
    ? null
    : inputs.add(fromSource(0, ASSUMED_LEVEL_U_RAD, known('level', `camera:${setup}:level`)))
  const focal = focalToUse(picture, plane, inputs)
  const tilt = plane.scaleMiddle ? tiltInputs(picture, setup, inputs, focal) : null
  const shiftChassis = depthShift(picture, setup, corner, 'chassis', inputs)
  const shiftHub = hubMark ? depthShift(picture, setup, corner, 'hub', inputs) : null
  const blurChassis = blurOf(picture, chassisMark, inputs)
  const blurHub = hubMark ? blurOf(picture, hubMark, inputs) : null

  /** Directions and base of the ground in mm, with the map that made them. */
  const ground = (values: readonly number[]) => {
    const toMm = plane.map(values)
    const middle = { x: picture.widthPx / 2, y: picture.heightPx / 2 }
    const above = toMm({ x: middle.x, y: middle.y - picture.heightPx / 20 })
    const centre = toMm(middle)
    const points = grounds.map((point) => toMm(straight(values, point(values))))
    const along = level
      ? turned(rightOf(unit({ x: above.x - centre.x, y: above.y - centre.y })), level(values))
      : lineDirection(points)
    let up = { x: along.y, y: -along.x }
    if (up.x * (above.x - centre.x) + up.y * (above.y - centre.y) < 0) up = { x: -up.x, y: -up.y }
    return { toMm, centre, along, up, base: meanOf(points) }
  }

  const stage = (values: readonly number[]): Stage => {
    const { toMm, centre, along, up, base } = ground(values)
    const distance = distanceTo(picture, toMm, centre, focal)
    const scaleMiddle = plane.scaleMiddle?.(values)
    return {
      height: (top, foot) => {
        const seenMm = blurChassis(values, toMm(straight(values, top)), along, up)
        const topMm = shiftChassis(values, seenMm, centre, distance)
        let footMm = base
        if (foot && shiftHub && blurHub) {
          footMm = shiftHub(values, blurHub(values, toMm(straight(values, foot)), along, up), centre, distance)
        }
        const rise = (topMm.x - footMm.x) * up.x + (topMm.y - footMm.y) * up.y
        return tilt && scaleMiddle ? rise * tilt(values, top, scaleMiddle) : rise
      },
      along: (p) => {
        const at = toMm(straight(values, p))
        return at.x * along.x + at.y * along.y
      },
    }
  }

  const assumed: Assumption[] = []
  if (lens.from === 'unknown') assumed.push('lensUnknown')
  if (lens.from === 'kind') assumed.push('lens')
  if (tilt && picture.tiltURad === undefined) assumed.push('tilt')
  if (level) assumed.push('level')
  if (!picture.view) assumed.push('depth')
  return {
    ok: true,
    inputs: inputs.list,
    height: (values) => stage(values).height(chassisPoint(values), hubPoint?.(values) ?? null),
    stage,
    chassis,
    hub,
    assumed,
  }
}

/** The newest mark of a role at a corner, at the moment asked for where one is given. */
function markOf(picture: Picture, role: PictureMark['role'], corner: Corner, frameS: number | null): PictureMark | null {
  const fit = picture.marks.filter((mark) => mark.role === role && mark.corner === corner)
  if (frameS === null) return fit.at(-1) ?? null
  return fit.findLast((mark) => mark.frameS !== null && Math.abs(mark.frameS - frameS) < 1e-4) ?? null
}

function planeMap(
  picture: Picture, setup: string, inputs: Inputs, straight: (values: readonly number[], p: Px) => Px,
): PlaneMap | HeightLack {
  const { scale } = picture
  if (!scale) return 'scale'
  if (scale.kind === 'plane') return homographyMap(picture, scale, setup, inputs, straight)
  return lengthMap(picture, scale, setup, inputs, straight)
}

type Scale = NonNullable<Picture['scale']>

function homographyMap(
  picture: Picture, scale: Extract<Scale, { kind: 'plane' }>, setup: string, inputs: Inputs,
  straight: (values: readonly number[], p: Px) => Px,
): PlaneMap | HeightLack {
  const marks = picture.marks.filter(({ role }) => role === 'plane')
  if (marks.length !== 4) return 'planeMarks'
  const from = marks.map((mark) => inputs.point(mark))
  const to = scale.cornersMm.map(({ xMm, yMm }, i) => {
    const source = (axis: string): Source => known('pictureScale', `camera:${setup}:shape:${i}:${axis}`)
    return [
      inputs.add(fromSource(xMm, scale.uMm, source('x'))), inputs.add(fromSource(yMm, scale.uMm, source('y'))),
    ] as const
  })
  const solve = (values: readonly number[]) => homography(
    from.map((point) => straight(values, point(values))), to.map(([x, y]) => ({ x: x(values), y: y(values) })),
  )
  if (!solve(inputs.list.map(({ value }) => value))) return 'planeShape'
  const nowhere = { x: Number.NaN, y: Number.NaN }
  return {
    map: (values) => {
      const h = solve(values)
      return h ? (p) => mapBy(h, p) : () => nowhere
    },
    scaleMiddle: null,
  }
}

function lengthMap(
  picture: Picture, scale: Extract<Scale, { kind: 'length' }>, setup: string, inputs: Inputs,
  straight: (values: readonly number[], p: Px) => Px,
): PlaneMap | HeightLack {
  const near = endsOf(picture, 'scaleStart', 'scaleEnd', inputs)
  if (!near) return 'scaleMarks'
  const length = inputs.add(
    entered(scale.lengthMm, 'pictureScale', `camera:${setup}:length`))
  const lengthPx = (values: readonly number[], [a, b]: readonly [ReadPoint, ReadPoint]): number => {
    const p = straight(values, a(values))
    const q = straight(values, b(values))
    return Math.hypot(q.x - p.x, q.y - p.y)
  }
  const values = () => inputs.list.map(({ value }) => value)
  if (!(lengthPx(values(), near) > 1)) return 'scaleMarks'
  let mmPerPx: Read = (at) => length(at) / lengthPx(at, near)
  const middleOf = (at: readonly number[], [a, b]: readonly [ReadPoint, ReadPoint]): Px => meanOf([a(at), b(at)])
  let middle = (at: readonly number[]): Px => middleOf(at, near)
  if (scale.far) {
    const far = endsOf(picture, 'farScaleStart', 'farScaleEnd', inputs)
    if (!far || !(lengthPx(values(), far) > 1)) return 'scaleMarks'
    const farLength = inputs.add(
      entered(scale.far.lengthMm, 'pictureScale', `camera:${setup}:farLength`))
    const share = inputs.add(
      entered(scale.far.share, 'pictureDistance', `camera:${setup}:share`))
    const nearOnly = mmPerPx
    // Length of one px grows in proportion to the distance from the camera: linear between the two.
    mmPerPx = (at) => nearOnly(at) + share(at) * (farLength(at) / lengthPx(at, far) - nearOnly(at))
    middle = (at) => {
      const [p, q, part] = [middleOf(at, near), middleOf(at, far), share(at)]
      return { x: p.x + part * (q.x - p.x), y: p.y + part * (q.y - p.y) }
    }
  } else if (scale.distances) {
    const { scaleMm, marksMm } = scale.distances
    const toScale = inputs.add(entered(scaleMm, 'pictureDistance', `camera:${setup}:scaleDistance`))
    const toMarks = inputs.add(entered(marksMm, 'pictureDistance', `camera:${setup}:marksDistance`))
    const inPlane = mmPerPx
    mmPerPx = (at) => (inPlane(at) * toMarks(at)) / toScale(at)
  }
  return {
    map: (at) => {
      const size = mmPerPx(at)
      return (p) => ({ x: p.x * size, y: p.y * size })
    },
    scaleMiddle: middle,
  }
}

function endsOf(
  picture: Picture, start: PictureMark['role'], end: PictureMark['role'], inputs: Inputs,
): readonly [ReadPoint, ReadPoint] | null {
  const a = picture.marks.findLast(({ role }) => role === start)
  const b = picture.marks.findLast(({ role }) => role === end)
  return a && b ? [inputs.point(a), inputs.point(b)] : null
}

/**
 * A camera that does not stand square to the car's side: away from the scale the plane comes nearer
 * or goes farther off by tilt times the angle seen between, and lengths along and across foreshorten
 * differently.
 */
function tiltInputs(picture: Picture, setup: string, inputs: Inputs, focal: number) {
  const u = picture.tiltURad ?? ASSUMED_TILT_U_RAD
  const yaw = inputs.add(fromSource(0, u, known('tilt', `camera:${setup}:tilt:yaw`)))
  const pitch = inputs.add(fromSource(0, u, known('tilt', `camera:${setup}:tilt:pitch`)))
  const stretch = inputs.add(fromSource(0, u * u, known('tilt', `camera:${setup}:tilt:stretch`)))
  return (values: readonly number[], at: Px, scaleMiddle: Px): number =>
    1 + (yaw(values) * (at.x - scaleMiddle.x) + pitch(values) * (at.y - scaleMiddle.y)) / focal + stretch(values)
}

/**
 * Focal length to turn px into an angle, px: from the given distance and how large a px is there, else
 * as the file or the kind of camera says. It only ever divides an angle or a depth that is zero but
 * for its u, so its own u acts through the mean of 1 / f^2: to second order the spread grows by
 * 1 + 3 (u / f)^2, which a focal length that much shorter stands for.
 */
function focalToUse(picture: Picture, plane: PlaneMap, inputs: Inputs): number {
  const given = picture.view && distanceInPx(picture, plane, inputs)
  const { value, u } = given ?? focalPx(picture)
  return value / Math.sqrt(1 + 3 * (u / value) ** 2)
}

/** The given distance over the size of a px at the picture's middle. */
function distanceInPx(picture: Picture, plane: PlaneMap, inputs: Inputs): { value: number; u: number } | null {
  const toMm = plane.map(inputs.list.map(({ value }) => value))
  const size = mmPerPxAt(picture, toMm, toMm({ x: picture.widthPx / 2, y: picture.heightPx / 2 }))
  if (!picture.view || !(size > 0) || !Number.isFinite(size)) return null
  const { value, u } = picture.view.distanceMm
  return { value: value / size, u: u / size }
}

function mmPerPxAt(picture: Picture, toMm: (p: Px) => Px, centre: Px): number {
  const beside = toMm({ x: picture.widthPx / 2 + 1, y: picture.heightPx / 2 })
  return Math.hypot(beside.x - centre.x, beside.y - centre.y)
}

/** Camera to plane, mm: as measured, else from how large a px is there and the focal length. */
const distanceTo = (picture: Picture, toMm: (p: Px) => Px, centre: Px, focal: number): number =>
  picture.view ? picture.view.distanceMm.value : focal * mmPerPxAt(picture, toMm, centre)

/**
 * Parallax: a sticker before or behind the plane seems farther from the picture's middle, or nearer.
 * Where nothing was said of the depth, it is assumed and stays in the budget.
 */
function depthShift(picture: Picture, setup: string, corner: Corner, role: 'hub' | 'chassis', inputs: Inputs) {
  const { depthUMm, pathUMm } = picture.view ?? { depthUMm: ASSUMED_DEPTH_U_MM, pathUMm: ASSUMED_DEPTH_U_MM }
  const own = inputs.add(fromSource(0, depthUMm, known('depth', `camera:${setup}:depth:${corner}:${role}`)))
  const path = inputs.add(fromSource(0, pathUMm, known('pathDepth', `camera:${picture.id}:path`)))
  return (values: readonly number[], p: Px, centre: Px, distance: number): Px => {
    const shrink = 1 - (own(values) + path(values)) / distance
    return { x: centre.x + (p.x - centre.x) * shrink, y: centre.y + (p.y - centre.y) * shrink }
  }
}

/**
 * Motion blur: exposure times speed is the length of the smear. A mark by hand may sit anywhere in it
 * (rectangular along the path); a snapped one sits in its middle by symmetry. Across the path the
 * smear shows as far as the path's direction is uncertain.
 */
function blurOf(picture: Picture, mark: PictureMark, inputs: Inputs) {
  const smearMm = (picture.exposureS ?? 0) * (picture.speedMs ?? 0) * 1000
  if (smearMm === 0) return (_: readonly number[], p: Px): Px => p
  const u = smearMm / Math.sqrt(12)
  const id = `camera:${picture.id}:blur:${mark.id}`
  const along = inputs.add(mark.snapped ? exact(0) : fromSource(0, u, known('blur', `${id}:along`, 'rectangular')))
  const across = inputs.add(fromSource(0, u * PATH_ANGLE_U_RAD, known('blur', `${id}:across`)))
  return (values: readonly number[], p: Px, way: Px, up: Px): Px => {
    const a = along(values)
    const b = across(values)
    return { x: p.x + a * way.x + b * up.x, y: p.y + a * way.y + b * up.y }
  }
}

function unit({ x, y }: Px): Px {
  const length = Math.hypot(x, y)
  return { x: x / length, y: y / length }
}

/** To the right of an upward direction in a picture, whose y runs down. */
const rightOf = ({ x, y }: Px): Px => ({ x: -y, y: x })

function turned({ x, y }: Px, angle: number): Px {
  const cos = Math.cos(angle)
  const sin = Math.sin(angle)
  return { x: x * cos - y * sin, y: x * sin + y * cos }
}

function meanOf(points: readonly Px[]): Px {
  const n = points.length
  return { x: points.reduce((sum, { x }) => sum + x, 0) / n, y: points.reduce((sum, { y }) => sum + y, 0) / n }
}

/** Direction of the line through two or more points by total least squares, pointing from first to last. */
function lineDirection(points: readonly Px[]): Px {
  const middle = meanOf(points)
  let xx = 0
  let yy = 0
  let xy = 0
  for (const { x, y } of points) {
    xx += (x - middle.x) ** 2
    yy += (y - middle.y) ** 2
    xy += (x - middle.x) * (y - middle.y)
  }
  const angle = Math.atan2(2 * xy, xx - yy) / 2
  const way = { x: Math.cos(angle), y: Math.sin(angle) }
  const first = points[0]!
  const last = points.at(-1)!
  return (last.x - first.x) * way.x + (last.y - first.y) * way.y < 0 ? { x: -way.x, y: -way.y } : way
}
