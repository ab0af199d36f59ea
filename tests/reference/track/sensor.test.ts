/**
 * Six-position test with a known answer, and its least squares against numpy.linalg.lstsq (numpy 2.4),
 * computed once from the figures below, which were drawn from a sensor of known gains and biases.
 */
import { describe, expect, it } from 'vitest'
import type { Accelerometer, Face } from '@core/schema'
import { FACES } from '@core/schema'
import { calibrateSensor, circleFactor, gravityAlong, nextFace, slalomFactor, type SensorCalibration } from '@core/track'
import { exact, standardUncertainty } from '@core/uncertainty'

const G = exact(9.80665)
type Test = NonNullable<Accelerometer['sixPositions']>
const testOf = (rows: readonly (readonly [Face, readonly number[]])[], levelUDeg = 0.3): Test => ({
  at: '2031-05-04T09:30:00.000Z', levelUDeg, temperatureK: null,
  readings: rows.map(([up, [x, y, z]], i) => ({ id: `r-${i}`, up, shownMs2: { x: x!, y: y!, z: z! }, setAside: null })),
})
function calibrated(test: Test): SensorCalibration {
  const found = calibrateSensor({ id: 'phone' }, test, G)
  if ('missing' in found) throw new Error(found.missing.join())
  return found
}

/** Two readings of each face: x up twice, x down twice, and so on. */
const DRAWN = [
  [10.028, -0.187, 0.016], [10.053, -0.138, 0.023], [-9.815, -0.215, 0.154], [-9.772, -0.194, 0.114],
  [0.14, 9.57, 0.094], [0.125, 9.537, 0.067], [0.068, -9.908, 0.056], [0.092, -9.9, 0.058],
  [0.099, -0.114, 9.893], [0.085, -0.151, 9.922], [0.124, -0.229, -9.767], [0.143, -0.25, -9.774],
]
/** numpy: bias, then the three gains of each axis. */
const NUMPY = [
  [0.11416666666666614, 1.0112525684102116, 0.0026767550590670614, -0.002115911141929195],
  [-0.18158333333333337, 0.002141404047253643, 0.992056410700902, 0.005455481739431917],
  [0.07133333333333344, -0.005837875319298649, 0.0011981665502490658, 1.0032987819489836],
]

describe('six positions', () => {
  it('give back scale 1.012, 0.991, 1.004 and bias 0.12, -0.18, 0.08 m/s2 exactly (closed form)', () => {
    const [gain, bias] = [[1.012, 0.991, 1.004], [0.12, -0.18, 0.08]]
    const rows = FACES.map((face) =>
      [face, gravityAlong(face, G.value).map((g, axis) => gain[axis]! * g + bias[axis]!)] as const)
    const { matrix, biasMs2, correction } = calibrated(testOf(rows, 0))
    for (const axis of [0, 1, 2]) {
      expect(matrix[axis]![axis]!.value).toBeCloseTo(gain[axis]!, 12)
      expect(biasMs2[axis]!.value).toBeCloseTo(bias[axis]!, 12)
      expect(correction.matrix[axis]![axis]!).toBeCloseTo(1 / gain[axis]!, 12)
    }
  })

  it('are the least squares of numpy, twelve unknowns', () => {
    const { matrix, biasMs2 } = calibrated(testOf(DRAWN.map((row, i) => [FACES[Math.floor(i / 2)]!, row])))
    NUMPY.forEach(([bias, ...gains], axis) => {
      expect(biasMs2[axis]!.value).toBeCloseTo(bias!, 10)
      gains.forEach((gain, other) => expect(matrix[axis]![other]!.value).toBeCloseTo(gain, 10))
    })
  })

  it('let a face that is not level into the cross terms, hardly into the gains', () => {
    const rows = DRAWN.map((row, i) => [FACES[Math.floor(i / 2)]!, row] as const)
    const [level, lean] = [calibrated(testOf(rows, 0)), calibrated(testOf(rows, 1))]
    const u = (of: SensorCalibration, a: number, b: number) => standardUncertainty(of.matrix[a]![b]!)
    expect(u(lean, 0, 1) ** 2 - u(level, 0, 1) ** 2).toBeCloseTo(Math.sin(Math.PI / 180) ** 2 / 2, 8)
    expect(u(lean, 0, 0) - u(level, 0, 0)).toBeLessThan(3e-4)
  })

  it('ask for the faces that are missing, one after the other', () => {
    const test = testOf([['zUp', [0, 0, 9.8]], ['xUp', [9.8, 0, 0]]])
    expect(calibrateSensor({ id: 'phone' }, test, G)).toEqual({ missing: ['xDown', 'yUp', 'yDown', 'zDown'] })
    expect(nextFace(test)).toBe('xDown')
  })

  it('find a reading of a face that lay otherwise', () => {
    const rows = DRAWN.map((row, i) => [FACES[Math.floor(i / 2)]!, i === 4 || i === 5 ? [1.5, 9.4, 0.1] : row] as const)
    const { pValue, misfits } = calibrated(testOf(rows))
    expect(pValue).toBeLessThan(0.001)
    expect(['yUp', 'yDown']).toContain(misfits[0]!.face)
  })
})

describe('where the sensor sits', () => {
  it('20 mm to the right on a circle of 2 m: 1 % less turning right, 1 % more turning left (closed form)', () => {
    const place = { rightMm: { value: 20, u: 2 } }
    expect(1 / circleFactor('a', place, 2, 'right').value).toBeCloseTo(0.99, 12)
    expect(1 / circleFactor('a', place, 2, 'left').value).toBeCloseTo(1.01, 12)
    const untold = circleFactor('a', place, 2, null)
    expect([untold.value, standardUncertainty(untold)]).toEqual([1, Math.hypot(0.01, 0.001)])
  })

  it('50 mm ahead between cones 1 m apart: 1.2 % more (closed form)', () => {
    expect(1 / slalomFactor('a', { aheadMm: { value: 50, u: 0 } }, 1).value)
      .toBeCloseTo(Math.sqrt(1 + (0.05 * Math.PI) ** 2), 12)
  })
})
