/**
 * How a blown car is held. Its drag D, at whatever height it acts, is met on the road by its tyres at
 * the ground. A line that pulls with T from a hook at height h, falling by an angle g to its anchor, adds
 * T cos g h / L to the front axle and takes it off the rear one, and adds T sin g at the hook (moments
 * about the axle lines, exact statics). Wheels that turn freely against chocks are pushed through their
 * hubs: a level line at hub height. Taken off where the pull was read; a part of the budget where not.
 */
import { wheelbase } from '@core/chassis'
import { remark, type Remark } from '@core/remark'
import type { Axle, BlowerRun, Chassis, Holding, Measured } from '@core/schema'
import {
  combine, entered, exact, fromSource, known, minus, over, plus, scaled, sum, times, type Uncertain,
} from '@core/uncertainty'
import { fingerprint } from './fingerprint'

/** What the holding put on the axles beyond what the road would, N: zero with a part where it is not known. */
export interface HoldingLoad {
  readonly axlesN: Readonly<Record<Axle, Uncertain>>
  readonly remarks: readonly Remark[]
}

/**
 * What a car is taken to be where nobody measured it: CdA lies anywhere up to this share of the front
 * track squared (a scale touring car has a third to a half of it), and up to that share of it more by a
 * device; a hook anywhere up to this share of the track high, at the front axle line give or take a fifth
 * of the wheelbase; a line level within 3 degrees. Common practice, no source.
 */
const MOST_CDA_SHARE = 0.5
const DEVICE_SHARE = 1 / 3
const MOST_HOOK_SHARE = 0.3
const HOOK_U_SHARE = 0.2
const LEVEL_LINE: Measured = { value: 0, u: 3 }

const NOTHING = { front: exact(0), rear: exact(0) }

/** A line's pull along the road, N, + against the stream, and towards it, + presses the car down. */
export interface LinePull { readonly alongN: Uncertain; readonly downN: Uncertain }

/**
 * The pull of the line that held a run, split by its slope; level within 3 degrees where that was not measured.
 * Its sources are those of `holdingLoad`. Null where no line held the car, or its pull was not read.
 */
export function linePull(run: BlowerRun, chassis: Chassis, sessionId: string): LinePull | null {
  const { held } = run
  if (held?.how !== 'line' || !held.pullN) return null
  const pullN = pullOf(run.id, held.pullN)
  const fall = fallRad(describedLine(held, chassis), sessionId)
  const [cosine, sine] = [Math.cos(fall.value), Math.sin(fall.value)]
  return {
    alongN: combine(pullN.value * cosine, [[pullN, cosine], [fall, -pullN.value * sine]]),
    downN: combine(pullN.value * sine, [[pullN, sine], [fall, pullN.value * cosine]]),
  }
}

const pullOf = (runId: string, pullN: Measured): Uncertain => entered(pullN, 'linePull', `run:${runId}:pull`)

/** A line by its measures, or by what is usual of those that were not taken; chocked hubs are one, too. */
interface Line { readonly heightMm: Measured; readonly xMm: Measured; readonly fallDeg: Measured }

/**
 * @param pressurePa dynamic pressure of the run; null where its speed is not known
 * @param sessionId runs of one session are held by the same line unless it is described otherwise
 */
export function holdingLoad(
  run: BlowerRun, chassis: Chassis, pressurePa: Uncertain | null, sessionId: string,
): HoldingLoad {
  const { held } = run
  if (held?.how === 'wheelsLocked') return { axlesN: NOTHING, remarks: [] }
  const line = held ? lineOf(held, chassis) : null
  if (line && held?.how === 'line' && held.pullN) {
    const axlesN = lineLoad(line, pullOf(run.id, held.pullN), chassis, sessionId)
    const values = { frontN: axlesN.front.value, rearN: axlesN.rear.value }
    return { axlesN, remarks: [remark('lineTakenOff', values)] }
  }
  const said = !line ? remark('holdingUnknown')
    : remark(held?.how === 'line' ? 'linePullUnknown' : 'heldByHubs')
  if (!pressurePa) return { axlesN: NOTHING, remarks: [said, remark('holdingNotCounted')] }
  const drags = dragParts(run, chassis, pressurePa.value)
  const axlesN = line ? byKnownLine(line, drags, chassis) : byUnknownLine(drags, chassis, sessionId)
  return { axlesN, remarks: [said] }
}

