/**
 * The states of a run: each reading with air against the zero of its moment. The zero is read
 * before and after (off / on / off) and taken to move evenly in between, so that a steady drift of
 * gauge, tyres or car drops out.
 */
import {
  atRest, dropBetween, shownAt, type Calibration, type GaugeContext, type Repeatability, type Settling,
} from '@core/calibration'
import { axleOf, chassisMotion, perAxleOf, type ChassisMotion, type CornerDrops } from '@core/chassis'
import { remark, type Remark } from '@core/remark'
import {
  AXLES, CORNERS, type AirflowSession, type AirRun, type AirState, type Axle, type Chassis, type Corner, type Gauge,
  type Reading,
} from '@core/schema'
import {
  BEYOND_CHANCE, combine, standardUncertainty, type Uncertain,
} from '@core/uncertainty'

/** A state with air and the motion of the chassis in it. */
export interface ReadState {
  readonly state: AirState
  readonly motion: ChassisMotion
}

export interface RunStates {
  readonly on: readonly ReadState[]
  readonly driftMm: Readonly<Record<Axle, Uncertain | null>>
  readonly remarks: readonly Remark[]
}

type Shown = Partial<Record<Corner, Uncertain>>
interface Zero { readonly atS: number; readonly shown: Shown }

/** Fewer degrees of freedom tell too little of a variance to rely on. */
const LEAST_DOF = 3

/**
 * Reads the states of a run.
 *
 * After a settle routine each zero counts and the drift is taken out. Without one, friction holds the
 * car off its zero once air has pressed it, so only zeros before the first air count, as in the
 * squat test.
 */
export function readStates(
  run: AirRun, session: AirflowSession, chassis: Chassis, gauge: Gauge, curve: Calibration | null,
  settling: Settling | null = null,
): RunStates {
  const context: GaugeContext = { sessionId: session.id, gauge, repeatability: repeatabilityFor(session, gauge, curve) }
  const states = run.states.filter(({ setAside }) => setAside === null).sort((a, b) => a.atS - b.atS)
  const shown = new Map(states.map((state) =>
    [state.id, settledBy(shownIn(run, session, state, context), settling, `${session.id}:${run.id}:${state.id}`)]))
  const zeros = states.filter(({ air }) => air === 'off').map(({ id, atS }): Zero => ({ atS, shown: shown.get(id)! }))
    .filter((each) => Object.keys(each.shown).length > 0)
  const on = states.filter(({ air, id }) => air === 'on' && Object.keys(shown.get(id)!).length > 0)
  const settled = run.settle !== 'none'
  const firstOn = on[0]?.atS ?? Infinity
  const early = zeros.filter(({ atS }) => atS <= firstOn)
  const used = settled || early.length === 0 ? zeros : early
  const driftMm = driftOf(zeros, chassis, gauge)
  return {
    on: on.map((state) => {
      const drops = dropsIn(shown.get(state.id)!, used, state.atS, gauge)
      return { state, motion: chassisMotion(chassis, drops) }
    }),
    driftMm,
    remarks: remarksOn(on, zeros, driftMm, settled, context.repeatability),
  }
}

/** Means of the corners read in a state. The sources get names of this run's own. */
function shownIn(run: AirRun, session: AirflowSession, state: AirState, context: GaugeContext): Shown {
  const found: Shown = {}
  for (const corner of CORNERS) {
    const readings = run.readings.filter((each) => each.stepId === state.id && each.corner === corner)
      .map((each): Reading => ({ ...each, stepId: `${session.id}:${run.id}:${state.id}` }))
    const mean = shownAt(readings, context)
    if (mean) found[corner] = mean
  }
  return found
}

/** With what the squat test showed of how the car comes to rest, where a run has too few states to show it itself. */
function settledBy(shown: Shown, settling: Settling | null, state: string): Shown {
  if (!settling) return shown
  const rested: Shown = {}
  for (const corner of CORNERS) {
    const own = shown[corner]
    if (own) rested[corner] = atRest(own, axleOf(corner), settling, state)
  }
  return rested
}

