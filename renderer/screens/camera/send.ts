/** From heights read in a picture to readings of a run or a squat test. */
import { readingSourceOf } from '@core/camera'
import type { AirRun, AirState, Corner, GateTiming, Picture, PictureMark, Reading, SquatSession } from '@core/schema'
import { standardUncertainty, type Uncertain } from '@core/uncertainty'
import { newId, now } from '../../stores/ids'
import { newPass, newState } from '../airflow/makeRun'

/** A corner's height as read, and the marks that were made for this reading alone. */
export interface CornerHeight {
  readonly corner: Corner
  readonly heightMm: Uncertain
  readonly ownMarks: readonly PictureMark[]
}

const OTHER_SIDE: Record<Corner, Corner> = {
  frontLeft: 'frontRight', frontRight: 'frontLeft', rearLeft: 'rearRight', rearRight: 'rearLeft',
}

/**
 * Readings of one state or step.
 *
 * @param farSideUMm how alike the side that the camera does not see moves, mm; null leaves it unread.
 *   The seen side's own uncertainty then becomes a part that both sides share.
 */
export function makeReadings(
  heights: readonly CornerHeight[], stepId: string, pictureId: string, farSideUMm: number | null,
): Reading[] {
  return heights.flatMap(({ corner, heightMm, ownMarks }) => {
    const from = readingSourceOf(heightMm, pictureId, ownMarks)
    const reading = (of: Corner, source: Reading['from']): Reading => ({
      id: newId('reading'), stepId, corner: of, at: now(), shownMm: heightMm.value, from: source, corrections: [],
      setAside: null,
    })
    if (farSideUMm === null) return [reading(corner, from)]
    const own = { source: `camera:${pictureId}:own:${stepId}:${corner}`, contributionMm: from.uMm }
    const shared = [...(from.shared ?? []).slice(0, 99), own]
    return [
      reading(corner, { ...from, uMm: 0, shared }),
      reading(OTHER_SIDE[corner], { ...from, uMm: farSideUMm, shared }),
    ]
  })
}

/** Adds readings; earlier ones of the same picture at the same place are put aside, not thrown away. */
export function addReadings(draft: { readings: Reading[] }, made: readonly Reading[], why: string): void {
  for (const each of made) {
    for (const held of draft.readings) {
      const same = held.stepId === each.stepId && held.corner === each.corner && held.setAside === null
      if (same && held.from.kind === 'picture' && each.from.kind === 'picture' && held.from.pictureId === each.from.pictureId) {
        held.setAside = { at: now(), why }
      }
    }
    draft.readings.push(each)
  }
}

/** One window ready to become a state of a run. */
export interface WindowToSend {
  readonly air: 'off' | 'on'
  readonly atS: number
  readonly heights: readonly CornerHeight[]
  readonly pass: { readonly direction: 'out' | 'back'; readonly timing: GateTiming } | null
}

/** A new state of a run; a pass of a drive-by run goes the other way than the one before it. */
export function nextState(run: Pick<AirRun, 'kind' | 'states'>, air: 'off' | 'on', atS: number): AirState {
  if (run.kind !== 'driveBy' || air === 'off') return newState(air, atS)
  return newPass(run.states.findLast((each) => each.pass)?.pass?.direction === 'out' ? 'back' : 'out', atS)
}

/**
 * Puts windows into a run: states of the run that nobody read yet are used in their order where
 * their air fits, else new ones are added. Times are the clip's, counted from its first window.
 */
export function sendWindows(
  draft: AirRun, windows: readonly WindowToSend[], picture: Picture, farSideUMm: number | null, why: string,
): void {
  const read = new Set(draft.readings.map((each) => each.stepId))
  const free = draft.states.filter((state) => !read.has(state.id) && state.setAside === null)
  const last = draft.states.filter((state) => read.has(state.id)).at(-1)
  const startS = last ? last.atS + 60 : 0
  const firstS = windows[0]?.atS ?? 0
  for (const window of windows) {
    const place = free.findIndex((state) => state.air === window.air)
    const state = place >= 0 ? free.splice(0, place + 1).at(-1)! : nextState(draft, window.air, 0)
    if (place < 0) draft.states.push(state)
    state.atS = startS + window.atS - firstS
    state.pass = window.pass ? { direction: window.pass.direction, timing: { ...window.pass.timing } } : state.pass
    addReadings(draft, makeReadings(window.heights, state.id, picture.id, farSideUMm), why)
  }
  draft.states.sort((a, b) => a.atS - b.atS)
}

/** Puts heights into a step of a squat test. */
export function sendToStep(
  draft: SquatSession, stepId: string, heights: readonly CornerHeight[], pictureId: string, farSideUMm: number | null,
  why: string,
): void {
  addReadings(draft, makeReadings(heights, stepId, pictureId, farSideUMm), why)
}

/** The most that a stored standard uncertainty may be, mm; a height known worse is no reading. */
export const MAX_U_MM = 50

export const canBeSent = (heights: readonly CornerHeight[]): boolean => heights.length > 0 && heights.every(
  ({ heightMm }) => Math.abs(heightMm.value) <= 1000 && standardUncertainty(heightMm) <= MAX_U_MM)
