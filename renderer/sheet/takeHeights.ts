/** Heights out of a table become readings of a step or a state, in a draft. */
import type { Reading, Touched } from '@core/schema'
import type { SheetHeight } from '@core/sheet'
import { correctReading } from '../stores/correctReading'
import { newId, now } from '../stores/ids'

interface Read { readings: Reading[] }

export const readingOf = (stepId: string, { corner, shownMm, at, aside }: SheetHeight): Reading => {
  const when = at ?? now()
  return {
    id: newId('reading'), stepId, corner, at: when, shownMm, from: { kind: 'gauge' }, corrections: [],
    setAside: aside === null ? null : { at: when, why: aside },
  }
}

/**
 * Puts heights at a step that is there: a first reading, or a correction of the one that counts, which keeps the old
 * value. Gives how many were corrected.
 */
export function putHeights(draft: Read, stepId: string, heights: readonly SheetHeight[], why: string): number {
  let corrected = 0
  for (const height of heights) {
    const held = draft.readings.findLast((each) =>
      each.stepId === stepId && each.corner === height.corner && each.setAside === null)
    if (!held) draft.readings.push(readingOf(stepId, height))
    else if (held.shownMm !== height.shownMm) {
      correctReading(draft.readings, held, height.shownMm, why)
      corrected += 1
    }
  }
  return corrected
}

export const touchedOf = (told: Touched | null): Touched => told ?? { front: false, rear: false }

export const asideOf = (why: string | null): Reading['setAside'] => (why === null ? null : { at: now(), why })
