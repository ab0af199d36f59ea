/** One run: states to drops, drops to loads, and the stream that made them. */
import { implausibleRemark, type Branch, type Calibration, type Settling } from '@core/calibration'
import { groundEffect, perAxleOf, type GroundEffect } from '@core/chassis'
import { remark, type Remark } from '@core/remark'
import { AXLES, type AirflowSession, type AirRun, type Axle, type BlowerRun, type Chassis } from '@core/schema'
import {
  combine, exact, plus, scaled, subtractClaims, addClaims, sum, sumClaims, times, told, untold, valueClaim,
  type Claim, type Uncertain,
} from '@core/uncertainty'
import { readAir } from './air'
import { pitchLoad, tyreEffect, type TyreEffect } from './corrections'
import { groundRemarks, loadOnGround } from './ground'
import { holdingLoad } from './holding'
import { loadFromDrop, type DropToRead } from './load'
import { passFlow, passWeights } from './passes'
import { AS_READ, surplusOf, scatterOf, type PooledScatter, type StateScatter } from './scatter'
import { readStates, type ReadState } from './states'
import { stateSlips } from './stateSlips'
import { readTiming, type PassTiming } from './timing'
import { readTraverse } from './traverse'
import type { AirResult, AxleCurves, AxleLoad, Datum, FlowResult, RunResult, StateDrop, UnreadRun } from './types'

export interface RunContext {
  readonly session: AirflowSession
  readonly chassis: Chassis
  readonly curves: AxleCurves
  /** Where the squat test behind the curves was read; null takes it as read like the run. */
  readonly squatDatum: Datum | null
  /** How the car comes to rest, as the squat test behind the curves showed it; null for as its readings say. */
  readonly settling?: Settling | null
  /** How much more than their readings say the session's states scatter; by default not at all. */
  readonly scatter?: PooledScatter
}

const branchOf = ({ settle }: AirRun): Branch => (settle === 'none' ? 'loading' : 'mid')

/** Reads a run before any control is taken off. */
export function readRun(run: AirRun, context: RunContext): RunResult | UnreadRun {
  const { session, chassis, curves } = context
  const head = { runId: run.id, name: run.name, configurationId: run.configurationId }
  const gauge = chassis.gauges.find(({ id }) => id === run.gaugeId)
  if (!gauge) return { ...head, remarks: [remark('unknownGauge')] }
  const curve = curves.front ?? curves.rear
  const slips = stateSlips(run, chassis, gauge)
  const out = new Set(slips.map(({ reading }) => reading))
  const plausible = out.size > 0 ? { ...run, readings: run.readings.filter((each) => !out.has(each)) } : run
  const { on, driftMm, remarks: found } = readStates(plausible, session, chassis, gauge, curve, context.settling)
  const stateRemarks = [...slips.map(implausibleRemark), ...found]
  if (on.length === 0) return { ...head, remarks: [...stateRemarks, remark('nothingRead')] }

  const air = readAir(run.air, session.id)
  const timings = on.map(({ state }) =>
    state.pass && readTiming(state.pass.timing, session.id, `${run.id}:${state.id}`))
  const weights = run.kind === 'driveBy'
    ? passWeights(on.map(({ state }) => state.pass?.direction ?? null)) : on.map(() => 1 / on.length)
  const states = stateDrops(on, timings, weights)
  const stream = run.kind === 'blower' ? jetFlow(run, context, air) : roadFlow(run, states, air)
  const roadMeanSquare = run.kind === 'driveBy' ? meanSquare(states) : null
  const acceleration = meanAcceleration(states)
  const drops = perAxleOf((axle) => axleDrop(axle, run, context, states, roadMeanSquare))
  const seen = perAxleOf((axle) => on.some(({ state }) => state.touched[axle]))
  const grounded = perAxleOf((axle) => seen[axle] || reachesGround(axle, curves[axle], drops[axle]))
  const effects = perAxleOf((axle) => groundEffect(chassis, axle, grounded))
  const holding = run.kind === 'blower'
    ? holdingLoad(run, chassis, stream.flow?.dynamicPressurePa ?? null, session.id) : null
  const remarks: Remark[] = [...stateRemarks, ...air.remarks, ...stream.remarks, ...(holding?.remarks ?? [])]
  const read = perAxleOf((axle) => {
    const facts = {
      ground: effects[axle], touched: grounded[axle], bySight: seen.front || seen.rear || !grounded[axle],
      driftMm: driftMm[axle], acceleration,
      holdingN: holding?.axlesN[axle] ?? null,
    }
    const found = axleLoad(axle, run, context, drops[axle], facts)
    remarks.push(...found.remarks)
    return found
  })
  if (run.kind === 'driveBy') remarks.push(...pitchRemarks(chassis, acceleration, states))
  remarks.push(...groundRemarks(chassis, seen, grounded, effects))
  const axles = perAxleOf((axle) => read[axle].load)
  const floats = !grounded.front && !grounded.rear
  const total = told(sumClaims(AXLES.map((axle) => (floats ? axles[axle].grossN.claim : read[axle].leastN))))
  return {
    ...head, sessionId: session.id, kind: run.kind, control: run.control,
    setting: run.kind === 'blower' ? run.setting.trim() : '', datum: run.datum, staticDropMm: run.staticDropMm, air,
    flow: stream.flow, states, axles, grossTotalN: total, totalN: total, controlRunIds: [], remarks,
  }
}

