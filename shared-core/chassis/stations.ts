/**
 * Four stations to the motion of a rigid chassis. The drop is a plane over the car,
 * d(x, y) = heave + pitch x + roll y, fitted by least squares to the stations that were read; what
 * the axle lines do is that plane at (0, 0) and (L, 0). Four readings of a plane leave one over: the
 * twist, which only chassis flex or a misread can make.
 */
import { solveSquare } from '@core/linear'
import { CORNERS, type Axle, type Chassis, type Corner } from '@core/schema'
import { combine, type Uncertain } from '@core/uncertainty'

/** Drops of the corners that were read, mm. */
export type CornerDrops = Partial<Readonly<Record<Corner, Uncertain>>>
/** Factor on each corner's drop; corners without a reading are left out. */
export type CornerWeights = Partial<Readonly<Record<Corner, number>>>

/** Factors that turn corner drops into each motion; null where the corners read do not tell it. */
export interface StationWeights {
  /** Drop of the axle lines at the car's middle, mm. */
  readonly axles: Readonly<Record<Axle, CornerWeights | null>>
  /** Drop at mid-wheelbase, mm. */
  readonly heave: CornerWeights | null
  /** Slope towards the rear (+: the rear is lower), rad. */
  readonly pitch: CornerWeights | null
  /** Slope towards the right (+: the right side is lower), rad. */
  readonly roll: CornerWeights | null
  /** How far one corner is off the plane through the other three, mm; only with four readings. */
  readonly twist: CornerWeights | null
}

export interface ChassisMotion {
  readonly axles: Readonly<Record<Axle, Uncertain | null>>
  readonly heaveMm: Uncertain | null
  readonly pitchRad: Uncertain | null
  readonly rollRad: Uncertain | null
  readonly twistMm: Uncertain | null
}

/** The factors for a set of corners that were read. */
export function stationWeights({ stations, wheelbaseMm }: Chassis, read: readonly Corner[]): StationWeights {
  const corners = CORNERS.filter((corner) => read.includes(corner))
  const length = wheelbaseMm.value
  const breadth = Math.max(1, ...corners.map((corner) => Math.abs(stations[corner].yMm)))
  // Columns of comparable size: 1, x/L, y/breadth.
  const rows = corners.map((corner) => [1, stations[corner].xMm / length, stations[corner].yMm / breadth])
  const told = (target: readonly number[]): CornerWeights | null => {
    const weights = weightsFor(rows, target)
    return weights && Object.fromEntries(corners.map((corner, i) => [corner, weights[i]!]))
  }
  return {
    axles: { front: told([1, 0, 0]), rear: told([1, 1, 0]) },
    heave: told([1, 0.5, 0]),
    pitch: told([0, 1 / length, 0]),
    roll: told([0, 0, 1 / breadth]),
    twist: twistWeights(corners, rows),
  }
}

/** The motion of the chassis from corner drops, mm. */
export function chassisMotion(chassis: Chassis, drops: CornerDrops): ChassisMotion {
  const read = CORNERS.filter((corner) => drops[corner] !== undefined)
  const weights = stationWeights(chassis, read)
  const of = (each: CornerWeights | null) => each && weightedDrop(each, drops)
  return {
    axles: { front: of(weights.axles.front), rear: of(weights.axles.rear) },
    heaveMm: of(weights.heave), pitchRad: of(weights.pitch), rollRad: of(weights.roll), twistMm: of(weights.twist),
  }
}

/** Sum of corner drops times their factors. Corners with factor zero need no drop. */
export function weightedDrop(weights: CornerWeights, drops: CornerDrops): Uncertain {
  const terms = CORNERS.flatMap((corner) => {
    const drop = drops[corner]
    return drop && weights[corner] ? [[drop, weights[corner]] as const] : []
  })
  return combine(terms.reduce((total, [drop, weight]) => total + drop.value * weight, 0), terms)
}

/** Least-norm w with A'w = target, which are the least-squares factors; null where A does not tell the target. */
function weightsFor(rows: readonly number[][], target: readonly number[]): number[] | null {
  if (rows.length === 0) return null
  const wide = rows.length <= 3
  // Few rows: w = (A A')^-1 A t. Four rows: w = A (A'A)^-1 t.
  const gram = wide
    ? rows.map((one) => rows.map((other) => dot(one, other)))
    : target.map((_, i) => target.map((__, j) => rows.reduce((total, row) => total + row[i]! * row[j]!, 0)))
  const solution = solveSquare(gram, wide ? rows.map((row) => dot(row, target)) : [...target])
  if (!solution) return null
  const weights = wide ? solution : rows.map((row) => dot(row, solution))
  const missed = (aim: number, j: number) => rows.reduce((total, row, i) => total + row[j]! * weights[i]!, -aim)
  return target.every((aim, j) => Math.abs(missed(aim, j)) < 1e-9 * Math.max(1, Math.abs(aim))) ? weights : null
}

/** The combination of four drops that every plane makes zero, scaled so that its largest factor is 1. */
function twistWeights(corners: readonly Corner[], rows: readonly number[][]): CornerWeights | null {
  if (corners.length < 4) return null
  // Cofactors of the three columns: the vector at right angles to all of them.
  const weights = rows.map((_, skip) => {
    const [a, b, c] = rows.filter((__, i) => i !== skip)
    const sign = skip % 2 === 0 ? 1 : -1
    return sign * determinant(a!, b!, c!)
  })
  const largest = Math.max(...weights.map(Math.abs))
  if (!(largest > 1e-12)) return null
  const scale = Math.sign(weights[0]! || 1) / largest
  return Object.fromEntries(corners.map((corner, i) => [corner, weights[i]! * scale]))
}

const dot = (one: readonly number[], other: readonly number[]): number =>
  one.reduce((total, each, i) => total + each * other[i]!, 0)

const determinant = (a: readonly number[], b: readonly number[], c: readonly number[]): number =>
  a[0]! * (b[1]! * c[2]! - b[2]! * c[1]!) - a[1]! * (b[0]! * c[2]! - b[2]! * c[0]!)
  + a[2]! * (b[0]! * c[1]! - b[1]! * c[0]!)
