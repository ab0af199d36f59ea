/** Boards of known size on real photos, read again by another hand: how often the interval holds the truth. */
import { intervalStatement } from '@core/uncertainty'
import { drawFrom } from '../../synthetic/random'
import { tryBoard, type Way } from './boards'
import figures from './photo-figures.json'

/** Share of trials whose 95 % interval must hold the truth. */
export const NEEDED = 0.93

type Photos = 'webcam' | 'wide'

const LENSES = [['edge', true], ['edge', false], ['kind', true], ['notAsked', true]] as const

/** Every way that is counted: which photos, a rule or a board of four points, and what is known of the lens. */
export const WAYS: readonly (readonly [Photos, Way])[] = [
  ...LENSES.map(([lens, inPlane]) => ['webcam', { scale: 'plane', lens, kind: 'webcam', inPlane }] as const),
  ...LENSES.map(([lens, inPlane]) => ['wide', { scale: 'plane', lens, kind: 'action', inPlane }] as const),
  ...LENSES.map(([lens, inPlane]) => ['wide', { scale: 'length', lens, kind: 'action', inPlane }] as const),
  ['webcam', { scale: 'length', lens: 'edge', kind: 'webcam', inPlane: false }],
  ['webcam', { scale: 'length', lens: 'kind', kind: 'webcam', inPlane: false }],
]

interface Tried {
  readonly count: number
  readonly share: number
  /** Share of the photo that is covered least. */
  readonly leastShare: number
  readonly rmsErrorMm: number
  readonly medianUMm: number
}

/** So many trials of a way on each photo, each with a hand of its own. */
export function tryBoards(photos: Photos, way: Way, times: number): Tried {
  const draw = drawFrom(20_310_504)
  const us: number[] = []
  let held = 0
  let squares = 0
  let leastShare = 1
  for (const board of figures[photos]) {
    let here = 0
    for (let i = 0; i < times; i++) {
      const { result, trueMm } = tryBoard(board, way, draw, `t-${i}`)
      if (result.kind !== 'height') throw new Error(`lacking: ${result.lack}`)
      const { interval: { low, high }, u, value } = intervalStatement(result.heightMm)
      if (low <= trueMm && trueMm <= high) here += 1
      us.push(u)
      squares += (value - trueMm) ** 2
    }
    held += here
    leastShare = Math.min(leastShare, here / times)
  }
  return {
    count: us.length, share: held / us.length, leastShare, rmsErrorMm: Math.sqrt(squares / us.length),
    medianUMm: us.toSorted((a, b) => a - b)[us.length >> 1]!,
  }
}
