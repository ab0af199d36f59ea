/** Tables for the squat test: rows of heights for steps that are there, or whole steps with what lay on the car. */
import { CORNERS, type Chassis, type SquatSession } from '@core/schema'
import { readSquat, type SheetField, type SheetStep } from '@core/sheet'
import { usePreferences } from '../../stores/preferences'
import { useProject } from '../../stores/project'
import { asJob, type SheetDesk } from '../../sheet/job'
import { startAt, takeSteps } from '../../sheet/takeSquat'
import { lastPlaced, massOfLoad, newSquat } from './steps'

/** Name of the field's corner among the corners of a row; 0 outside a row. */
export function cornerAt(target: Element | null): number {
  const row = target?.closest('[data-row]')
  const at = row ? [...row.querySelectorAll('input[type="text"]')].indexOf(target as Element) : -1
  return Math.max(0, at)
}

/** Corners from the one pasted at; with a column before them where the table is one wider than the car has corners. */
export function cornersFrom(first: number, width: number, before: SheetField): readonly SheetField[] {
  if (width === CORNERS.length + 1 && first === 0) return [before, ...CORNERS]
  return CORNERS.slice(first)
}

interface Said {
  /** Label of the deed for undo. */
  readonly label: string
  readonly retyped: string
  readonly sessionName: (count: number) => string
}

/** @param session the squat test in hand; where there is none the first table makes it */
export function squatDesk(
  car: () => Chassis, session: () => SquatSession | undefined, said: Said, taken: (sessionId: string) => void,
): SheetDesk {
  const project = useProject()
  const preferences = usePreferences()
  return {
    kinds: ['squat'],
    kindAt: () => 'squat',
    jobFor: (_kind, target) => {
      const stepId = target?.closest<HTMLElement>('[data-step]')?.dataset['step'] ?? null
      return asJob<SheetStep[]>({
        order: (width) => cornersFrom(cornerAt(target), width, 'load'),
        read(rows, map) {
          const chassis = car()
          const read = readSquat(rows, map, {
            units: preferences.chosen,
            loads: chassis.loads.map(({ id, name }) => ({ id, name, massKg: massOfLoad(chassis, id).kg })),
            wheelbaseMm: chassis.wheelbaseMm.value, lastPlace: (session() && lastPlaced(session()!)) ?? null,
            before: session()?.steps.at(-1)?.placed.map(({ loadId }) => loadId) ?? [],
          })
          return { ...read, problems: [...read.problems, ...withoutStep(read.made, session(), stepId)] }
        },
        take(made) {
          const names = [...new Set(made.map((row) => row.session))]
          let [rows, readings, corrected] = [0, 0, 0]
          project.together(said.label, () => {
            for (const name of names) {
              const own = sessionFor(name, names.length > 1)
              project.changeSession('squat', own, said.label, (draft) => {
                const count = takeSteps(draft, made.filter((row) => row.session === name), stepId, said.retyped)
                rows += count.rows
                readings += count.readings
                corrected += count.corrected
              })
              taken(own)
            }
          })
          return { rows, readings, corrected }
        },
      })
    },
  }

  /** Id of the session for rows of that name: the one in hand where they name none, or it is empty; else a new one. */
  function sessionFor(name: string, several: boolean): string {
    const held = session()
    const inHand = held && (name === '' || name === held.name || (!several && held.readings.length === 0))
    if (inHand) return held.id
    const made = newSquat(car(), name || said.sessionName(project.squats.length + 1))
    project.addSession(made)
    return made.id
  }
}

/** Rows of heights alone past the last step. */
function withoutStep(rows: readonly SheetStep[], session: SquatSession | undefined, stepId: string | null) {
  const room = session ? session.steps.length - startAt(session, stepId) : 1
  return rows.flatMap(({ row, laid, heights }, index) =>
    (laid === null && heights.length > 0 && index >= room
      ? [{ row, column: 1, field: null, fault: 'noStep' as const, typed: '', values: {} }] : []))
}
