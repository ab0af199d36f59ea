/**
 * The camera room on real photos, none of which our code has drawn: chessboards before two webcams, coins and
 * sweets. `photo_figures.py` beside this file names their packages and licences, and has OpenCV 4.6 find the corners
 * and the ellipses that are the truth here.
 */
import { lensOf, snapToSticker } from '@core/camera'
import { describe, expect, it } from 'vitest'
import { drawFrom } from '../../synthetic/random'
import { NEEDED, tryBoards, WAYS } from './boardTrials'
import { edgesOf, pictureWith } from './boards'
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

describe('a board of known size on real photos', () => {
  // A few trials of each; `npm run study:photos` counts twenty times as many.
  it.each(WAYS)('%s, %j: the true height lies in the interval in 93 of 100 trials or more', (photos, way) => {
    const { share, count } = tryBoards(photos, way, 2)
    expect(count).toBeGreaterThan(50)
    expect(share).toBeGreaterThanOrEqual(NEEDED)
  })

  it('gives no tight number where nobody said what camera it was: wider than for the lens that is there', () => {
    const plane = { scale: 'plane', inPlane: true, kind: 'webcam' } as const
    const asked = tryBoards('webcam', { ...plane, lens: 'edge' }, 2).medianUMm
    const unasked = tryBoards('webcam', { ...plane, lens: 'notAsked' }, 2).medianUMm
    expect(unasked).toBeGreaterThan(1.5 * asked)
  })

  it('says that a lens is bent more than its terms can hold, where it is', () => {
    // Each of the four outermost rows of each wide photo, without any hand: OpenCV places a corner to 0.02 px.
    const fits = figures.wide.flatMap((board) => edgesOf(board).map((edge) =>
      lensOf(pictureWith(board, 'action', edge, 0.02)).fit))
    expect(fits).toHaveLength(4 * figures.wide.length)
    const told = fits.flatMap((fit) => (fit?.kind === 'measured' ? [fit] : []))
    expect(told.length).toBeGreaterThan(20)
    const bent = told.filter(({ misfit }) => misfit > 2)
    expect(bent.length).toBeGreaterThan(told.length / 2)
    // What is said of k1 grows with it: the square root of its variance is at least misfit times that of the marks.
    for (const { covariance, misfit } of bent) expect(Math.sqrt(covariance[0][0])).toBeGreaterThan(0.002 * misfit)
  })
})
