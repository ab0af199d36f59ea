/**
 * A course out of a log: where the path turns is told by the yaw rate w, or by the lateral acceleration a = w V;
 * its curvature is w / V. A corner is a stretch in which the car is pressed sideways; its radius is that of its
 * tightest part, its turn the whole angle the path turns by. The length that such an arc leaves over belongs to the
 * straights beside it, so that length and angle of the lap stay what was driven.
 */
import type { Segment } from './types'

/** A log of driving, one value for each moment; whichever of the two ways of turning was logged. */
export interface CourseLog {
  /** Rising moments, s. */
  readonly tS: ArrayLike<number>
  /** Speeds, m/s. */
  readonly vMs: ArrayLike<number>
  /** Lateral acceleration, m/s2, or yaw rate, rad/s; either sign, one for each way round. */
  readonly turning: ArrayLike<number>
  readonly kind: 'lateral' | 'yawRate'
}

export interface CourseFound {
  /** One lap, beginning with a straight where there is one. */
  readonly segments: readonly Segment[]
  /** The part of the log it was taken from, s. */
  readonly fromS: number
  readonly toS: number
  /** False where the log does not come round again: all of it is then taken as one lap. */
  readonly repeats: boolean
  /** Sum of all turns, degrees, left positive as logged: a closed course without crossing turns by 360. */
  readonly turnDeg: number
}

/** Why a log tells no course. */
export type NoCourse = 'tooShort' | 'noCorner'

/** Means are taken over so long, s. */
const SMOOTH_S = 0.3
/** Slower than this the car stands or manoeuvres: its path tells nothing, but what the sensor shows is its zero. */
const STANDS_MS = 0.3
const SLOWEST_MS = 1
/** Step along the path, m. */
const STEP_M = 0.25
/** Where the car is pressed sideways by less than this share of what is usual in its corners it drives straight. */
const ENTERS = 0.2
const LEAVES = 0.1
/** A corner's tight part: curvature of at least this share of its largest. */
const TIGHT = 0.8
/** Smaller turns are the driver's hand, not the course. */
const LEAST_TURN_DEG = 8
const SHORTEST_STRAIGHT_M = 0.5
/** Shortest lap that is looked for, m, and how well the path must fit itself one lap on. */
const SHORTEST_LAP_M = 8
const FITS = 0.6
/** How far the heading may be from whole turns after a lap: scale and zero of a sensor, over one lap. */
const HEADING_SLACK = Math.PI / 4

/** The path by steps of equal length. */
interface Steps {
  readonly tS: Float64Array
  readonly curvature: Float64Array
  readonly lateral: Float64Array
}

/** Finds a course. Moments at which the car stands give the sensor's zero; without any it is taken as right. */
export function courseFromLog(log: CourseLog): CourseFound | { readonly none: NoCourse } {
  const steps = stepsOf(log)
  if (!steps || steps.tS.length * STEP_M < SHORTEST_LAP_M) return { none: 'tooShort' }
  const corners = cornersOf(steps)
  if (corners.length === 0) return { none: 'noCorner' }
  const lap = lapSteps(steps)
  const from = lap === null ? 0 : startOf(corners, lap, steps.tS.length)
  const to = lap === null ? steps.tS.length : from + lap
  const inLap = corners.filter(({ from: a, to: b }) => a >= from && b <= to)
  if (inLap.length === 0) return { none: 'noCorner' }
  return {
    segments: segmentsOf(inLap, from, to), fromS: steps.tS[from]!, toS: steps.tS[Math.min(to, steps.tS.length - 1)]!,
    repeats: lap !== null, turnDeg: inLap.reduce((sum, { turn }) => sum + turn, 0) * (180 / Math.PI),
  }
}

/** Smoothed, freed of the sensor's zero, and taken along the path; null where the car hardly drives. */
function stepsOf({ tS, vMs, turning, kind }: CourseLog): Steps | null {
  const standing: number[] = []
  for (let i = 0; i < tS.length; i++) if (vMs[i]! < STANDS_MS) standing.push(turning[i]!)
  const zero = standing.length > 0 ? standing.reduce((sum, each) => sum + each, 0) / standing.length : 0
  const [speed, turn] = [meanOver(tS, vMs), meanOver(tS, turning)]
  const [times, curvatures, laterals]: number[][] = [[], [], []]
  let left = 0
  for (let i = 1; i < tS.length; i++) {
    const v = (speed[i]! + speed[i - 1]!) / 2
    if (v < SLOWEST_MS) continue
    const mean = (turn[i]! + turn[i - 1]!) / 2 - zero
    const curvature = kind === 'lateral' ? mean / (v * v) : mean / v
    const length = v * (tS[i]! - tS[i - 1]!)
    for (left += length; left >= STEP_M; left -= STEP_M) {
      times!.push(tS[i]!)
      curvatures!.push(curvature)
      laterals!.push(curvature * v * v)
    }
  }
  return times!.length < 2 ? null : {
    tS: Float64Array.from(times!), curvature: Float64Array.from(curvatures!), lateral: Float64Array.from(laterals!),
  }
}

