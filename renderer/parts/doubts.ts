/** Readings that the core doubts, to be asked about where they were typed. */
import { byGravity, type Remark } from '@core/remark'
import { cellOf, type Corner, type Reading } from '@core/schema'

/** Readings of a squat test or of an airflow run: `stepId` names the step or the state. */
interface Read { readonly readings: readonly Reading[] }

export interface Doubt {
  readonly remark: Remark
  readonly readingId: string
  readonly stepId: string
  readonly corner: Corner
  /** Its cell in the table. */
  readonly cell: string
  /** What the gauge may have shown, mm; null where nothing tells it. */
  readonly suggestedMm: number | null
}

/** True of a remark that puts one reading in doubt. */
export const isDoubting = ({ about }: Remark): boolean => about?.kind === 'reading'

/**
 * The doubts that stand, gravest first, one for a reading. A reading that was kept on purpose, put aside
 * or typed again since the remark was made is in doubt no more.
 */
export function doubtsOf(session: Read, remarks: readonly Remark[]): Doubt[] {
  const found = byGravity(remarks).flatMap((remark) => doubtOf(session, remark) ?? [])
  return found.filter((doubt, index) => found.findIndex((each) => each.readingId === doubt.readingId) === index)
}

function doubtOf({ readings }: Read, remark: Remark): Doubt | null {
  const { about } = remark
  if (about?.kind !== 'reading') return null
  const { readingId, stepId, corner } = about
  const reading = readings.find(({ id }) => id === readingId)
  const stands = reading?.setAside === null && reading.keptAt === undefined
    && reading.corrections.length === about.corrections
  if (!stands) return null
  const suggestedMm = remark.code === 'readingSlipped' ? remark.values.suggestedMm : null
  return { remark, readingId, stepId, corner, cell: cellOf(stepId, corner), suggestedMm }
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
