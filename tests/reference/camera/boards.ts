/** A chessboard of a photo taken for a bench: rule or board, edge, hub and chassis on its corners, clicked by hand. */
import { heightOf, type HeightResult, type Px } from '@core/camera'
import type { CameraKind, Picture, PictureMark } from '@core/schema'
import type { Draw } from '../../synthetic/random'
import figures from './photo-figures.json'

export type Board = (typeof figures.webcam)[number]

/** How the height is to be read from it. */
export interface Way {
  readonly scale: 'plane' | 'length'
  readonly lens: 'edge' | 'kind' | 'notAsked'
  readonly kind: CameraKind
  /** Stickers in the plane of the board, as these are, with the camera's distance given; else nobody said so. */
  readonly inPlane: boolean
}

export const HAND_PX = 0.5

export interface Trial { readonly trueMm: number; readonly result: HeightResult; readonly picture: Picture }

/** The corners of a board as it stands in its photo: columns run up and down. */
interface Grid { readonly columns: number; readonly rows: number; readonly at: (column: number, row: number) => Px }

function gridOf({ corners }: Board): Grid {
  const given = (along: number, across: number): Px => {
    const i = 2 * (across * 9 + along)
    return { x: corners[i]!, y: corners[i + 1]! }
  }
  const [from, to] = [given(4, 0), given(4, 5)]
  return Math.abs(to.y - from.y) > Math.abs(to.x - from.x)
    ? { columns: 9, rows: 6, at: given }
    : { columns: 6, rows: 9, at: (column, row) => given(row, column) }
}

/** One trial: two corners of one column, a hand of 0.5 px, all else as the way says. */
export function tryBoard(board: Board, way: Way, draw: Draw, id: string): Trial {
  const marks: PictureMark[] = []
  const { columns, rows, at } = gridOf(board)
  const [right, bottom] = [columns - 1, rows - 1]
  const put = (role: PictureMark['role'], column: number, row: number): void => {
    const { x, y } = at(column, row)
    marks.push({
      id: `${id}-${marks.length}`, role, corner: role === 'hub' || role === 'chassis' ? 'frontLeft' : null, frameS: null,
      at: { xPx: x + draw.normal(HAND_PX), yPx: y + draw.normal(HAND_PX) }, repeats: [], uPx: HAND_PX, snapped: false,
    })
  }
  // Photos may show the board upside down: up is where the rows run to the picture's top.
  const up = at(3, 0).y < at(3, bottom).y
  const rowFromBottom = (row: number): number => (up ? bottom - row : row)
  if (way.scale === 'plane') {
    for (const [column, row] of [[0, 0], [right, 0], [right, bottom], [0, bottom]] as const) put('plane', column, row)
  } else {
    const row = draw.whole(0, bottom)
    put('scaleStart', 0, row)
    put('scaleEnd', right, row)
  }
  put('ground', 0, rowFromBottom(0))
  put('ground', right, rowFromBottom(0))
  if (way.lens === 'edge') farthestEdge(board).forEach(([column, row]) => put('edge', column, row))
  const column = draw.whole(0, right)
  const low = draw.whole(0, bottom - 2)
  const high = draw.whole(low + 1, bottom)
  put('hub', column, rowFromBottom(low))
  put('chassis', column, rowFromBottom(high))
  const picture = pictureOf(board, way, marks, id, [figures.squareMm * right, figures.squareMm * bottom])
  return { trueMm: figures.squareMm * (high - low), result: heightOf(picture, 'frontLeft', 'hubToChassis'), picture }
}

/** A place on the board: column and row of a corner. */
type Place = readonly [number, number]

/** The four outermost rows and columns of corners. */
export function edgesOf(board: Board): Place[][] {
  const { columns, rows } = gridOf(board)
  const along = (count: number, place: (i: number) => Place) => Array.from({ length: count }, (_, i) => place(i))
  return [
    along(columns, (i) => [i, 0]), along(columns, (i) => [i, rows - 1]),
    along(rows, (i) => [0, i]), along(rows, (i) => [columns - 1, i]),
  ]
}

/** The one of them that passes farthest from the picture's middle. */
function farthestEdge(board: Board): Place[] {
  const { at } = gridOf(board)
  const { widthPx, heightPx } = board
  const gap = (edge: Place[]): number => {
    const [a, b] = [at(...edge[0]!), at(...edge.at(-1)!)]
    const length = Math.hypot(b.x - a.x, b.y - a.y)
    return Math.abs((b.x - a.x) * (heightPx / 2 - a.y) - (b.y - a.y) * (widthPx / 2 - a.x)) / length
  }
  return edgesOf(board).reduce((best, each) => (gap(each) > gap(best) ? each : best))
}

/** A picture with nothing but a straight edge marked, each mark known to `uPx`. */
export function pictureWith(board: Board, kind: CameraKind, edge: readonly Place[], uPx: number): Picture {
  const { at } = gridOf(board)
  const marks = edge.map((place, i): PictureMark => {
    const { x, y } = at(...place)
    return {
      id: `edge-${i}`, role: 'edge', corner: null, frameS: null, at: { xPx: x, yPx: y }, repeats: [], uPx, snapped: false,
    }
  })
  const way: Way = { scale: 'length', lens: 'edge', kind, inPlane: true }
  return pictureOf(board, way, marks, 'edge', [figures.squareMm, figures.squareMm])
}

const pictureOf = (
  { widthPx, heightPx, tiltRad }: Board, way: Way, marks: PictureMark[], id: string, [wideMm, highMm]: [number, number],
): Picture => ({
  id, kind: 'still', fileName: 'board.jpg', sizeBytes: 1, fingerprint: '-', addedAt: '2031-05-04T09:30:00.000Z',
  widthPx, heightPx, thumbnail: null, lensK1: null, exposureS: null, marks, windows: [],
  ...(way.lens === 'notAsked' ? {} : { cameraKind: way.kind }),
  // A camera farther off than this board's would make depth count less: 500 mm is near.
  ...(way.inPlane ? { view: { distanceMm: { value: 500, u: 100 }, depthUMm: 0, pathUMm: 0 } } : {}),
  // The photos of the one-length trials were turned to within what a hand does; the others are said to be slanted.
  tiltURad: Math.max(0.03, tiltRad),
  scale: way.scale === 'plane'
    ? {
        kind: 'plane', uMm: 0.1,
        cornersMm: [[0, 0], [wideMm, 0], [wideMm, highMm], [0, highMm]].map(([xMm, yMm]) => ({ xMm: xMm!, yMm: yMm! })),
      }
    : { kind: 'length', lengthMm: { value: wideMm, u: 0.1 }, distances: null },
})
