/** Four stations to the motion of a rigid chassis, and loads to axles and corners. */
import { chassisMotion, coordinate, placedForces, staticLoads, stationWeights, type CornerDrops } from '@core/chassis'
import { CORNERS, type Chassis, type Corner } from '@core/schema'
import { exact, known, standardUncertainty, type Uncertain } from '@core/uncertainty'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { car } from './car'

const drop = (value: number, u: number, id: string): Uncertain => ({
  value,
  parts: [{ source: known('readingRounding', id), contribution: u }],
})

/** Drops of a plane over the stations, each with its own u. */
const plane = (chassis: Chassis, heave: number, pitch: number, roll: number, u = 0.1): CornerDrops =>
  Object.fromEntries(CORNERS.map((corner) => {
    const { xMm, yMm } = chassis.stations[corner]
    return [corner, drop(heave + pitch * xMm + roll * yMm, u, corner)]
  }))

/** A car as wide behind as before. */
const square = car({
  stations: { ...car().stations, rearLeft: { xMm: 260, yMm: -80 }, rearRight: { xMm: 260, yMm: 80 } },
})

const odd: Chassis = car({
  stations: {
    frontLeft: { xMm: -20, yMm: -70 }, frontRight: { xMm: 15, yMm: 60 },
    rearLeft: { xMm: 240, yMm: -50 }, rearRight: { xMm: 275, yMm: 80 },
  },
})

describe('stations to axle lines', () => {
  it('finds any plane again, wherever the stations are', () => {
    fc.assert(fc.property(
      fc.double({ min: -5, max: 5, noNaN: true }), fc.double({ min: -0.02, max: 0.02, noNaN: true }),
      fc.double({ min: -0.02, max: 0.02, noNaN: true }), fc.constantFrom(car(), odd),
      (heave, pitch, roll, chassis) => {
        const motion = chassisMotion(chassis, plane(chassis, heave, pitch, roll))
        expect(motion.axles.front!.value).toBeCloseTo(heave, 9)
        expect(motion.axles.rear!.value).toBeCloseTo(heave + pitch * 260, 9)
        expect(motion.heaveMm!.value).toBeCloseTo(heave + pitch * 130, 9)
        expect(motion.pitchRad!.value).toBeCloseTo(pitch, 11)
        expect(motion.rollRad!.value).toBeCloseTo(roll, 11)
        expect(motion.twistMm!.value).toBeCloseTo(0, 9)
      },
    ))
  })

  it('averages the two corners of an axle line in the middle: u falls by the root of two', () => {
    const { axles } = chassisMotion(square, plane(square, 1, 0, 0))
    expect(standardUncertainty(axles.front!)).toBeCloseTo(0.1 / Math.SQRT2, 3)
  })

  it('shows one corner misread by 0.4 mm as a twist of 0.4 mm, whichever corner it is', () => {
    for (const corner of CORNERS) {
      const drops = plane(square, 1, 0, 0)
      const off = { ...drops, [corner]: drop(drops[corner]!.value + 0.4, 0.1, corner) }
      expect(Math.abs(chassisMotion(square, off).twistMm!.value)).toBeCloseTo(0.4, 9)
    }
  })

  it('does with three corners, without a twist', () => {
    const { frontLeft, frontRight, rearLeft } = plane(odd, 1, 0.01, 0.005)
    const motion = chassisMotion(odd, { frontLeft: frontLeft!, frontRight: frontRight!, rearLeft: rearLeft! })
    expect(motion.axles.rear!.value).toBeCloseTo(1 + 2.6, 9)
    expect(motion.twistMm).toBeNull()
  })

  it('tells one axle from its own two corners where they lie on its line, and no more', () => {
    const { frontLeft, frontRight } = plane(car(), 1.5, 0, 0)
    const motion = chassisMotion(car(), { frontLeft: frontLeft!, frontRight: frontRight! })
    expect(motion.axles.front!.value).toBeCloseTo(1.5, 12)
    expect(motion.axles.rear).toBeNull()
    expect(motion.pitchRad).toBeNull()
  })

  it('tells nothing from no reading', () => {
    expect(Object.values(chassisMotion(car(), {})).flatMap((each) =>
      (each && 'front' in each ? [each.front, each.rear] : [each]))).toEqual([null, null, null, null, null, null])
  })

  it('has mirrored factors on a mirrored car', () => {
    const mirrored = car({
      stations: {
        frontLeft: { xMm: 15, yMm: -60 }, frontRight: { xMm: -20, yMm: 70 },
        rearLeft: { xMm: 275, yMm: -80 }, rearRight: { xMm: 240, yMm: 50 },
      },
    })
    const swap: Record<Corner, Corner> = {
      frontLeft: 'frontRight', frontRight: 'frontLeft', rearLeft: 'rearRight', rearRight: 'rearLeft',
    }
    const one = stationWeights(odd, CORNERS).axles.front!
    const other = stationWeights(mirrored, CORNERS).axles.front!
    for (const corner of CORNERS) expect(other[swap[corner]]).toBeCloseTo(one[corner]!, 9)
  })
})