/** As given for the gauge, else as the squat test found it with the same gauge, else from repeats in one state. */
function repeatabilityFor(session: AirflowSession, gauge: Gauge, curve: Calibration | null): Repeatability {
  if (gauge.repeatabilityUMm !== null) return { uMm: gauge.repeatabilityUMm, dof: Infinity, from: 'given' }
  if (curve && curve.repeatability.from !== 'none') return curve.repeatability
  const { deviation, dof } = scatterInStates(session.runs)
  if (dof < LEAST_DOF) return { uMm: 0, dof: Infinity, from: 'none' }
  return { uMm: Math.sqrt(Math.max(0, deviation ** 2 - gauge.resolutionMm ** 2 / 12)), dof, from: 'readings' }
}

/** Scatter of readings of one corner in one state, pooled over the session, mm. */
function scatterInStates(runs: readonly AirRun[]): { deviation: number; dof: number } {
  const places = new Map<string, number[]>()
  for (const run of runs) {
    for (const { stepId, corner, shownMm, setAside } of run.readings) {
      if (setAside !== null) continue
      const key = `${run.id}:${stepId}:${corner}`
      places.set(key, [...(places.get(key) ?? []), shownMm])
    }
  }
  let square = 0
  let dof = 0
  for (const values of places.values()) {
    const mean = values.reduce((sum, each) => sum + each, 0) / values.length
    square += values.reduce((sum, each) => sum + (each - mean) ** 2, 0)
    dof += values.length - 1
  }
  return { deviation: dof > 0 ? Math.sqrt(square / dof) : 0, dof }
}

function dropsIn(shown: Shown, zeros: readonly Zero[], atS: number, gauge: Gauge): CornerDrops {
  const drops: { -readonly [C in Corner]?: Uncertain } = {}
  for (const corner of CORNERS) {
    const at = shown[corner]
    if (!at) continue
    const drop = dropBetween(gauge, zeroAt(zeros, corner, atS), at)
    if (drop) drops[corner] = drop
  }
  return drops
}

/** Zero of a corner at a moment: straight between its neighbours, level before the first and after the last. */
function zeroAt(zeros: readonly Zero[], corner: Corner, atS: number): Uncertain | null {
  const own = zeros.flatMap(({ atS: at, shown }) => (shown[corner] ? [{ at, zero: shown[corner] }] : []))
  const next = own.findIndex(({ at }) => at >= atS)
  if (next <= 0) return own[next < 0 ? own.length - 1 : 0]?.zero ?? null
  const before = own[next - 1]!
  const after = own[next]!
  if (after.at === before.at) return before.zero
  const share = (atS - before.at) / (after.at - before.at)
  return combine(before.zero.value * (1 - share) + after.zero.value * share, [
    [before.zero, 1 - share], [after.zero, share],
  ])
}

function driftOf(zeros: readonly Zero[], chassis: Chassis, gauge: Gauge): Record<Axle, Uncertain | null> {
  const first = zeros[0]
  const last = zeros[zeros.length - 1]
  if (!first || !last || first === last) return { front: null, rear: null }
  const { axles } = chassisMotion(chassis, dropsIn(last.shown, [{ ...first }], last.atS, gauge))
  return perAxleOf((axle) => axles[axle])
}

function remarksOn(
  on: readonly AirState[], zeros: readonly Zero[], drift: Record<Axle, Uncertain | null>, settled: boolean,
  repeatability: Repeatability,
): Remark[] {
  const remarks: Remark[] = []
  if (zeros.length === 0) remarks.push(remark('noZero'))
  if (repeatability.from === 'none') remarks.push(remark('repeatabilityUnknown'))
  const first = zeros[0]?.atS ?? Infinity
  const last = zeros[zeros.length - 1]?.atS ?? -Infinity
  const open = on.filter(({ atS }) => atS < first || atS > last)
  if (settled && zeros.length > 0) open.forEach(({ id }) => remarks.push(remark('openBracket', null, { kind: 'step', stepId: id })))
  if (on.length === 1) remarks.push(remark('oneReadingWithAir'))
  for (const axle of AXLES) {
    const moved = drift[axle]
    if (!moved) continue
    const values = { axle, driftMm: moved.value, uMm: standardUncertainty(moved) }
    if (settled && Math.abs(moved.value) > BEYOND_CHANCE * values.uMm) remarks.push(remark('zeroDrift', values))
    // Friction holds an axle where the air pressed it, never above where it stood.
    if (!settled && moved.value > BEYOND_CHANCE * values.uMm) remarks.push(remark('zeroHeldByFriction', values))
  }
  return remarks
}
