/** Heights from marks against closed forms, and what cancels in a drop. */
import {
  averageMarks, cameraBudget, dropBetween, heightOf, readingSourceOf, type Datum,
} from '@core/camera'
import { readingSource, type Picture } from '@core/schema'
import { effectiveDof, standardUncertainty, variance } from '@core/uncertainty'
import { describe, expect, it } from 'vitest'
import { carMark, mark, still } from './pictures'

const SCALE = [mark('scaleStart', 100, 200), mark('scaleEnd', 200, 200)]
const GROUND = [mark('ground', 100, 500), mark('ground', 900, 500)]

const height = (picture: Picture, datum: Datum = 'groundToChassis') => {
  const found = heightOf(picture, 'frontLeft', datum)
  if (found.kind !== 'height') throw new Error(`lacking ${found.lack}`)
  return found.heightMm
}

describe('one length as the scale', () => {
  it('100 px for 50 mm make 240 px 120 mm', () => {
    const picture = still([...SCALE, ...GROUND, carMark('chassis', 400, 260)])
    expect(height(picture).value).toBeCloseTo(120, 10)
    expect(standardUncertainty(height(picture))).toBe(0)
  })

  it('has u = h u(L)/L from the length and the closed form from the marks', () => {
    const marks = [
      mark('scaleStart', 100, 200, { uPx: 0.3 }), mark('scaleEnd', 200, 200, { uPx: 0.3 }), ...GROUND,
      carMark('chassis', 400, 260, { uPx: 0.2 }),
    ]
    const found = height(still(marks, { scale: { kind: 'length', lengthMm: { value: 50, u: 0.1 }, distances: null } }))
    const rows = Object.fromEntries(cameraBudget(found).map(({ part, uMm }) => [part, uMm]))
    expect(rows['scale']).toBeCloseTo(120 * 0.1 / 50, 6)
    expect(rows['marks']).toBeCloseTo(Math.hypot(0.2 * 0.5, 120 * (0.3 * Math.SQRT2) / 100), 5)
  })

  it('takes the height square to a sloping ground line', () => {
    const slope = 0.1
    const ground = [mark('ground', 100, 500), mark('ground', 900, 500 + 800 * slope)]
    const picture = still([...SCALE, ...ground, carMark('chassis', 100, 300)])
    expect(height(picture).value).toBeCloseTo((200 / Math.hypot(1, slope)) * 0.5, 10)
  })

  it('takes the picture as level without a ground line, and says so in the budget', () => {
    const picture = still([...SCALE, carMark('hub', 300, 500), carMark('chassis', 400, 440)])
    const found = height(picture, 'hubToChassis')
    expect(found.value).toBeCloseTo(30, 10)
    expect(cameraBudget(found)[0]).toMatchObject({ part: 'level' })
    // 100 px (50 mm) to the side turned by 0.01 rad.
    expect(standardUncertainty(found)).toBeCloseTo(0.5, 2)
    expect(heightOf(picture, 'frontLeft', 'hubToChassis')).toMatchObject({ assumed: ['level'] })
  })

  it('is negative where the chassis mark lies below the hub', () => {
    const picture = still([...SCALE, ...GROUND, carMark('hub', 300, 400), carMark('chassis', 400, 420)])
    expect(height(picture, 'hubToChassis').value).toBeCloseTo(-10, 10)
  })

  it('grows in proportion to the marks being farther off than the scale', () => {
    const distances = { scaleMm: { value: 1000, u: 0 }, marksMm: { value: 1100, u: 11 } }
    const picture = still([...SCALE, ...GROUND, carMark('chassis', 400, 260)], {
      scale: { kind: 'length', lengthMm: { value: 50, u: 0 }, distances },
    })
    expect(height(picture).value).toBeCloseTo(132, 10)
    expect(standardUncertainty(height(picture))).toBeCloseTo(132 * 0.01, 6)
  })

  it('interpolates between two lengths at two distances', () => {
    // Half as large in the picture: twice as far. Halfway between, a px is 1.5 times the near one's length.
    const far = [mark('farScaleStart', 500, 100), mark('farScaleEnd', 550, 100)]
    const picture = still([...SCALE, ...far, ...GROUND, carMark('chassis', 400, 260)], {
      scale: {
        kind: 'length', lengthMm: { value: 50, u: 0 }, distances: null,
        far: { lengthMm: { value: 50, u: 0 }, share: { value: 0.5, u: 0 } },
      },
    })
    expect(height(picture).value).toBeCloseTo(180, 10)
  })
})

