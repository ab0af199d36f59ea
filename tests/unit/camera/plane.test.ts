/** The lens term, the map of the plane and first-order propagation through code. */
import { homography, lensFromEdge, mapBy, propagate, straightened, type EdgeMark } from '@core/camera'
import { fromSource, known, standardUncertainty, type Source } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { drawFrom } from '../../synthetic/random'
import { project } from '../../synthetic/scene'
import { SMALL } from './pictures'

const source = (id: string): Source =>
  known('tilt', id)

const SQUARE = [{ x: 0, y: 0 }, { x: 1, y: 0 }, { x: 1, y: 1 }, { x: 0, y: 1 }]

describe('homography', () => {
  it('of the unit square to a trapezium, worked by hand: (x, y) to (2x, y) / (1 + y)', () => {
    const to = [{ x: 0, y: 0 }, { x: 2, y: 0 }, { x: 1, y: 0.5 }, { x: 0, y: 0.5 }]
    const h = homography(SQUARE, to)!
    ;[2, 0, 0, 0, 1, 0, 0, 1, 1].forEach((each, i) => expect(h[i]).toBeCloseTo(each, 12))
    expect(mapBy(h, { x: 0.5, y: 0.5 }).x).toBeCloseTo(2 / 3, 12)
  })

  it('gives nothing for three points on a line, a shape with crossed corners, or too few points', () => {
    expect(homography([{ x: 0, y: 0 }, { x: 1, y: 0 }, { x: 2, y: 0 }, { x: 0, y: 1 }], SQUARE)).toBeNull()
    const crossed = [SQUARE[0]!, SQUARE[2]!, SQUARE[1]!, SQUARE[3]!]
    expect(homography(SQUARE, crossed)).toBeNull()
    expect(homography(SQUARE.slice(0, 3), SQUARE.slice(0, 3))).toBeNull()
    expect(homography(Array(4).fill({ x: 1, y: 1 }), SQUARE)).toBeNull()
  })
})

describe('lens', () => {
  const camera = { ...SMALL, widthPx: 1000, heightPx: 800, k1: 0.03 }
  const size = { widthPx: 1000, heightPx: 800 }
  const PLACES = [-450, -300, -150, 0, 150, 300, 450]
  const edgeAt = (yMm: number, places = PLACES, uPx = 0.05, k1 = 0.03): EdgeMark[] =>
    places.map((xMm) => ({ ...project({ ...camera, k1 }, [xMm, yMm, 0]), uPx }))
  const measured = (marks: readonly EdgeMark[]) => {
    const fit = lensFromEdge(marks, size)
    if (fit.kind !== 'measured') throw new Error(fit.why)
    return fit
  }
  const lens = ({ k1, k2 }: { k1: number; k2: number }) => ({ k1, k2, offX: 0, offY: 0 })

  it('is found from an edge away from the middle and makes it straight', () => {
    const fit = measured(edgeAt(330))
    expect(fit.k1).toBeCloseTo(0.03, 3)
    expect(Math.sqrt(fit.covariance[0][0])).toBeLessThan(0.01)
    const ys = edgeAt(330).map((each) => straightened(each, lens(fit), size).y)
    expect(Math.max(...ys) - Math.min(...ys)).toBeLessThan(5e-3)
  })

  it('has the uncertainty that repeated marking of the edge shows', () => {
    const draw = drawFrom(5)
    const found = Array.from({ length: 300 }, () => measured(edgeAt(330).map(({ x, y, uPx }) =>
      ({ x: x + draw.normal(0.05), y: y + draw.normal(0.05), uPx }))).k1)
    const mean = found.reduce((sum, each) => sum + each, 0) / found.length
    const sd = Math.sqrt(found.reduce((sum, each) => sum + (each - mean) ** 2, 0) / found.length)
    // The stated u also holds what nobody knows of the second term.
    const stated = Math.sqrt(measured(edgeAt(330)).covariance[0][0])
    expect(stated / sd).toBeGreaterThan(0.9)
    expect(stated / sd).toBeLessThan(4)
    expect(Math.abs(mean - 0.03)).toBeLessThan(2 * stated)
  })

  it('takes a misfit into its u: marks that lie ten times farther off a line than they say', () => {
    const draw = drawFrom(11)
    const rough = edgeAt(330).map(({ x, y, uPx }) => ({ x: x + draw.normal(0.5), y: y + draw.normal(0.5), uPx }))
    const fit = measured(rough)
    expect(fit.misfit).toBeGreaterThan(4)
    const honest = measured(rough.map((each) => ({ ...each, uPx: 0.5 })))
    expect(Math.sqrt(fit.covariance[0][0] / honest.covariance[0][0])).toBeGreaterThan(0.4)
  })

  it('is found where it is strong, and says where the edge is folded over', () => {
    expect(measured(edgeAt(330, PLACES, 0.05, 0.7)).k1).toBeCloseTo(0.7, 1)
    const folded = edgeAt(330).map(({ x, y, uPx }, i) => ({ x, y: y + 160 * Math.abs(i - 3), uPx }))
    expect(lensFromEdge(folded, size)).toEqual({ kind: 'untold', why: 'tooBent' })
  })

  it('is not told by an edge through the middle, or by two points', () => {
    expect(lensFromEdge(edgeAt(0), size)).toEqual({ kind: 'untold', why: 'throughMiddle' })
    expect(lensFromEdge(edgeAt(330).slice(0, 2), size)).toEqual({ kind: 'untold', why: 'fewMarks' })
  })
})

describe('propagation through a homography', () => {
  it('has the uncertainty that drawing the marks and the shape shows', () => {
    const marks = [[150, 140], [1130, 150], [1120, 420], [160, 430]].flat()
    const shape = [[-235, 150], [235, 150], [235, 20], [-235, 20]].flat()
    const f = (v: readonly number[]): number => {
      const at = (k: number) => ({ x: v[k]!, y: v[k + 1]! })
      return mapBy(homography([0, 2, 4, 6].map(at), [8, 10, 12, 14].map(at))!, { x: 400, y: 330 }).y
    }
    const inputs = [
      ...marks.map((each, i) => fromSource(each, 0.5, source(`m${i}`))),
      ...shape.map((each, i) => fromSource(each, 0.2, source(`s${i}`))),
    ]
    const result = propagate(inputs, f)
    const draw = drawFrom(9)
    const found = Array.from({ length: 2000 }, () =>
      f([...marks.map((each) => each + draw.normal(0.5)), ...shape.map((each) => each + draw.normal(0.2))]))
    const sd = Math.sqrt(found.reduce((sum, each) => sum + (each - result.value) ** 2, 0) / found.length)
    // The sd of 2000 draws is known to about 1.6 %.
    expect(standardUncertainty(result) / sd).toBeGreaterThan(0.94)
    expect(standardUncertainty(result) / sd).toBeLessThan(1.06)
  })
})
