/** Rows of a table become states and readings of runs in moving air, and points of a traverse, in a draft. */
import type { AirflowSession, AirRun, Chassis } from '@core/schema'
import type { SheetPoint, SheetState } from '@core/sheet'
import { newId } from '../stores/ids'
import { newPass, newRun, newState } from '../screens/airflow/makeRun'
import { asideOf, putHeights, readingOf, touchedOf } from './takeHeights'
import type { Count } from './takeSquat'

/** Seconds between two states where nobody tells them. */
const USUAL_PAUSE_S = 60

/** The names of the set-ups that a table has and the car has not. */
export const newSetUps = (rows: readonly { readonly setUp: string }[], { configurations }: Chassis): string[] =>
  [...new Set(rows.map(({ setUp }) => setUp))]
    .filter((name) => name !== '' && !configurations.some((each) => each.name === name))

/** Parts of a table by their run, in its order. */
export function byRun<R extends { readonly run: string }>(rows: readonly R[]): [string, R[]][] {
  const runs = new Map<string, R[]>()
  for (const row of rows) runs.set(row.run, [...(runs.get(row.run) ?? []), row])
  return [...runs]
}

/**
 * Takes heights into the runs of a session that their rows name, or into the run in hand. A run that is not there is
 * made like the one before it. Rows that tell whether the air was on are states of their own; heights alone go to the
 * states from `fromStateId` on, and past the last of them air off and on alternate.
 */
export function takeStates(
  draft: AirflowSession, chassis: Chassis, rows: readonly SheetState[],
  hand: { readonly runId: string | null; readonly fromStateId: string | null }, why: string,
): Count & { readonly lastRun: string | null } {
  let [readings, corrected] = [0, 0]
  let lastRun: string | null = null
  for (const [name, own] of byRun(rows)) {
    const run = runFor(draft, chassis, name, own[0]!, hand.runId)
    lastRun = run.id
    const from = name === '' ? hand.fromStateId : null
    for (const [index, row] of own.entries()) {
      const state = stateFor(run, row, index, from)
      if (row.touched) state.touched = touchedOf(row.touched)
      if (row.aside !== null) state.setAside = asideOf(row.aside)
      readings += row.heights.length
      // More heights of one corner in a row are further readings of the state.
      if (row.number !== null || row.air !== null) {
        run.readings.push(...row.heights.map((each) => readingOf(state.id, each)))
      } else corrected += putHeights(run, state.id, row.heights, why)
    }
  }
  return { rows: rows.length, readings, corrected, lastRun }
}

function runFor(
  draft: AirflowSession, chassis: Chassis, name: string, first: SheetState, inHand: string | null,
): AirRun {
  const known = name === '' ? draft.runs.find(({ id }) => id === inHand) : draft.runs.find((each) => each.name === name)
  const run = known ?? newRun(chassis, first.kind ?? 'blower', name || `${draft.runs.length + 1}`,
    draft.runs.findLast(({ kind }) => kind === (first.kind ?? 'blower')) ?? draft.runs.at(-1))
  const setUp = chassis.configurations.find((each) => each.name === first.setUp)
  if (setUp) run.configurationId = setUp.id
  if (first.control !== null) run.control = first.control
  if (!known) draft.runs.push({ ...run, states: [] } as AirRun)
  return draft.runs.find(({ id }) => id === run.id)!
}

/** The state of a row: by its number, else the next of its kind that nobody has read, else a new one. */
function stateFor(run: AirRun, row: SheetState, index: number, fromStateId: string | null): AirRun['states'][number] {
  const unread = run.states.filter(({ id }) => !run.readings.some(({ stepId }) => stepId === id))
  const start = Math.max(0, run.states.findIndex(({ id }) => id === fromStateId))
  const at = row.number !== null ? row.number - 1 : row.air === null ? start + index : run.states.indexOf(unread[0]!)
  const held = run.states[at]
  const air = row.air ?? held?.air ?? (run.states.at(-1)?.air === 'off' ? 'on' : 'off')
  if (held) {
    if (row.air !== null && held.air !== air) Object.assign(held, stateLike(run, air, held.atS), { id: held.id })
    if (row.atS !== null) held.atS = row.atS
    return held
  }
  run.states.push(stateLike(run, air, row.atS ?? (run.states.at(-1)?.atS ?? -USUAL_PAUSE_S) + USUAL_PAUSE_S))
  return run.states.at(-1)!
}

function stateLike(run: AirRun, air: 'on' | 'off', atS: number): AirRun['states'][number] {
  if (run.kind === 'blower' || air === 'off') return newState(air, atS)
  const passes = run.states.filter((each) => each.pass)
  const made = newPass(passes.length % 2 === 0 ? 'out' : 'back', atS)
  if (made.pass && passes.at(-1)?.pass) made.pass.timing = { ...passes.at(-1)!.pass!.timing }
  return made
}

/**
 * Takes speeds into the traverses of the runs that they name, or of the run in hand. Points that the table places
 * stand in for those of a run where nobody has read one yet; speeds alone go to the points from `fromPoint` on.
 */
export function takePoints(
  draft: AirflowSession, rows: readonly SheetPoint[],
  hand: { readonly runId: string | null; readonly fromPoint: number },
): Count {
  let readings = 0
  for (const [name, own] of byRun(rows)) {
    const run = draft.runs.find((each) => (name === '' ? each.id === hand.runId : each.name === name))
    if (run?.kind !== 'blower') continue
    const { traverse } = run
    const blank = traverse.points.every(({ shownMs }) => shownMs.length === 0)
    if (own[0]?.at && blank) traverse.points = []
    own.forEach((point, index) => {
      const held = point.at
        ? traverse.points.find(({ yMm, zMm }) => yMm === point.at!.yMm && zMm === point.at!.zMm)
        : traverse.points[hand.fromPoint + index]
      if (held) held.shownMs.push(...point.shownMs)
      else if (point.at) {
        traverse.points.push({ id: newId('point'), ...point.at, weight: point.weight, shownMs: [...point.shownMs] })
      }
      readings += point.shownMs.length
    })
  }
  return { rows: rows.length, readings, corrected: 0 }
}