function stateDrops(
  on: readonly ReadState[], timings: readonly (PassTiming | null)[], weights: readonly number[],
): StateDrop[] {
  return on.map(({ state, motion }, i) => ({
    stateId: state.id, atS: state.atS, weight: weights[i]!, dropMm: motion.axles, rollRad: motion.rollRad,
    touched: state.touched, speedMs: timings[i]?.speedMs ?? null, direction: state.pass?.direction ?? null,
    accelerationMs2: timings[i]?.accelerationMs2 ?? null,
  }))
}

interface Stream { readonly flow: FlowResult | null; readonly remarks: readonly Remark[] }

function flowOf(
  meanSquareM2S2: Uncertain, air: AirResult, unevenness: number | null, pointCount: number,
): FlowResult | null {
  if (!(meanSquareM2S2.value > 0)) return null
  const speed = Math.sqrt(meanSquareM2S2.value)
  return {
    meanSquareM2S2, speedMs: combine(speed, [[meanSquareM2S2, 0.5 / speed]]),
    dynamicPressurePa: scaled(times(air.densityKgM3, meanSquareM2S2), 0.5), unevenness, pointCount,
  }
}

/** What fixed ground and jet leave out is said with each blower result; it is not in any interval. */
function jetFlow(run: BlowerRun, { session, chassis }: RunContext, air: AirResult): Stream {
  const limits = remark('benchAirNotRoadAir')
  const setting = run.setting.trim()
  const others = session.runs.flatMap((each) => (each.kind === 'blower' && each.id !== run.id && each.setAside === null
    && each.setting.trim() === setting ? [each.traverse] : []))
  const traverse = readTraverse(run.traverse, chassis, session.id, setting, others)
  if (!traverse) return { flow: null, remarks: [limits, remark('noSpeed')] }
  return {
    flow: flowOf(traverse.meanSquareM2S2, air, traverse.unevenness, traverse.pointCount),
    remarks: [limits, ...traverse.remarks],
  }
}

function roadFlow(run: AirRun, states: readonly StateDrop[], air: AirResult): Stream {
  const passes = states.flatMap(({ stateId, direction, speedMs, dropMm }) =>
    (speedMs ? [{ stateId, direction, speedMs, dropMm: bothAxles(dropMm) }] : []))
  if (passes.length < states.length) {
    return { flow: null, remarks: [remark('noSpeed')] }
  }
  const { meanSquareM2S2, remarks } = passFlow(passes, states.map(({ weight }) => weight), run.id)
  return { flow: flowOf(meanSquareM2S2, air, null, passes.length), remarks }
}

