/**
 * An acceleration sensor by six positions against gravity: each axis up and down, at rest. Twelve
 * unknowns, shown = M a + b: a gain for each axis, six cross terms, three biases. Each axis of the sensor
 * is a straight line in the three parts of gravity, fitted by least squares (multi-point tumble test of
 * IEEE Std 1293; gravity as the reference of ISO 16063-16).
 *
 * A face that does not lie level leans gravity into the other two axes by its sine, into its own only by
 * the square: the cross terms carry the lean, the gains hardly any.
 */
import { inverseOf } from '@core/linear'
import { FACES, type Accelerometer, type Face } from '@core/schema'
import {
  chiSquareUpper, combine, exact, fromData, fromSource, known, standardUncertainty, type Uncertain,
} from '@core/uncertainty'
import type { SensorCorrection } from '../log/types'

const AXES = ['x', 'y', 'z'] as const
type Triple<T> = readonly [T, T, T]

export interface SensorCalibration {
  /** M, row by row: what each sensor axis shows per unit of acceleration along x, y and z. */
  readonly matrix: Triple<Triple<Uncertain>>
  readonly biasMs2: Triple<Uncertain>
  readonly correction: SensorCorrection
  /** Relative standard uncertainty of a level read with the correction: the worst axis' gain. */
  readonly scaleU: number
  /** Scatter of one reading, m/s2, and what it rests on. */
  readonly scatterMs2: number
  readonly dof: number
  /** Are the twelve unknowns enough? Misfit over what scatter and lean make likely; null where nothing is left over. */
  readonly pValue: number | null
  /** Faces by how far their readings are off the fit, m/s2, the farthest first. */
  readonly misfits: readonly { readonly face: Face; readonly offMs2: number }[]
}

/** A test that is not finished: the faces that have no reading yet. */
export interface SensorUnfinished { readonly missing: readonly Face[] }

type Test = NonNullable<Accelerometer['sixPositions']>

/** What of gravity lies along the sensor's axes with a face up; at rest the sensor shows it upwards. */
export function gravityAlong(face: Face, gravityMs2: number): Triple<number> {
  const [axis, way] = [AXES.findIndex((each) => face.startsWith(each)), face.endsWith('Up') ? 1 : -1]
  return AXES.map((_, index) => (index === axis ? way * gravityMs2 : 0)) as unknown as Triple<number>
}

/** The next face to lay up: the first without a reading, or the one with the fewest. */
export function nextFace(test: Test): Face {
  const count = (face: Face): number => test.readings.filter((each) => !each.setAside && each.up === face).length
  return [...FACES].sort((a, b) => count(a) - count(b))[0]!
}

/**
 * The sensor's twelve unknowns with their shared sources, or the faces that are still missing.
 *
 * @param gravityMs2 local gravity
 */
export function calibrateSensor(
  sensor: Pick<Accelerometer, 'id'>, test: Test, gravityMs2: Uncertain,
): SensorCalibration | SensorUnfinished {
  const used = test.readings.filter((each) => !each.setAside)
  const missing = FACES.filter((face) => used.every((each) => each.up !== face))
  if (missing.length > 0) return { missing }
  const design = used.map(({ up }) => [1, ...gravityAlong(up, gravityMs2.value)])
  const weights = leastSquares(design)
  const plain = AXES.map((axis) => weights.map((row) =>
    row.reduce((sum, each, k) => sum + each * used[k]!.shownMs2[axis], 0)))
  const rests = AXES.map((axis, i) => used.map((each, k) =>
    each.shownMs2[axis] - design[k]!.reduce((sum, x, p) => sum + x * plain[i]![p]!, 0)))
  const { scatterMs2, dof } = scatterOf(used, rests)
  const lean = (test.levelUDeg * Math.PI) / 180
  const parameters = AXES.map((axis, i) => plain[i]!.map((value, p) => combine(value, [
    ...used.map((each, k) => [readingError(sensor.id, each.id, axis, scatterMs2, dof), weights[p]![k]!] as const),
    ...FACES.map((face) => {
      const share = used.reduce((sum, each, k) => (each.up === face ? sum + weights[p]![k]! : sum), 0)
      return [leanError(sensor.id, face, axis, lean, gravityMs2.value), share] as const
    }),
    [gravityMs2, p === 0 ? 0 : -value / gravityMs2.value] as const,
  ])))
  const matrix = parameters.map(([, x, y, z]) => [x!, y!, z!]) as unknown as Triple<Triple<Uncertain>>
  const biasMs2 = parameters.map(([bias]) => bias!) as unknown as Triple<Uncertain>
  const inverse = inverseOf(matrix.map((row) => row.map(({ value }) => value)))
  return {
    matrix, biasMs2, scatterMs2, dof,
    correction: {
      matrix: inverse as unknown as SensorCorrection['matrix'],
      biasMs2: biasMs2.map(({ value }) => value) as unknown as Triple<number>,
    },
    scaleU: Math.max(...AXES.map((_, i) => standardUncertainty(matrix[i]![i]!) / Math.abs(matrix[i]![i]!.value))),
    pValue: misfitP(used, rests, { scatterMs2, lean, gravityMs2: gravityMs2.value }),
    misfits: FACES.map((face) => ({
      face, offMs2: Math.max(...rests.map((own) => Math.abs(meanOver(used, own, face)))),
    })).sort((a, b) => b.offMs2 - a.offMs2),
  }
}

