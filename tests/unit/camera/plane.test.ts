/** The lens term, the map of the plane and first-order propagation through code. */
import { homography, lensFromEdge, mapBy, propagate, straightened } from '@core/camera'
import { exact, fromSource, known, standardUncertainty, type Source } from '@core/uncertainty'
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
  const edgeAt = (yMm: number) => [-450, -300, -150, 0, 150, 300, 450].map((xMm) => {
    const { x, y } = project(camera, [xMm, yMm, 0])
    return [fromSource(x, 0.05, source(`x${xMm}`)), fromSource(y, 0.05, source(`y${xMm}`))] as const
  })

  it('is found from an edge away from the middle and makes it straight', () => {
    const k1 = lensFromEdge(edgeAt(330), size)!
    expect(k1.value).toBeCloseTo(0.03, 4)
    expect(standardUncertainty(k1)).toBeLessThan(0.002)
    const ys = edgeAt(330).map(([x, y]) => straightened({ x: x.value, y: y.value }, k1.value, size).y)
    expect(Math.max(...ys) - Math.min(...ys)).toBeLessThan(1e-3)
  })

  it('has the uncertainty that repeated marking of the edge shows', () => {
    const draw = drawFrom(5)
    const again = (each: { value: number }) => exact(each.value + draw.normal(0.05))
    const found = Array.from({ length: 300 }, () =>
      lensFromEdge(edgeAt(330).map(([x, y]) => [again(x), again(y)] as const), size)!.value)
    const sd = Math.sqrt(found.reduce((sum, each) => sum + (each - 0.03) ** 2, 0) / found.length)
    // The sd of 300 draws is known to about 4 %.
    const stated = standardUncertainty(lensFromEdge(edgeAt(330), size)!)
    expect(stated / sd).toBeGreaterThan(0.85)
    expect(stated / sd).toBeLessThan(1.15)
  })

  it('is not told by an edge through the middle, or by two points', () => {
    expect(lensFromEdge(edgeAt(0), size)).toBeNull()
    expect(lensFromEdge(edgeAt(330).slice(0, 2), size)).toBeNull()
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