const bothAxles = ({ front, rear }: StateDrop['dropMm']): Uncertain | null => (front && rear ? plus(front, rear) : null)

/** Mean square of the road speed; null where a pass has none. */
function meanSquare(states: readonly StateDrop[]): Uncertain | null {
  if (states.some(({ speedMs }) => !speedMs)) return null
  return sum(states.map(({ speedMs, weight }) => scaled(times(speedMs!, speedMs!), weight)))
}

/** Mean acceleration of the passes that tell it, + forwards; null where none does. */
function meanAcceleration(states: readonly StateDrop[]): Uncertain | null {
  const told = states.filter(({ accelerationMs2 }) => accelerationMs2 !== null)
  const total = told.reduce((held, { weight }) => held + weight, 0)
  return total > 0 ? sum(told.map(({ accelerationMs2, weight }) => scaled(accelerationMs2!, weight / total))) : null
}

function pitchRemarks(chassis: Chassis, acceleration: Uncertain | null, states: readonly StateDrop[]): Remark[] {
  if (!acceleration) return [remark('accelerationUnknown')]
  const missing = states.filter(({ accelerationMs2 }) => accelerationMs2 === null).length
  const partly = missing > 0 ? [remark('accelerationPartlyKnown', { passes: missing })] : []
  return pitchLoad(chassis, acceleration) ? partly : [...partly, remark('pitchNotRemoved')]
}

/** An axle's mean drop as it is to be read. */
interface AxleDrop {
  readonly toRead: Omit<DropToRead, 'touched'>
  readonly tyre: TyreEffect
  /** Factor by which the run's states scatter glaringly more than the session's; else 1. */
  readonly factor: number
}

/** Null where the corners read do not tell this axle. */
function axleDrop(
  axle: Axle, run: AirRun, context: RunContext, states: readonly StateDrop[], roadMeanSquare: Uncertain | null,
): AxleDrop | null {
  const drops = states.flatMap(({ dropMm }) => dropMm[axle] ?? [])
  if (drops.length < states.length) return null
  const { mean, factor } = meanDrop(drops, states, run, context)
  const tyre = tyreEffect(context.chassis, axle, run.datum, context.squatDatum, roadMeanSquare)
  const dropMm = tyre.growthMm ? plus(mean, tyre.growthMm) : mean
  const { squashMmPerN } = tyre
  return {
    toRead: { dropMm, staticDropMm: run.staticDropMm[axle], branch: branchOf(run), squashMmPerN }, tyre, factor,
  }
}

/** The drop is not clearly short of the one at which the tray touches, whether anybody saw it or not. */
function reachesGround(axle: Axle, curve: Calibration | null, drop: AxleDrop | null): boolean {
  if (!drop) return false
  const { claim } = loadFromDrop(axle, curve, { ...drop.toRead, touched: false })
  return claim.kind !== 'value' && claim.reason === 'touchedGround'
}

interface AxleFacts {
  readonly ground: GroundEffect
  readonly touched: boolean
  /** What makes it a bound is not its own drop. */
  readonly bySight: boolean
  readonly driftMm: Uncertain | null
  readonly acceleration: Uncertain | null
  readonly holdingN: Uncertain | null
}

interface AxleRead {
  readonly load: AxleLoad
  /** The springs' load, of which no more than this is sure while the tray is on the ground. */
  readonly leastN: Claim
  readonly remarks: readonly Remark[]
}

