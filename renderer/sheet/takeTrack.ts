/** Rows of a table become laps and levels of the track's runs, and loads of the car, in a draft. */
import type { Chassis, TrackRun, TrackSession } from '@core/schema'
import type { SheetBag, SheetRun } from '@core/sheet'
import { idFromName, newId, now } from '../stores/ids'
import { newCircle, newSteady, newTyped } from '../screens/track/makeTrack'
import { asideOf } from './takeHeights'
import type { Count } from './takeSquat'

/** Takes laps and levels into the runs that they name, or into the run in hand; a run that is not there is made. */
export function takeRuns(
  draft: TrackSession, chassis: Chassis, rows: readonly SheetRun[],
  hand: { readonly runId: string | null; readonly fromLap: number | null }, nameOf: (count: number) => string,
): Count {
  let [readings, corrected] = [0, 0]
  for (const row of rows) {
    const run = runFor(draft, chassis, row, hand.runId, nameOf)
    readings += row.laps.length + row.levels.length
    if (run.kind === 'circle') corrected += putLaps(run, row, row.name === '' ? hand.fromLap : null)
    else if (run.kind === 'steady') {
      run.points.push(...row.laps.map(({ timeS, radiusM, aside }) =>
        ({ id: newId('point'), radiusM: radiusM ?? 5, lapS: timeS, steerDeg: null, setAside: asideOf(aside) })))
    } else if (run.kind === 'typed') {
      run.levels.push(...row.levels.map(({ ms2, aside }) => ({ id: newId('level'), shownMs2: ms2, setAside: asideOf(aside) })))
      const us = row.levels.flatMap(({ u }) => u ?? [])
      if (us.length > 0) run.uShownMs2 = Math.max(...us)
    }
  }
  return { rows: rows.length, readings, corrected }
}

function putLaps(run: Extract<TrackRun, { kind: 'circle' }>, row: SheetRun, fromLap: number | null): number {
  if (row.radiusM !== null && row.radiusM !== run.radiusM.value) run.radiusM = { ...run.radiusM, value: row.radiusM }
  let corrected = 0
  row.laps.forEach(({ timeS, aside }, index) => {
    const held = fromLap === null ? undefined : run.lapsS[fromLap + index]
    if (held) {
      if (held.timeS !== timeS) corrected += 1
      held.timeS = timeS
    } else run.lapsS.push({ id: newId('lap'), timeS, setAside: asideOf(aside) })
  })
  return corrected
}

function runFor(
  draft: TrackSession, chassis: Chassis, row: SheetRun, inHand: string | null, nameOf: (count: number) => string,
): TrackRun {
  const known = row.name === '' ? draft.runs.find(({ id }) => id === inHand)
    : draft.runs.find(({ name, order }) => name === row.name && (row.order === null || order === row.order))
  if (known) return known
  const name = row.name || nameOf(draft.runs.length + 1)
  const levels = row.levels.length > 0
  const made = row.kind === 'steady' ? newSteady(chassis, draft, name)
    : levels ? newTyped(chassis, draft, name) : newCircle(chassis, draft, name)
  const setUp = chassis.configurations.find((each) => each.name === row.setUp)
  if (setUp) made.configurationId = setUp.id
  if (row.order !== null) made.order = row.order
  if (made.kind === 'typed' && row.radiusM !== null) made.radiusM = { value: row.radiusM, u: 0 }
  draft.runs.push(made)
  return draft.runs.at(-1)!
}

/** Takes loads onto the car; a load that is there is weighed again. */
export function takeBags(
  draft: Chassis, bags: readonly SheetBag[], scaleId: string, nameOf: (count: number) => string,
): Count {
  let readings = 0
  for (const { name, weighings } of bags) {
    const called = name || nameOf(draft.loads.length + 1)
    let load = draft.loads.find((each) => each.name === called)
    if (!load) draft.loads.push(load = { id: idFromName(called), name: called, note: '', weighings: [] })
    for (const { massKg, scale, at, aside } of weighings) {
      const used = draft.scales.find((each) => each.name === scale)?.id ?? scaleId
      draft.loads.find(({ id }) => id === load.id)!.weighings.push({
        id: newId('weighing'), at: at ?? now(), scaleId: used, massKg, corrections: [], setAside: asideOf(aside),
      })
      readings += 1
    }
  }
  return { rows: bags.length, readings, corrected: 0 }
}

/** A car with the set-ups that a table names and it does not have yet. */
export function addSetUps(draft: Chassis, names: readonly string[]): void {
  for (const name of names) draft.configurations.push({ id: newId('configuration'), name, note: '', wingAngleDeg: null })
}