describe('four points of a known shape as the scale', () => {
  // The map of the unit-test trapezium: picture (x, y) = 500 + 2 X / (1 + Y/400), 700 - 2 Y / (1 + Y/400).
  const seen = (X: number, Y: number) => ({ x: 500 + (2 * X) / (1 + Y / 400), y: 700 - (2 * Y) / (1 + Y / 400) })
  const corners = [[-150, 150], [150, 150], [150, 0], [-150, 0]] as const
  const plane = corners.map(([X, Y]) => mark('plane', seen(X, Y).x, seen(X, Y).y))
  const cornersMm = corners.map(([xMm, yMm]) => ({ xMm, yMm }))
  const ground = [[-140, 0], [140, 0]].map(([X, Y]) => mark('ground', seen(X!, Y!).x, seen(X!, Y!).y))

  it('gives the height in the plane whatever the perspective', () => {
    for (const [X, Y] of [[-100, 40], [90, 62.5], [0, 10]] as const) {
      const picture = still([...plane, ...ground, carMark('chassis', seen(X, Y).x, seen(X, Y).y)], {
        scale: { kind: 'plane', cornersMm, uMm: 0 },
      })
      expect(height(picture).value).toBeCloseTo(Y, 8)
    }
  })

  it('does not mind which way the shape was measured', () => {
    const down = cornersMm.map(({ xMm, yMm }) => ({ xMm, yMm: -yMm }))
    const picture = still([...plane, ...ground, carMark('chassis', seen(-100, 40).x, seen(-100, 40).y)], {
      scale: { kind: 'plane', cornersMm: down, uMm: 0.2 },
    })
    expect(height(picture).value).toBeCloseTo(40, 8)
    expect(cameraBudget(height(picture))[0]).toMatchObject({ part: 'scale' })
  })

  it('says what is wrong with the shape', () => {
    const lacking = (marks: Picture['marks']) =>
      heightOf(still(marks, { scale: { kind: 'plane', cornersMm, uMm: 0 } }), 'frontLeft', 'groundToChassis')
    const chassis = carMark('chassis', 400, 300)
    expect(lacking([...plane.slice(0, 3), ...ground, chassis])).toEqual({ kind: 'lacking', lack: 'planeMarks' })
    const crossed = [plane[0]!, plane[2]!, plane[1]!, plane[3]!]
    expect(lacking([...crossed, ...ground, chassis])).toEqual({ kind: 'lacking', lack: 'planeShape' })
  })
})

describe('what is missing', () => {
  it('is named', () => {
    const chassis = carMark('chassis', 400, 260)
    const lack = (picture: Picture, datum: Datum = 'groundToChassis') => heightOf(picture, 'frontLeft', datum)
    expect(lack(still([]))).toEqual({ kind: 'lacking', lack: 'chassis' })
    expect(lack(still([chassis]), 'hubToChassis')).toEqual({ kind: 'lacking', lack: 'hub' })
    expect(lack(still([chassis], { scale: null }))).toEqual({ kind: 'lacking', lack: 'scale' })
    expect(lack(still([chassis]))).toEqual({ kind: 'lacking', lack: 'scaleMarks' })
    expect(lack(still([chassis, ...SCALE]))).toEqual({ kind: 'lacking', lack: 'ground' })
    const dot = [mark('scaleStart', 100, 200), mark('scaleEnd', 100, 200)]
    expect(lack(still([chassis, ...dot, ...GROUND]))).toEqual({ kind: 'lacking', lack: 'scaleMarks' })
  })
})

describe('the rest of the budget', () => {
  const base = [...SCALE, ...GROUND]

  it('parallax is height above the picture\'s middle times depth over distance', () => {
    const view = { distanceMm: { value: 600, u: 5 }, depthUMm: 3, pathUMm: 0 }
    const picture = still([...base, carMark('chassis', 500, 260)], { view })
    // 140 px above the middle of 800 px: 70 mm.
    expect(standardUncertainty(height(picture))).toBeCloseTo(70 * 3 / 600, 6)
  })

  it('a depth nobody told of is assumed, said, and counts at the usual focal length', () => {
    const untold = still([...base, carMark('chassis', 500, 260)], { cameraKind: 'phoneMain' })
    delete untold.view
    // 70 mm above the middle; distance 0.75 x 1000 px x 0.5 mm per px; depth and path of 3 mm each. The focal
    // length is known to 0.08 of 0.75: mean of 1 / f^2 to second order.
    const spread = Math.sqrt(1 + 3 * (0.08 / 0.75) ** 2)
    expect(standardUncertainty(height(untold))).toBeCloseTo((70 * 3 * Math.SQRT2 * spread) / 375, 6)
    expect(heightOf(untold, 'frontLeft', 'groundToChassis')).toMatchObject({ assumed: ['depth'] })
  })

  it('motion blur shows along the path for marks by hand, hardly at all across', () => {
    const slope = 0.2
    const ground = [mark('ground', 100, 500), mark('ground', 900, 500)]
    const at = (snapped: boolean) => still(
      [...SCALE, ...ground, carMark('chassis', 500, 260, { snapped })], { exposureS: 0.001, speedMs: 6 },
    )
    // 6 mm of smear, 0.02 rad of path direction.
    expect(standardUncertainty(height(at(true)))).toBeCloseTo((6 / Math.sqrt(12)) * 0.02, 6)
    expect(cameraBudget(height(at(true)))[0]).toMatchObject({ part: 'blur' })
    expect(slope).toBeGreaterThan(0)
  })

  it('a camera not quite square counts by how far the marks are from the scale', () => {
    const picture = still([...base, carMark('chassis', 900, 260)], { tiltURad: 0.02 })
    // 750 px to the side and 60 px down; 1000 mm off at 0.5 mm per px makes a focal length of 2000 px; the squared
    // tilt is the difference of foreshortening.
    const expected = 120 * Math.hypot(0.02 * 750 / 2000, 0.02 * 60 / 2000, 0.02 ** 2)
    expect(standardUncertainty(height(picture))).toBeCloseTo(expected, 6)
  })

  it('a lens nobody told of is assumed and said, smaller once the kind of camera is told, least once given', () => {
    const marks = [...base, carMark('chassis', 900, 60)]
    const unknown = still(marks, { lensK1: null })
    const phone = still(marks, { lensK1: null, cameraKind: 'phoneMain' })
    const webcam = still(marks, { lensK1: null, cameraKind: 'webcam' })
    const given = still(marks, { lensK1: { value: 0, u: 0.001 }, cameraKind: 'phoneMain' })
    expect(heightOf(unknown, 'frontLeft', 'groundToChassis')).toMatchObject({ assumed: ['lensUnknown'] })
    expect(heightOf(phone, 'frontLeft', 'groundToChassis')).toMatchObject({ assumed: ['lens'] })
    const [least, small, wide, widest] = [given, phone, webcam, unknown].map(
      (each) => standardUncertainty(height(each)))
    expect(least).toBeLessThan(small!)
    expect(small).toBeLessThan(wide!)
    expect(wide).toBeLessThan(widest!)
  })
})