/** Rows of (X'X)^-1 X': each parameter as a sum over the readings. */
function leastSquares(design: readonly (readonly number[])[]): number[][] {
  const four = [0, 1, 2, 3]
  const normal = four.map((a) => four.map((b) => design.reduce((sum, row) => sum + row[a]! * row[b]!, 0)))
  const inverse = inverseOf(normal)
  return inverse.map((row) => design.map((each) => row.reduce((sum, value, b) => sum + value * each[b]!, 0)))
}

type Used = Test['readings']

/** From repeats of a face where there are some, else from what the fit leaves over. */
function scatterOf(used: Used, rests: readonly (readonly number[])[]): { scatterMs2: number; dof: number } {
  const again = used.length - FACES.length
  const square = rests.reduce((sum, own) => sum + own.reduce((total, rest, k) => {
    const off = again > 0 ? rest - meanOver(used, own, used[k]!.up) : rest
    return total + off * off
  }, 0), 0)
  const dof = 3 * (again > 0 ? again : used.length - 4)
  return { scatterMs2: Math.max(Math.sqrt(square / dof), ownU(used)), dof }
}

/** What the noise of the logs leaves of a mean: no luck of few readings makes them better. */
function ownU(used: Used): number {
  const own = used.flatMap(({ log }) => (log ? AXES.map((axis) => log.uMs2[axis] ** 2) : []))
  return own.length === 0 ? 0 : Math.sqrt(own.reduce((sum, each) => sum + each, 0) / own.length)
}

const meanOver = (used: Used, own: readonly number[], face: Face): number => {
  const of = own.filter((_, k) => used[k]!.up === face)
  return of.reduce((sum, each) => sum + each, 0) / of.length
}

const readingError = (sensorId: string, readingId: string, axis: string, u: number, dof: number): Uncertain =>
  fromSource(0, u, fromData('sensorReading', `sensor:${sensorId}:${readingId}:${axis}`, dof, `sensor:${sensorId}`))

/** A face that leans by this much puts g times its sine into the other axes, and half its square out of its own. */
function leanError(sensorId: string, face: Face, axis: string, lean: number, gravityMs2: number): Uncertain {
  const u = face.startsWith(axis) ? gravityMs2 * lean ** 2 : gravityMs2 * Math.sin(lean)
  return u === 0 ? exact(0) : fromSource(0, u, known('sensorLevel', `sensor:${sensorId}:lean:${face}:${axis}`))
}

/** Chance of so much misfit: face means against scatter and lean, two left over for each axis. */
function misfitP(
  used: Used, rests: readonly (readonly number[])[], at: { scatterMs2: number; lean: number; gravityMs2: number },
): number | null {
  if (used.length === FACES.length && at.lean === 0) return null
  let chiSquare = 0
  AXES.forEach((axis, i) => FACES.forEach((face) => {
    const count = used.filter(({ up }) => up === face).length
    const lean = at.gravityMs2 * (face.startsWith(axis) ? at.lean ** 2 : Math.sin(at.lean))
    const square = at.scatterMs2 ** 2 / count + lean ** 2
    if (square > 0) chiSquare += meanOver(used, rests[i]!, face) ** 2 / square
  }))
  return chiSquareUpper(chiSquare, 6)
}
