/** Tables for the runs in moving air: heights of one run or of many, and speeds across the jet. */
import type { AirflowSession, AirRun, Chassis } from '@core/schema'
import { readAir, readTraverse, type CellProblem, type SheetPoint, type SheetState } from '@core/sheet'
import { usePreferences } from '../../stores/preferences'
import { useProject } from '../../stores/project'
import { asJob, type SheetDesk, type SheetJob } from '../../sheet/job'
import { newSetUps, takePoints, takeStates } from '../../sheet/takeAir'
import { addSetUps } from '../../sheet/takeTrack'
import { cornerAt, cornersFrom } from '../squat/squatDesk'
import { newAirflow } from './makeRun'

interface Said {
  /** Label of the deed for undo. */
  readonly label: string
  readonly retyped: string
  readonly sessionName: (count: number) => string
}

/** @param taken hears which run a table went to */
export function airDesk(
  car: () => Chassis, session: () => AirflowSession | undefined, run: () => AirRun | undefined, said: Said,
  taken: (runId: string | null) => void,
): SheetDesk {
  const project = useProject()
  const preferences = usePreferences()
  const isPoint = (target: Element | null): boolean => Boolean(target?.closest('[data-point]'))

  /** Changes the session in hand, or a first one made for the table. */
  function change(edit: (draft: AirflowSession) => void): void {
    if (!session()) project.addSession(newAirflow(car(), said.sessionName(project.airflows.length + 1)))
    project.changeSession('airflow', session()!.id, said.label, edit)
  }

  const states = (target: Element | null): SheetJob<SheetState[]> => ({
    order: (width) => cornersFrom(cornerAt(target), width, 'air'),
    read(rows, map) {
      const read = readAir(rows, map, preferences.chosen)
      const guesses = [...read.guesses]
      if (newSetUps(read.made, car()).length > 0) guesses.push('newSetUp')
      const room = run()?.states.length ?? 0
      const inHand = read.made.filter((row) => row.run === '')
      if (inHand.some(({ air }) => air === null) && inHand.length > room - fromState(target)) guesses.push('air')
      return { ...read, guesses }
    },
    take(made) {
      let count = { rows: 0, readings: 0, corrected: 0, lastRun: null as string | null }
      project.together(said.label, () => {
        const names = newSetUps(made, car())
        if (names.length > 0) project.changeChassis(said.label, (draft) => addSetUps(draft, names))
        change((draft) => {
          const hand = { runId: run()?.id ?? null, fromStateId: stateIdAt(target) }
          count = takeStates(draft, car(), made, hand, said.retyped)
        })
      })
      taken(count.lastRun)
      return count
    },
  })
  const stateIdAt = (target: Element | null) => target?.closest<HTMLElement>('[data-state]')?.dataset['state'] ?? null
  const fromState = (target: Element | null): number =>
    Math.max(0, run()?.states.findIndex(({ id }) => id === stateIdAt(target)) ?? 0)

  const points = (target: Element | null): SheetJob<SheetPoint[]> => {
    const fromPoint = Number(target?.closest<HTMLElement>('[data-point]')?.dataset['point'] ?? 0)
    return {
      order(width) {
        const speeds = Array.from({ length: width }, () => 'speed' as const)
        return isPoint(target) && cornerAt(target) < 2 ? ['pointY', 'pointZ', ...speeds.slice(2)] : speeds
      },
      read(rows, map) {
        const read = readTraverse(rows, map, preferences.chosen)
        return { ...read, problems: [...read.problems, ...withoutPoint(read.made, session(), run(), fromPoint)] }
      },
      take(made) {
        let count = { rows: 0, readings: 0, corrected: 0 }
        change((draft) => {
          count = takePoints(draft, made, { runId: run()?.id ?? null, fromPoint })
        })
        taken(null)
        return count
      },
    }
  }

  return {
    kinds: ['air', 'traverse'],
    kindAt: (target) => (isPoint(target) ? 'traverse' : 'air'),
    jobFor: (kind, target) => (kind === 'traverse' ? asJob(points(target)) : asJob(states(target))),
  }
}

/** Speeds of a run that is not there, or for which there is no point. */
function withoutPoint(
  points: readonly SheetPoint[], session: AirflowSession | undefined, inHand: AirRun | undefined, fromPoint: number,
): CellProblem[] {
  return points.flatMap(({ row, run: name, at }, index): CellProblem[] => {
    const run = name === '' ? inHand : session?.runs.find((each) => each.name === name)
    const place = { row, column: 1, typed: name, values: {} }
    if (run?.kind !== 'blower') return [{ ...place, field: 'run', fault: 'noRun' }]
    const has = at !== null || fromPoint + index < run.traverse.points.length
    return has ? [] : [{ ...place, field: 'speed', fault: 'noPoint' }]
  })
}