function axleLoad(
  axle: Axle, run: AirRun, { chassis, curves }: RunContext, drop: AxleDrop | null, facts: AxleFacts,
): AxleRead {
  const { ground, touched, bySight, driftMm, acceleration, holdingN } = facts
  const rest = { axle, driftMm, branch: branchOf(run), touched, ground, holdingN, controlN: null }
  if (!drop) {
    const netN = told(untold('missing', { code: 'cornersNotRead', axle }))
    return {
      load: { ...rest, dropMm: null, totalDropMm: null, pitchN: null, tyreMm: null, grossN: netN, netN },
      leastN: netN.claim, remarks: [remark('axleNotRead', { axle })],
    }
  }
  const { toRead, tyre, factor } = drop
  const plain = loadFromDrop(axle, curves[axle], { ...toRead, touched: false })
  const bound = loadFromDrop(axle, curves[axle], { ...toRead, touched: bySight })
  const read = ground === 'relieved' ? bound : plain
  const pitchN = acceleration && pitchLoad(chassis, acceleration)
  const corrected = (claim: Claim): Claim => {
    const level = pitchN ? lessPitch(claim, pitchN, axle) : claim
    return holdingN ? subtractClaims(level, valueClaim(holdingN)) : level
  }
  const springs = { plain: corrected(plain.claim), bound: corrected(bound.claim) }
  const gross = told(loadOnGround(axle, springs, ground))
  const dropMm = read.squashMm ? plus(toRead.dropMm, read.squashMm) : toRead.dropMm
  const { staticDropMm } = toRead
  const remarks = [...tyre.remarks, ...setUpRemarks(curves[axle], axle, staticDropMm)]
  if (factor > 1) remarks.push(remark('statesScatter', { axle, factor }))
  return {
    load: {
      ...rest, dropMm, totalDropMm: plus(dropMm, exact(staticDropMm)), pitchN,
      tyreMm: tyre.growthMm && read.squashMm ? plus(tyre.growthMm, read.squashMm) : tyre.growthMm ?? read.squashMm,
      grossN: gross, netN: gross,
    },
    leastN: springs.bound, remarks,
  }
}

/** Passes are compared as drop per squared speed, since they are not all alike fast. */
function meanDrop(
  drops: readonly Uncertain[], states: readonly StateDrop[], run: AirRun,
  { session, scatter = AS_READ }: RunContext,
) {
  const name = `run:${run.id}:scatter`
  const weights = states.map(({ weight }) => weight)
  const { surplus, factor } = surplusOf(levelledDrops(drops, states), weights, scatter, name, session.id)
  return { mean: plus(sum(drops.map((each, i) => scaled(each, weights[i]!))), surplus), factor }
}

const levelledDrops = (drops: readonly Uncertain[], states: readonly StateDrop[]): readonly Uncertain[] => {
  const square = meanSquare(states)?.value
  if (square === undefined) return drops
  return drops.map((each, i) => scaled(each, square / states[i]!.speedMs!.value ** 2))
}

/** Scatter of a run's states, axle by axle; none of a run that was seen to touch. */
export function runScatter({ states }: RunResult): StateScatter[] {
  if (states.some(({ touched }) => touched.front || touched.rear)) return []
  return AXLES.flatMap((axle) => {
    const drops = states.flatMap(({ dropMm }) => dropMm[axle] ?? [])
    if (drops.length < states.length) return []
    return [scatterOf(levelledDrops(drops, states), states.map(({ weight }) => weight))]
  })
}

/** Accelerating forwards loads the rear axle and relieves the front. */
const lessPitch = (claim: Claim, pitchN: Uncertain, axle: Axle): Claim =>
  (axle === 'front' ? addClaims : subtractClaims)(claim, valueClaim(pitchN))

function setUpRemarks(curve: Calibration | null, axle: Axle, staticDropMm: number): Remark[] {
  const remarks: Remark[] = []
  if (!curve) remarks.push(remark('noCurve', { axle }))
  if (staticDropMm < 0) remarks.push(remark('raisedSetUp', { axle, staticDropMm }))
  if (staticDropMm > 0 && curve && curve.chosen !== 'linear' && curve.chosen !== 'threshold') {
    remarks.push(remark('loweredOnBentCurve', { axle, staticDropMm }))
  }
  return remarks
}
