/** Puts what the live bench read into a squat test or a run, as the readings that any picture gives. */
import type { SquatReading, WindowHeight } from '@core/camera'
import type { PlannedStep } from '@core/calibration'
import type { AirRun, AirState, Corner, SquatSession, SquatStep, Touched } from '@core/schema'
import { newId } from '../../stores/ids'
import { addReadings, makeReadings, nextState, type CornerHeight } from '../camera/send'
import { zeroStep } from '../squat/steps'

const cornerHeights = (heights: Partial<Record<Corner, WindowHeight>>): CornerHeight[] =>
  (Object.entries(heights) as [Corner, WindowHeight][]).map(([corner, { heightMm }]) =>
    ({ corner, heightMm, ownMarks: [] }))

const isRead = (draft: { readings: SquatSession['readings'] }, id: string): boolean =>
  draft.readings.some(({ stepId, setAside }) => stepId === id && setAside === null)

/** The step that is read next: one that stands unread, else the one that the plan has next; null at its end. */
export function stepInHand(session: SquatSession, planned: readonly PlannedStep[]): PlannedStep | null {
  const steps = session.steps.filter(({ setAside }) => setAside === null)
  const open = steps.findIndex(({ id }) => !isRead(session, id))
  const at = open < 0 ? steps.length : open
  return planned[at] ?? null
}

/** Puts a reading into the step in hand, which is made where it is not there yet. */
export function keepStep(
  draft: SquatSession, planned: PlannedStep, { heights }: SquatReading, pictureId: string, farSideUMm: number,
  touched: Touched, why: string,
): void {
  const open = draft.steps.find(({ id, setAside }) => setAside === null && !isRead(draft, id))
  const step: SquatStep = open ?? { ...zeroStep(planned.ramp), id: newId('step') }
  step.branch = planned.branch
  step.ramp = planned.ramp
  step.placed = planned.placed.map((each) => ({ ...each }))
  step.touched = { ...touched }
  if (!open) draft.steps.push(step)
  addReadings(draft, makeReadings(cornerHeights(heights), step.id, pictureId, farSideUMm), why)
}

/** Puts a stretch of air off or on into the next state of a run that fits it, made where there is none. */
export function keepStretch(
  draft: AirRun, air: 'off' | 'on', atS: number, heights: Partial<Record<Corner, WindowHeight>>, pictureId: string,
  farSideUMm: number, touched: Touched, why: string,
): void {
  const lastRead = draft.states.findLastIndex(({ id }) => isRead(draft, id))
  const open = draft.states.find((each, i) => i > lastRead && each.air === air && each.setAside === null)
  const state: AirState = open ?? nextState(draft, air, atS)
  state.atS = atS
  state.touched = { ...touched }
  if (!open) draft.states.push(state)
  // What the plan held between is not read and not wanted any more.
  draft.states = draft.states.filter((each, i) =>
    each === state || i <= lastRead || each.atS >= atS || isRead(draft, each.id))
  draft.states.sort((a, b) => a.atS - b.atS)
  addReadings(draft, makeReadings(cornerHeights(heights), state.id, pictureId, farSideUMm), why)
}
