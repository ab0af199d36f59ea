/** Rows of a table become steps of a squat test, in a draft. */
import type { SquatSession } from '@core/schema'
import type { SheetStep } from '@core/sheet'
import { newId } from '../stores/ids'
import { asideOf, putHeights, touchedOf } from './takeHeights'

/** What became of a table. */
export interface Count {
  readonly rows: number
  readonly readings: number
  readonly corrected: number
}

/** How well a place told in a table is known, mm: as by a rule on the car. */
const PLACE_U_MM = 1

/** Index of the step that the first row of heights alone goes to. */
export const startAt = ({ steps }: SquatSession, stepId: string | null): number =>
  Math.max(0, steps.findIndex(({ id }) => id === stepId))

/**
 * Takes rows into a squat test. Rows that tell what lay on the car are steps of their own, after those that are
 * there; the first zero takes the place of one that nobody has read yet. Rows of heights alone go to the steps from
 * `fromStepId` on, and are left where there are no more.
 *
 * @param why note of a reading that is corrected
 */
export function takeSteps(
  draft: SquatSession, rows: readonly SheetStep[], fromStepId: string | null, why: string,
): Count {
  const at = startAt(draft, fromStepId)
  let [readings, corrected] = [0, 0]
  rows.forEach((row, index) => {
    const id = row.laid ? stepFor(draft, row) : draft.steps[at + index]?.id
    if (id === undefined) return
    readings += row.heights.length
    corrected += putHeights(draft, id, row.heights.filter(({ aside }) => aside === null), why)
    for (const height of row.heights.filter(({ aside }) => aside !== null)) {
      putHeights(draft, id, [height], why)
      const held = draft.readings.findLast((each) => each.stepId === id && each.corner === height.corner)
      if (held) held.setAside = asideOf(height.aside)
    }
  })
  return { rows: rows.length, readings, corrected }
}

/** The step of a row: a new one, or the first zero that nobody has read. */
function stepFor(draft: SquatSession, { laid, touched, aside }: SheetStep): string {
  const only = draft.steps[0]
  const last = draft.steps.at(-1)
  const ramp = laid!.ramp ?? rampAfter(draft, laid!.branch)
  const rest = { touched: touchedOf(touched), setAside: asideOf(aside) }
  if (laid!.branch === 'zero' && draft.steps.length === 1 && only === last && draft.readings.length === 0) {
    Object.assign(only!, rest, { ramp })
    return only!.id
  }
  const id = newId('step')
  draft.steps.push({
    id, branch: laid!.branch, ramp, note: '', ...rest,
    placed: laid!.loads.map(({ loadId, xMm, yMm }) => ({ loadId, xMm, yMm, uPlaceMm: PLACE_U_MM })),
  })
  return id
}

/** A zero after loads begins the next ramp. */
function rampAfter({ steps }: SquatSession, branch: string): number {
  const last = steps.at(-1)
  return (last?.ramp ?? 1) + (last && branch === 'zero' && last.branch !== 'zero' ? 1 : 0)
}