function meanOver(tS: ArrayLike<number>, values: ArrayLike<number>): Float64Array {
  const out = new Float64Array(tS.length)
  let [low, high, sum] = [0, 0, 0]
  for (let i = 0; i < tS.length; i++) {
    for (; high < tS.length && tS[high]! <= tS[i]! + SMOOTH_S / 2; high++) sum += values[high]!
    for (; tS[low]! < tS[i]! - SMOOTH_S / 2; low++) sum -= values[low]!
    out[i] = sum / (high - low)
  }
  return out
}

/** A corner by its first and one past its last step, its tight part's radius, and the angle it turns by. */
interface Corner {
  readonly from: number
  readonly to: number
  readonly radiusM: number
  readonly turn: number
}

function cornersOf({ curvature, lateral }: Steps): Corner[] {
  const usual = shareOf(lateral.map(Math.abs), 0.9)
  const found: Corner[] = []
  for (let i = 0; i < lateral.length; i++) {
    if (Math.abs(lateral[i]!) < ENTERS * usual) continue
    const sign = Math.sign(lateral[i]!)
    let [from, to] = [i, i + 1]
    while (from > 0 && lateral[from - 1]! * sign >= LEAVES * usual) from--
    while (to < lateral.length && lateral[to]! * sign >= LEAVES * usual) to++
    const corner = cornerOf(curvature, from, to)
    if (Math.abs(corner.turn) * (180 / Math.PI) >= LEAST_TURN_DEG) found.push(corner)
    i = to - 1
  }
  return found
}

function cornerOf(curvature: Float64Array, from: number, to: number): Corner {
  const own = curvature.slice(from, to)
  const most = shareOf(own.map(Math.abs), 0.9)
  const tight = own.filter((each) => Math.abs(each) >= TIGHT * most)
  return {
    from, to, radiusM: tight.length / Math.abs(tight.reduce((sum, each) => sum + each, 0)),
    turn: STEP_M * own.reduce((sum, each) => sum + each, 0),
  }
}

/** The value below which a share of all lies. */
function shareOf(values: Float64Array, share: number): number {
  const sorted = values.slice().sort()
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!
}

/**
 * Steps after which the path comes round again: the first peak of its curvature's correlation with itself at which
 * the heading has made whole turns. Null where there is none.
 */
function lapSteps({ curvature }: Steps): number | null {
  const n = curvature.length
  const heading = new Float64Array(n + 1)
  for (let i = 0; i < n; i++) heading[i + 1] = heading[i]! + STEP_M * curvature[i]!
  const least = Math.ceil(SHORTEST_LAP_M / STEP_M)
  const most = Math.floor((2 * n) / 3)
  const alike = Array.from({ length: Math.max(0, most - least) }, (_, k) => likeness(curvature, least + k))
  const best = alike.reduce((top, each) => Math.max(top, each), 0)
  for (let k = 1; k < alike.length - 1; k++) {
    const each = alike[k]!
    if (each < FITS || each < 0.85 * best || each < alike[k - 1]! || each < alike[k + 1]!) continue
    const lag = least + k
    let turned = 0
    for (let i = 0; i + lag <= n; i++) turned += heading[i + lag]! - heading[i]!
    turned /= n - lag + 1
    if (Math.abs(turned - 2 * Math.PI * Math.round(turned / (2 * Math.PI))) <= HEADING_SLACK) return lag
  }
  return null
}

/** Correlation of the curvature with itself so many steps on. */
function likeness(curvature: Float64Array, lag: number): number {
  let [both, one, other] = [0, 0, 0]
  for (let i = 0; i + lag < curvature.length; i++) {
    const [a, b] = [curvature[i]!, curvature[i + lag]!]
    both += a * b
    one += a * a
    other += b * b
  }
  return one > 0 && other > 0 ? both / Math.sqrt(one * other) : 0
}

/** A lap begins where a corner has ended, the straight after it being the longest; from the log's middle lap. */
function startOf(corners: readonly Corner[], lap: number, count: number): number {
  const last = count - lap
  const ends = corners.flatMap(({ to }, i) =>
    (to <= last ? [{ to, straight: (corners[i + 1]?.from ?? to) - to }] : []))
  const longest = Math.max(...ends.map(({ straight }) => straight))
  const good = ends.filter(({ straight }) => straight >= 0.9 * longest)
  return good[Math.floor((good.length - 1) / 2)]?.to ?? 0
}

/** Corners as arcs, and straights with what the arcs leave over; a course is closed, so its end joins its beginning. */
function segmentsOf(corners: readonly Corner[], from: number, to: number): Segment[] {
  const segments: Segment[] = []
  const leftOver = corners.map((each) => STEP_M * (each.to - each.from) - arcM(each))
  const beside = (i: number): number => leftOver[(i + corners.length) % corners.length]! / 2
  corners.forEach((corner, i) => {
    const gap = i > 0 ? corner.from - corners[i - 1]!.to : corner.from - from + (to - corners.at(-1)!.to)
    const lengthM = STEP_M * gap + beside(i) + beside(i - 1)
    if (lengthM >= SHORTEST_STRAIGHT_M) segments.push({ id: `piece-${segments.length + 1}`, kind: 'straight', lengthM })
    segments.push({
      id: `piece-${segments.length + 1}`, kind: 'corner', radiusM: corner.radiusM,
      turnDeg: Math.abs(corner.turn) * (180 / Math.PI),
    })
  })
  return segments
}

const arcM = ({ radiusM, turn }: Corner): number => radiusM * Math.abs(turn)
