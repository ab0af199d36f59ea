/** Readings that the core doubts, to be asked about where they were typed. */
import type { Remark } from '@core/calibration'
import type { Corner, Reading } from '@core/schema'
import { byGravity } from './remarkSentence'

/** Readings of a squat test or of an airflow run: `stepId` names the step or the state. */
interface Read { readonly readings: readonly Reading[] }

/** A place in the table of readings. */
export const placeOf = (stepId: string, corner: Corner): string => `${stepId} ${corner}`

/** Remarks that put one reading in doubt. */
const DOUBTING: readonly string[] = ['readingImplausible', 'readingSlipped', 'suspiciousReading']

export interface Doubt {
  readonly remark: Remark
  readonly readingId: string
  readonly stepId: string
  readonly corner: Corner
  /** Step and corner, as `placeOf` names them. */
  readonly place: string
  /** What the gauge may have shown, mm; null where nothing tells it. */
  readonly suggestedMm: number | null
}

export const isDoubting = ({ code }: Remark): boolean => DOUBTING.includes(code)

/**
 * The doubts that stand, gravest first, one for a reading. A reading that was kept on purpose, put aside
 * or typed again since the remark was made is in doubt no more.
 */
export function doubtsOf(session: Read, remarks: readonly Remark[]): Doubt[] {
  const found = byGravity(remarks.filter(isDoubting)).flatMap((remark) => doubtOf(session, remark) ?? [])
  return found.filter((doubt, index) => found.findIndex((each) => each.readingId === doubt.readingId) === index)
}

function doubtOf(session: Read, remark: Remark): Doubt | null {
  const { stepId, corner, values } = remark
  if (stepId === null || corner === null) return null
  const here = session.readings
    .filter((each) => each.stepId === stepId && each.corner === corner && each.setAside === null)
  const shown = values['shownMm']
  const reading = here.findLast((each) => typeof shown !== 'number' || each.shownMm === shown)
  if (!reading || reading.keptAt !== undefined) return null
  const suggested = values['suggestedMm']
  return {
    remark, readingId: reading.id, stepId, corner, place: placeOf(stepId, corner),
    suggestedMm: typeof suggested === 'number' ? suggested : null,
  }
}

/** Says in a draft that a reading is right as it stands. */
export function keepReading(session: Read, readingId: string, at: string): void {
  const reading = session.readings.find((each) => each.id === readingId)
  if (reading) reading.keptAt = at
}

/** Puts a reading aside in a draft, or takes it back; its value stays in the file. */
export function turnReading(session: Read, readingId: string, at: string, why: string): void {
  const reading = session.readings.find((each) => each.id === readingId)
  if (reading) reading.setAside = reading.setAside ? null : { at, why }
}
