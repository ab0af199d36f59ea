/** Joins a film world, which knows nothing of the product, to the product's bench. */
import { Guards, LiveBench, type LiveFrame } from '@core/camera'
import type { Corner, Picture, PictureMark } from '@core/schema'
import { Draws, placesOf, RULE_MM, SPOTS, type FilmWorld, type Frame, type SpotName } from '../../worlds/film/world'

const SEEN: readonly Corner[] = ['frontLeft', 'rearLeft']
const MARKED_PX = 0.05

const ROLES: Record<SpotName, readonly [PictureMark['role'], Corner | null]> = {
  ruleLeft: ['scaleStart', null], ruleRight: ['scaleEnd', null], groundLeft: ['ground', null],
  groundRight: ['ground', null], frontHub: ['hub', 'frontLeft'], frontChassis: ['chassis', 'frontLeft'],
  rearHub: ['hub', 'rearLeft'], rearChassis: ['chassis', 'rearLeft'],
}
const FIXED: readonly SpotName[] = ['ruleLeft', 'ruleRight', 'groundLeft', 'groundRight']
const MOVING: readonly SpotName[] = ['frontHub', 'frontChassis', 'rearHub', 'rearChassis']

const idOf = (name: SpotName): string => name.toLowerCase()

/** The set-up picture as a builder would mark it. */
export function setUpPicture(world: FilmWorld, seed: number, more: Partial<Picture> = {}): Picture {
  const draw = new Draws(seed)
  const places = placesOf(world, { front: 0, rear: 0 })
  const marks = SPOTS.map((name): PictureMark => ({
    id: idOf(name), role: ROLES[name][0], corner: ROLES[name][1], frameS: null, repeats: [], uPx: MARKED_PX,
    snapped: true,
    at: { xPx: places[name].x + draw.normal(MARKED_PX), yPx: places[name].y + draw.normal(MARKED_PX) },
  }))
  return {
    id: 'live-1', kind: 'still', fileName: 'set-up.png', sizeBytes: 1, fingerprint: '-', thumbnail: null, marks,
    addedAt: '2031-05-04T09:30:00.000Z', widthPx: world.camera.widthPx, heightPx: world.camera.heightPx, lensK1: null,
    cameraKind: 'webcam', exposureS: null, windows: [],
    scale: { kind: 'length', lengthMm: { value: RULE_MM, u: 0.2 }, distances: null }, ...more,
  }
}

export function benchOf(picture: Picture): { bench: LiveBench; guards: Guards } {
  const made = LiveBench.of(picture, SEEN, 'hubToChassis')
  if (!made.bench) throw new Error(`${made.lack.corner}: ${made.lack.lack}`)
  const fixed = new Map(FIXED.map((name) => {
    const { at } = picture.marks.find(({ id }) => id === idOf(name))!
    return [idOf(name), { x: at.xPx, y: at.yPx }]
  }))
  return { bench: made.bench, guards: new Guards(MOVING.map(idOf), fixed) }
}

export const liveFrame = ({ timeS, places, light }: Frame): LiveFrame =>
  ({ timeS, light, places: new Map(SPOTS.map((name) => [idOf(name), places[name]])) })
