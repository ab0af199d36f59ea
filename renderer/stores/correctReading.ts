/** Puts a reading of a draft right. */
import { MOST_CORRECTIONS, type Reading } from '@core/schema'
import { newId, now } from './ids'

/**
 * The old value stays among the corrections. Where no more fit, the reading is put aside with all of them, and a fresh
 * one takes its place: a document that holds more could not be saved.
 */
export function correctReading(readings: Reading[], held: Reading, shownMm: number, why: string): void {
  const at = now()
  if (held.corrections.length >= MOST_CORRECTIONS) {
    held.setAside = { at, why }
    const { stepId, corner, from } = held
    readings.push({ id: newId('reading'), stepId, corner, at, shownMm, from, corrections: [], setAside: null })
    return
  }
  held.corrections.push({ was: held.shownMm, at, why })
  held.shownMm = shownMm
  delete held.keptAt
}