/** Null where its height is not known: then next to nothing is. */
function lineOf(held: Exclude<Holding, { how: 'wheelsLocked' }>, chassis: Chassis): Line | null {
  if (held.how === 'wheelsFree') {
    return held.hubHeightMm && { heightMm: held.hubHeightMm, xMm: atAxle(chassis), fallDeg: { value: 0, u: 0 } }
  }
  const { heightMm, ...rest } = describedLine(held, chassis)
  return heightMm && { heightMm, ...rest }
}

type DescribedLine = Omit<Line, 'heightMm'> & { readonly heightMm: Measured | null }

const describedLine = (
  { hookHeightMm, hookXMm, fallDeg }: Extract<Holding, { how: 'line' }>, chassis: Chassis,
): DescribedLine => ({ heightMm: hookHeightMm, xMm: hookXMm ?? atAxle(chassis), fallDeg: fallDeg ?? LEVEL_LINE })

const atAxle = ({ wheelbaseMm }: Chassis): Measured => ({ value: 0, u: HOOK_U_SHARE * wheelbaseMm.value })

/** One measure of a line: shared by all runs of a session that describe their line alike. */
const measureOf = (line: DescribedLine, key: keyof Line, measure: Measured, sessionId: string): Uncertain =>
  entered(measure, 'line', `holding:${sessionId}:${fingerprint(line)}:${key}`)

const fallRad = (line: DescribedLine, sessionId: string): Uncertain =>
  scaled(measureOf(line, 'fallDeg', line.fallDeg, sessionId), Math.PI / 180)

/** The line's own load by its pull, height and slope. */
function lineLoad(line: Line, pullN: Uncertain, chassis: Chassis, sessionId: string): Record<Axle, Uncertain> {
  const length = wheelbase(chassis)
  const of = (key: keyof Line) => measureOf(line, key, line[key], sessionId)
  const fall = fallRad(line, sessionId)
  const [height, x] = [of('heightMm'), of('xMm')]
  const [cosine, sine] = [Math.cos(fall.value), Math.sin(fall.value)]
  const lever = (cosine * height.value) / length.value
  const down = pullN.value * sine
  const moment = combine(pullN.value * lever, [
    [pullN, lever], [height, (pullN.value * cosine) / length.value],
    [fall, (-down * height.value) / length.value], [length, (-pullN.value * lever) / length.value],
  ])
  const rearShare = over(x, length)
  const pulled = combine(down, [[pullN, sine], [fall, pullN.value * cosine]])
  const onRear = times(pulled, rearShare)
  return { front: plus(moment, minus(pulled, onRear)), rear: minus(onRear, moment) }
}

interface DragPart { readonly name: string; readonly mostN: number }

/** The body's drag, shared by every run and so taken off with the control run, and the device's own. */
function dragParts(run: BlowerRun, chassis: Chassis, pressurePa: number): DragPart[] {
  const bodyN = MOST_CDA_SHARE * (chassis.trackMm.front / 1000) ** 2 * pressurePa
  const body = { name: 'body', mostN: bodyN }
  return run.control ? [body] : [body, { name: `device:${run.configurationId}`, mostN: DEVICE_SHARE * bodyN }]
}

const part = (id: string, u: number): Uncertain => fromSource(0, u, known('unreadDrag', id))

/** Where the line is told and the drag is not: the drag lies anywhere up to the most, u = most / sqrt(3). */
function byKnownLine(
  { heightMm, xMm, fallDeg }: Line, drags: readonly DragPart[], chassis: Chassis,
): Record<Axle, Uncertain> {
  const length = chassis.wheelbaseMm.value
  const slope = Math.tan((fallDeg.value * Math.PI) / 180)
  const drag = sum(drags.map(({ name, mostN }) => part(`drag:${name}`, mostN / Math.sqrt(3))))
  return {
    front: scaled(drag, heightMm.value / length + slope * (1 - xMm.value / length)),
    rear: scaled(drag, -heightMm.value / length + (slope * xMm.value) / length),
  }
}

/** Where neither is told: both lie anywhere up to the most, so their product has u = most / 3. The hook is in front. */
function byUnknownLine(drags: readonly DragPart[], chassis: Chassis, sessionId: string): Record<Axle, Uncertain> {
  const reach = (MOST_HOOK_SHARE * chassis.trackMm.front) / chassis.wheelbaseMm.value
  const slopeU = Math.tan((LEVEL_LINE.u * Math.PI) / 180)
  const ofAll = (of: string, share: number): Uncertain =>
    sum(drags.map(({ name, mostN }) => part(`holding:${sessionId}:${of}:${name}`, mostN * share)))
  const moment = ofAll('moment', reach / 3)
  return { front: plus(moment, ofAll('slope', slopeU / Math.sqrt(3))), rear: scaled(moment, -1) }
}
