/** What typing a height or a speed changes in a run's draft: one place for the tables and for bench mode. */
import type { AirRun, BlowerRun, Corner } from '@core/schema'
import { correctReading } from '../../stores/correctReading'
import { newId, now } from '../../stores/ids'
import { readingsAt } from './makeRun'

/**
 * Types the `index`-th height of a corner in a state: a first reading, a correction that keeps the old value, or, as
 * null, nothing any more.
 *
 * @param why note of a correction
 */
export function typeHeight(
  run: AirRun, stateId: string, corner: Corner, index: number, shownMm: number | null, why: string,
): void {
  const held = readingsAt(run, stateId, corner)[index]
  if (shownMm === null) {
    run.readings = run.readings.filter((each) => each.id !== held?.id)
    return
  }
  if (held) {
    correctHeight(run, held.id, shownMm, why)
    return
  }
  run.readings.push({
    id: newId('reading'), stepId: stateId, corner, at: now(), shownMm, from: { kind: 'gauge' }, corrections: [],
    setAside: null,
  })
}

/** Puts a height right; the old value stays with it. */
export function correctHeight(run: AirRun, readingId: string, shownMm: number, why: string): void {
  const held = run.readings.find(({ id }) => id === readingId)
  if (!held || held.shownMm === shownMm) return
  correctReading(run.readings, held, shownMm, why)
}

/** Types the `index`-th speed of a point; as null it is taken out. */
export function typeSpeed({ points }: BlowerRun['traverse'], pointId: string, index: number, ms: number | null): void {
  const point = points.find((each) => each.id === pointId)
  if (!point) return
  if (ms === null) point.shownMs.splice(index, 1)
  else if (index < point.shownMs.length) point.shownMs[index] = ms
  else point.shownMs.push(ms)
}
