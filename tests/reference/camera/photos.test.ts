/**
 * The camera room on real photos, none of which our code has drawn: chessboards before two webcams, coins and
 * sweets. `photo_figures.py` beside this file names their packages and licences, and has OpenCV 4.6 find the corners
 * and the ellipses that are the truth here.
 */
import { lensOf, snapToSticker } from '@core/camera'
import { intervalStatement } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { drawFrom } from '../../synthetic/random'
import { tryBoard, type Way } from './boards'
import figures from './photo-figures.json'
import { readPng } from './readPng'

const photo = (name: string) => readPng(new URL(`./photos/${name}.png`, import.meta.url))
const pairs = (flat: readonly number[]) => Array.from({ length: flat.length / 2 }, (_, i) =>
  ({ x: flat[2 * i]!, y: flat[2 * i + 1]! }))

describe('snap on chessboards', () => {
  const boards = [...figures.webcam.filter(({ name }) => ['left01.jpg', 'left03.jpg', 'left04.jpg'].includes(name))
    .map(({ name, corners }) => ({ file: name.slice(0, -4), corners })),
  ...figures.wide.filter(({ name }) => name === 'left04 fiveTerms').map(({ corners }) => ({ file: 'wide', corners }))]

  it.each(boards)('leaves each click near a corner where it was: $file', ({ file, corners }) => {
    const picture = photo(file)
    expect(corners).toHaveLength(108)
    for (const corner of pairs(corners)) {
      for (const [dx, dy] of [[0.6, 0.6], [-0.6, 0.6], [0.6, -0.6], [-0.6, -0.6]] as const) {
        expect(snapToSticker(picture, { x: corner.x + dx, y: corner.y + dy }).kind).toBe('refused')
      }
    }
  })

  it.each(boards)('takes no square for a round sticker, clicked in its middle: $file', ({ file, corners }) => {
    const picture = photo(file)
    const at = pairs(corners)
    for (let row = 0; row < 5; row++) {
      for (let column = 0; column < 8; column++) {
        const square = [0, 1, 9, 10].map((by) => at[9 * row + column + by]!)
        const x = square.reduce((sum, each) => sum + each.x, 0) / 4
        const y = square.reduce((sum, each) => sum + each.y, 0) / 4
        expect(snapToSticker(picture, { x, y }).kind).toBe('refused')
      }
    }
  })
})

describe('snap on round things', () => {
  it.each([['coins', 12], ['coins-rough', 10], ['smarties', 2]] as const)(
    '%s: what is taken lies where cv2.fitEllipse puts it, within what the snap itself says', (name, least) => {
      const picture = photo(name)
      const draw = drawFrom(4)
      let taken = 0
      let held = 0
      for (const [x, y, radius] of figures.spots[name] as [number, number, number][]) {
        const reach = 0.5 * radius
        const snap = snapToSticker(picture, { x: x + draw.between(-reach, reach), y: y + draw.between(-reach, reach) })
        if (snap.kind === 'refused') continue
        taken += 1
        const off = Math.hypot(snap.at.x - x, snap.at.y - y)
        // The ellipse of OpenCV goes through whole pixels of a threshold of its own: known to some tenths of a px.
        if (off < 2.45 * Math.hypot(snap.uPx, 0.2)) held += 1
        expect(off).toBeLessThan(0.12 * radius)
      }
      expect(taken).toBeGreaterThanOrEqual(least)
      expect(held / taken).toBeGreaterThanOrEqual(0.9)
    },
  )

  it('finds none where the click lies beside the coin', () => {
    const picture = photo('coins')
    for (const [x, y, radius] of figures.spots.coins as [number, number, number][]) {
      const snap = snapToSticker(picture, { x: x + 1.25 * radius + 1, y })
      if (snap.kind === 'snapped') expect(Math.hypot(snap.at.x - x, snap.at.y - y)).toBeGreaterThan(radius)
    }
  })
})

/** Trials of a way on each board, each with a hand of its own. */
function walk(boards: typeof figures.webcam, way: Way, times: number) {
  const draw = drawFrom(20_310_504)
  const us: number[] = []
  let held = 0
  for (const board of boards) {
    for (let i = 0; i < times; i++) {
      const { result, trueMm } = tryBoard(board, way, draw, `t-${i}`)
      if (result.kind !== 'height') throw new Error(`lacking: ${result.lack}`)
      const { interval: { low, high }, u } = intervalStatement(result.heightMm)
      if (low <= trueMm && trueMm <= high) held += 1
      us.push(u)
    }
  }
  return { share: held / us.length, count: us.length, uMm: us.toSorted((a, b) => a - b)[us.length >> 1]! }
}

const LENSES = [['edge', true], ['edge', false], ['kind', true], ['notAsked', true]] as const
const WAYS: readonly (readonly ['webcam' | 'wide', Way])[] = [
  ...LENSES.map(([lens, inPlane]) => ['webcam', { scale: 'plane', lens, kind: 'webcam', inPlane }] as const),
  ...LENSES.map(([lens, inPlane]) => ['wide', { scale: 'plane', lens, kind: 'action', inPlane }] as const),
  ...LENSES.map(([lens, inPlane]) => ['wide', { scale: 'length', lens, kind: 'action', inPlane }] as const),
  ['webcam', { scale: 'length', lens: 'edge', kind: 'webcam', inPlane: false }],
  ['webcam', { scale: 'length', lens: 'kind', kind: 'webcam', inPlane: false }],
]

describe('a board of known size on real photos', () => {
  it.each(WAYS)('%s, %j: the true height lies in the interval in 93 of 100 trials or more', (lens, way) => {
    const { share, count } = walk(figures[lens], way, 4)
    expect(count).toBeGreaterThan(100)
    expect(share).toBeGreaterThanOrEqual(0.93)
  })

  it('gives no tight number where nobody said what camera it was: wider than for the lens that is there', () => {
    const plane = { scale: 'plane', inPlane: true, kind: 'webcam' } as const
    const asked = walk(figures.webcam, { ...plane, lens: 'edge' }, 2).uMm
    const unasked = walk(figures.webcam, { ...plane, lens: 'notAsked' }, 2).uMm
    expect(unasked).toBeGreaterThan(1.5 * asked)
  })

  it('says that a lens is bent more than its terms can hold, where it is', () => {
    // The outermost row of each wide photo, taken without any hand: 0.02 px is what OpenCV places a corner to.
    const sharp = figures.wide.map((board, i) => {
      const { picture } = tryBoard(board, { scale: 'length', lens: 'edge', kind: 'action', inPlane: true },
        { ...drawFrom(i), normal: () => 0 }, 'sharp')
      return lensOf({ ...picture, marks: picture.marks.map((each) => ({ ...each, uPx: 0.02 })) }).fit
    })
    const told = sharp.flatMap((fit) => (fit?.kind === 'measured' ? [fit] : []))
    expect(told.length).toBeGreaterThan(12)
    const bent = told.filter(({ misfit }) => misfit > 2)
    expect(bent.length).toBeGreaterThan(told.length / 2)
    // What is said of k1 grows with it: the square root of its variance is at least misfit times that of the marks.
    for (const { covariance, misfit } of bent) expect(Math.sqrt(covariance[0][0])).toBeGreaterThan(0.002 * misfit)
  })
})
