/** Everything that was read or entered, as it stands in the file, in SI units (heights in mm). */
import type { AirflowSession, CoastRun, Exchange, Reading, SquatSession, TrackSession } from '@core/schema'
import type { CsvCell, CsvTable } from './csv'

const ofKind = <K extends 'squat' | 'airflow' | 'track' | 'coast'>({ sessions }: Exchange, kind: K) =>
  sessions.filter((each): each is Extract<Exchange['sessions'][number], { kind: K }> => each.kind === kind)

const readingHeads = ['corner', 'shown/mm', 'read at', 'from', 'corrected times', 'set aside, why']

const readingCells = (reading: Reading): CsvCell[] => [
  reading.corner, reading.shownMm, reading.at, reading.from.kind, reading.corrections.length, reading.setAside?.why ?? '',
]

/** Loads with every weighing. */
export function loadsTable({ chassis }: Exchange): CsvTable {
  const scales = new Map(chassis.scales.map(({ id, name }) => [id, name]))
  return {
    fileName: 'loads.csv', heads: ['load', 'weighed at', 'scale', 'shown mass/kg', 'corrected times', 'set aside, why'],
    rows: chassis.loads.flatMap((load) => load.weighings.map((each) => [
      load.name, each.at, scales.get(each.scaleId) ?? each.scaleId, each.massKg, each.corrections.length,
      each.setAside?.why ?? '',
    ])),
  }
}

/** Readings of all squat tests, one row each, with what lay on the car. */
export function squatReadingsTable(exchange: Exchange): CsvTable {
  const names = new Map(exchange.chassis.loads.map(({ id, name }) => [id, name]))
  return {
    fileName: 'squat-readings.csv',
    heads: ['session', 'step', 'branch', 'ramp', 'loads at x y/mm', 'touched front', 'touched rear', 'step set aside, why', ...readingHeads],
    rows: ofKind(exchange, 'squat').flatMap((session) => squatRows(session, names)),
  }
}

function squatRows(session: SquatSession, names: ReadonlyMap<string, string>): CsvCell[][] {
  const steps = new Map(session.steps.map((step, index) => [step.id, { step, number: index + 1 }]))
  return session.readings.flatMap((reading): CsvCell[][] => {
    const found = steps.get(reading.stepId)
    if (!found) return []
    const { step, number } = found
    const placed = step.placed.map(({ loadId, xMm, yMm }) => `${names.get(loadId) ?? loadId} at ${xMm} ${yMm}`).join(', ')
    return [[
      session.name, number, step.branch, step.ramp, placed, yes(step.touched.front), yes(step.touched.rear),
      step.setAside?.why ?? '', ...readingCells(reading),
    ]]
  })
}

/** Readings of all runs in moving air. */
export function airReadingsTable(exchange: Exchange): CsvTable {
  const names = new Map(exchange.chassis.configurations.map(({ id, name }) => [id, name]))
  return {
    fileName: 'air-readings.csv',
    heads: [
      'session', 'run', 'set-up', 'kind', 'control', 'state', 'air', 'state at/s', 'touched front', 'touched rear',
      'state set aside, why', ...readingHeads,
    ],
    rows: ofKind(exchange, 'airflow').flatMap((session) => airRows(session, names)),
  }
}

function airRows(session: AirflowSession, names: ReadonlyMap<string, string>): CsvCell[][] {
  return session.runs.flatMap((run) => {
    const states = new Map(run.states.map((state, index) => [state.id, { state, number: index + 1 }]))
    return run.readings.flatMap((reading): CsvCell[][] => {
      const found = states.get(reading.stepId)
      if (!found) return []
      const { state, number } = found
      return [[
        session.name, run.name, names.get(run.configurationId) ?? run.configurationId, run.kind, yes(run.control),
        number,
        state.air, state.atS, yes(state.touched.front), yes(state.touched.rear), state.setAside?.why ?? '',
        ...readingCells(reading),
      ]]
    })
  })
}