describe('loads at places', () => {
  const at = (xMm: number, yMm: number, uMm = 2) => placedForces(car(), exact(10), [{
    massKg: exact(1), xMm: coordinate(xMm, uMm, 'place:x'), yMm: coordinate(yMm, uMm, 'place:y'),
  }])

  it('splits by the lever: forces and moments balance', () => {
    fc.assert(fc.property(fc.double({ min: -100, max: 400, noNaN: true }), (x) => {
      const { axles } = at(x, 0)
      expect(axles.front.value + axles.rear.value).toBeCloseTo(10, 9)
      expect(axles.rear.value * 260).toBeCloseTo(10 * x, 7)
    }))
  })

  it('lifts the front with a load behind the rear axle', () => {
    expect(at(390, 0).axles.front.value).toBeCloseTo(-5, 12)
  })

  it('errs in opposite ways on the two axles when the place is off', () => {
    const { axles } = at(130, 0)
    const part = (of: Uncertain) => of.parts.find(({ source }) => source.id === 'place:x')!.contribution
    expect(part(axles.front)).toBeCloseTo((-10 * 2) / 260, 12)
    expect(part(axles.rear)).toBeCloseTo((10 * 2) / 260, 12)
  })

  it('carries the wheelbase: it matters at the rear line, not at the front', () => {
    const wheelbase = (of: Uncertain) => of.parts.find(({ source }) => source.id === 'chassis:wheelbase')?.contribution ?? 0
    expect(wheelbase(at(0, 0).axles.front)).toBeCloseTo(0, 12)
    expect(Math.abs(wheelbase(at(260, 0).axles.rear))).toBeCloseTo((10 * 0.5) / 260, 12)
  })

  it('splits an axle left and right by the lever over its track', () => {
    const { corners, axles } = at(0, 40)
    expect(corners.frontRight.value).toBeCloseTo(10 * 0.75, 12)
    expect(corners.frontLeft.value + corners.frontRight.value).toBeCloseTo(axles.front.value, 12)
  })
})

describe('the car at rest', () => {
  const cornerMassesKg = { frontLeft: 0.3, frontRight: 0.3, rearLeft: 0.45, rearRight: 0.45 }

  it('has its front share, in which gain and gravity cancel', () => {
    const loads = staticLoads(car({ cornerMassesKg }))!
    expect(loads.frontShare.value).toBeCloseTo(0.4, 12)
    expect(loads.leftShare.value).toBeCloseTo(0.5, 12)
    // Only rounding is left: 0.29 g on each corner of 1.5 kg.
    expect(standardUncertainty(loads.frontShare)).toBeLessThan(0.0003)
    expect(standardUncertainty(loads.totalN) / loads.totalN.value).toBeGreaterThan(0.005)
  })

  it('is not exact where the scale is not in the profile', () => {
    const loads = staticLoads(car({ cornerMassesKg, scales: [] }))!
    expect(standardUncertainty(loads.frontShare)).toBeGreaterThan(1e-4)
    expect(standardUncertainty(loads.massKg) / loads.massKg.value).toBeGreaterThan(0.009)
  })

  it('is not told without corner masses', () => expect(staticLoads(car())).toBeNull())
})