describe('a drop between two pictures', () => {
  const scale = { kind: 'length', lengthMm: { value: 50, u: 0.25 }, distances: null } as const
  const shot = (id: string, y: number, setupId?: string) => still(
    [...SCALE, ...GROUND, carMark('chassis', 400, y)], { id, scale, ...(setupId ? { setupId } : {}) },
  )

  it('of one set-up keeps only the drop\'s share of the scale error', () => {
    const drop = dropBetween(height(shot('a', 260, 'bench')), height(shot('b', 268, 'bench')))
    expect(drop.value).toBeCloseTo(4, 10)
    expect(standardUncertainty(drop)).toBeCloseTo(4 * 0.25 / 50, 8)
  })

  it('of two set-ups carries both scale errors', () => {
    const drop = dropBetween(height(shot('a', 260)), height(shot('b', 268)))
    expect(standardUncertainty(drop)).toBeCloseTo(Math.hypot(120, 116) * 0.25 / 50, 8)
  })

  it('keeps what is shared through the stored readings', () => {
    const pictures = [shot('a', 260, 'bench'), shot('b', 268, 'bench')].map((picture) => ({
      ...picture, marks: picture.marks.map((each) => ({ ...each, uPx: each.role === 'chassis' ? 0.2 : 0.1 })),
    }))
    const heights = pictures.map((picture) => height(picture))
    const stored = heights.map((each, i) => {
      return readingSourceOf(each, `p${i}`, pictures[i]!.marks.filter(({ role }) => role === 'chassis'))
    })
    for (const each of stored) expect(readingSource.safeParse(each).success).toBe(true)
    const [a, b] = stored
    const shared = a!.shared!.reduce((sum, { source, contributionMm }) => {
      const other = b!.shared!.find((each) => each.source === source)
      return sum + (contributionMm - (other?.contributionMm ?? 0)) ** 2
    }, 0)
    expect(shared + a!.uMm ** 2 + b!.uMm ** 2).toBeCloseTo(variance(dropBetween(heights[0]!, heights[1]!)), 8)
  })
})

describe('repeated marks', () => {
  it('average to their mean with the pooled u of the mean', () => {
    const { at, uPx, dof } = averageMarks([{ x: 10, y: 20 }, { x: 10.4, y: 20.2 }, { x: 10.2, y: 19.8 }])
    expect(at.x).toBeCloseTo(10.2, 12)
    expect(at.y).toBeCloseTo(20, 12)
    // Pooled: (0.04 + 0.04 + 0 + 0 + 0.04 + 0.04) / 4 = 0.04; mean of three; with the nudging step.
    expect(uPx).toBeCloseTo(Math.hypot(0.2 / Math.sqrt(3), 0.1 / Math.sqrt(12)), 12)
    expect(dof).toBe(4)
    expect(() => averageMarks([])).toThrow(RangeError)
  })

  it('bring their degrees of freedom into the height', () => {
    const repeats = [[0, 0], [0.4, 0.2], [0.2, -0.2]].map(([x, y]) => ({ xPx: 400 + x!, yPx: 260 + y! }))
    const picture = still([...SCALE, ...GROUND, carMark('chassis', 400.2, 260, { repeats, uPx: 0.12 })])
    expect(effectiveDof(height(picture))).toBeCloseTo(4, 6)
  })
})