/** Traverse readings of all blower runs. */
export function traverseTable(exchange: Exchange): CsvTable {
  return {
    fileName: 'traverse-readings.csv', heads: ['session', 'run', 'y/mm', 'z/mm', 'weight', 'shown/(m/s)'],
    rows: ofKind(exchange, 'airflow').flatMap(({ name, runs }) => runs.flatMap((run) => (run.kind === 'blower'
      ? run.traverse.points.flatMap((point) => point.shownMs.map((shown) =>
        [name, run.name, point.yMm, point.zMm, point.weight, shown])) : []))),
  }
}

/** Laps and sustained levels of all track sessions. */
export function trackReadingsTable(exchange: Exchange): CsvTable {
  const names = new Map(exchange.chassis.configurations.map(({ id, name }) => [id, name]))
  return {
    fileName: 'track-readings.csv',
    heads: [
      'session', 'order', 'run', 'set-up', 'kind', 'radius/m', 'repeat', 'lap time/s', 'level/(m/s2)', 'level u/(m/s2)',
      'set aside, why',
    ],
    rows: ofKind(exchange, 'track').flatMap((session) => trackRows(session, names)),
  }
}

function trackRows({ name, runs }: TrackSession, names: ReadonlyMap<string, string>): CsvCell[][] {
  return runs.flatMap((run): CsvCell[][] => {
    const head = [name, run.order, run.name, names.get(run.configurationId) ?? run.configurationId, run.kind]
    const aside = (why: string | undefined) => why ?? run.setAside?.why ?? ''
    switch (run.kind) {
      case 'circle': return run.lapsS.map((lap, index) =>
        [...head, run.radiusM.value, index + 1, lap.timeS, null, null, aside(lap.setAside?.why)])
      case 'log': return run.levelsMs2.map((level, index) =>
        [...head, run.radiusM?.value ?? null, index + 1, null, level.value, level.u, aside(undefined)])
      case 'typed': return run.levels.map(({ shownMs2, setAside }, index) =>
        [...head, run.radiusM?.value ?? null, index + 1, null, shownMs2, run.uShownMs2, aside(setAside?.why)])
      case 'steady': return run.points.map((point, index) =>
        [...head, point.radiusM, index + 1, point.lapS, null, null, aside(point.setAside?.why)])
    }
  })
}

/** Gates, speeds and pulses of all coasts and full-throttle runs, one row each. */
export function coastReadingsTable(exchange: Exchange): CsvTable {
  const names = new Map(exchange.chassis.configurations.map(({ id, name }) => [id, name]))
  return {
    fileName: 'coast-readings.csv',
    heads: [
      'session', 'run', 'set-up', 'purpose', 'way', 'drivetrain', 'ballast/kg', 'read', 'reading', 'time/s', 'distance/m',
      'speed/(m/s)', 'set aside, why',
    ],
    rows: ofKind(exchange, 'coast').flatMap(({ name, runs }) => runs.flatMap((run) => {
      const head = [
        name, run.name, names.get(run.configurationId) ?? run.configurationId, run.purpose, run.direction,
        run.drivetrain, run.ballastKg, run.data.kind,
      ]
      return coastCells(run).map((cells, index) => [...head, index + 1, ...cells, run.setAside?.why ?? ''])
    })),
  }
}

/** Time, distance and speed of each reading, where it has them. */
function coastCells({ data }: CoastRun): CsvCell[][] {
  switch (data.kind) {
    case 'gates': return data.gates.map(({ timeS, distanceMm }) => [timeS, distanceMm.value / 1000, null])
    case 'speeds': return data.readings.map(({ timeS, speedMs }) => [timeS, null, speedMs])
    case 'pulses': return data.timesS.map((timeS, index) => [timeS, (index * data.perPulseMm.value) / 1000, null])
  }
}

const yes = (is: boolean): string => (is ? 'yes' : 'no')
