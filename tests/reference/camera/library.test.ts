/**
 * The camera room against general-purpose libraries: OpenCV 4.6 and NumPy 1.24 of Debian 12.
 * `library_figures.py` beside this file wrote the figures and can be run again.
 */
import { homography, mapBy } from '@core/camera'
import { correlationAt, cutTemplate } from '@core/camera/film/template'
import { otsu } from '@core/camera/snap/blob'
import { centroidOf } from '@core/camera/snap/centroid'
import { surroundOf } from '@core/camera/snap/surround'
import { describe, expect, it } from 'vitest'
import figures from './library-figures.json'

const points = (rows: number[][]) => rows.map(([x, y]) => ({ x: x!, y: y! }))

const expectAlike = (ours: readonly number[], theirs: readonly number[], relative: number) => {
  expect(ours).toHaveLength(9)
  ours.forEach((each, i) => {
    expect(Math.abs(each - theirs[i]!)).toBeLessThanOrEqual(relative * Math.max(Math.abs(theirs[i]!), 1e-6))
  })
}

describe('homography', () => {
  it.each(figures.homographies.map((each, i) => [i, each] as const))(
    'case %d is that of numpy.linalg.svd and of cv2.getPerspectiveTransform',
    (_, { from, to, opencv, svd, probe, probed }) => {
      const h = homography(points(from), points(to))!
      expectAlike(h, svd, 1e-9)
      // OpenCV solves without normalising: its own map misses the four points by up to 5e-6 mm.
      expectAlike(h, opencv, 2e-6)
      points(probe).forEach((p, i) => {
        const at = mapBy(h, p)
        expect(at.x).toBeCloseTo(probed[i]![0]!, 8)
        expect(at.y).toBeCloseTo(probed[i]![1]!, 8)
      })
    },
  )

  it('of twelve noisy points is the normalised algebraic least squares of NumPy', () => {
    const { from, to, svd } = figures.manyPoints
    expectAlike(homography(points(from), points(to))!, svd, 1e-8)
  })

  it('of twelve noisy points agrees with cv2.findHomography within the noise (it minimises another error)', () => {
    const { from, to, opencv } = figures.manyPoints
    const h = homography(points(from), points(to))!
    for (const p of points(from)) {
      const [ours, theirs] = [mapBy(h, p), mapBy(opencv, p)]
      expect(Math.hypot(ours.x - theirs.x, ours.y - theirs.y)).toBeLessThan(0.1)
    }
  })
})

describe('correlation', () => {
  const { width, height, data } = figures.picture
  const picture = { width, height, data: Uint8Array.from(data) }
  const { half, middle, places } = figures.correlations

  it.each(places.map(({ at, correlation }) => [at, correlation] as const))(
    'at %j is numpy.corrcoef of the two round patches', ([x, y], correlation) => {
      const template = cutTemplate(picture, { x: middle[0]! + 0.5, y: middle[1]! + 0.5 }, half)!
      expect(correlationAt(picture, template, x!, y!)).toBeCloseTo(correlation, 6)
    },
  )
})

describe('spot', () => {
  const { width, height, data, otsu: threshold, centroid } = figures.spot
  const picture = { width, height, data: Uint8Array.from(data) }

  it('is split where cv2.threshold with THRESH_OTSU splits it', () => {
    const ours = otsu(picture.data)!
    const above = data.filter((value) => value > ours).length
    expect(above).toBe(data.filter((value) => value > threshold).length)
  })

  it('has the centroid of cv2.moments', () => {
    const start = { x: 19, y: 22 }
    const { at } = centroidOf(picture, start, 7.5, surroundOf(picture, start, 7.5))
    expect(at.x).toBeCloseTo(centroid[0]!, 3)
    expect(at.y).toBeCloseTo(centroid[1]!, 3)
  })
})
