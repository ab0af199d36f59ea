/** Which marks a picture wants, in the order of the work, and which mark stands in each place. */
import type { Datum } from '@core/camera'
import type { Corner, Picture, PictureMark } from '@core/schema'

export type Side = 'left' | 'right'
export type Role = PictureMark['role']

/** A place for one mark. `index` counts marks of the same role, from 0. */
export interface Slot {
  readonly key: string
  readonly role: Role
  readonly corner: Corner | null
  readonly index: number
}

const slot = (role: Role, corner: Corner | null = null, index = 0): Slot =>
  ({ key: [role, corner ?? '', index].join(' '), role, corner, index })

/** The two corners of the side the camera sees. */
export const cornersOf = (side: Side): readonly [Corner, Corner] =>
  side === 'left' ? ['frontLeft', 'rearLeft'] : ['frontRight', 'rearRight']

/** Marks of the car move with it; all others stay where they are. */
export const movesWithCar = (role: Role): boolean => role === 'hub' || role === 'chassis'

/** Fewest and most marks on a straight edge for the lens. */
const EDGE_MARKS = { least: 3, most: 15 } as const

/** How many marks of a role stand in the picture. */
export const countOf = (picture: Picture, role: Role): number =>
  picture.marks.filter((each) => each.role === role).length

/** The places of a picture. */
export function slotsOf(picture: Picture, side: Side, datum: Datum, edge: boolean): Slot[] {
  const slots: Slot[] = []
  const { scale } = picture
  if (scale?.kind === 'length') {
    slots.push(slot('scaleStart'), slot('scaleEnd'))
    if (scale.far) slots.push(slot('farScaleStart'), slot('farScaleEnd'))
  }
  if (scale?.kind === 'plane') for (let i = 0; i < 4; i++) slots.push(slot('plane', null, i))
  slots.push(slot('ground', null, 0), slot('ground', null, 1))
  for (const corner of cornersOf(side)) {
    if (datum === 'hubToChassis') slots.push(slot('hub', corner))
    slots.push(slot('chassis', corner))
  }
  const edges = countOf(picture, 'edge')
  if (edge || edges > 0) {
    const places = Math.min(EDGE_MARKS.most, Math.max(EDGE_MARKS.least, edges + 1))
    for (let i = 0; i < places; i++) slots.push(slot('edge', null, i))
  }
  if (picture.gates) {
    for (let i = 0; i < (picture.gates.distanceFarMm ? 3 : 2); i++) slots.push(slot('gate', null, i))
  }
  return slots
}

/** Frames closer in time than this are one frame. */
const SAME_FRAME_S = 1e-4

export const sameFrame = (a: number | null, b: number | null): boolean =>
  a === b || (a !== null && b !== null && Math.abs(a - b) < SAME_FRAME_S)

/** The mark in a place; in a clip the car's marks count only in the frame they were made in. */
export function markIn(
  picture: Picture, { role, corner, index }: Slot, frameS: number | null,
): PictureMark | undefined {
  const fit = picture.marks.filter((each) => each.role === role && each.corner === corner
    && (!movesWithCar(role) || sameFrame(each.frameS, frameS)))
  return fit[index]
}

/** True where a mark can be put now: marks of one role are filled in their order. */
export const canFill = (picture: Picture, { role, index }: Slot): boolean =>
  movesWithCar(role) || index <= countOf(picture, role)
