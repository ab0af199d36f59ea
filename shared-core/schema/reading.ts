/** One reading of one corner, whatever it came from, with its history. */
import { z } from 'zod'
import { between, correction, corner, id, moment, setAside, standardUncertainty, type Corner } from './scalars'

/**
 * A part of a picture reading's uncertainty that other readings have too (the length of the scale
 * bar, the lens, a sticker's depth): the name of its source and its signed contribution in mm.
 */
export const sharedPart = z.strictObject({ source: z.string().min(1).max(200), contributionMm: between(-50, 50) })

/**
 * Where a reading came from: the session's gauge, or a picture. `uMm` is the standard uncertainty
 * of this reading alone; `shared` holds the rest, which cancels in a drop as far as it is shared.
 */
export const readingSource = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('gauge') }),
  z.strictObject({
    kind: z.literal('picture'),
    pictureId: id,
    uMm: standardUncertainty(50),
    shared: z.array(sharedPart).max(100).optional(),
  }),
])

/** A reading that was corrected so often is put aside, and a fresh one goes on. */
export const MOST_CORRECTIONS = 10_000

/**
 * What the gauge showed at one corner, mm: a ride height, or a drop where the gauge reads drops.
 * `stepId` names the squat step or airflow state it belongs to.
 */
export const reading = z.strictObject({
  id,
  stepId: id,
  corner,
  at: moment,
  shownMm: between(-1000, 1000),
  from: readingSource,
  corrections: z.array(correction(between(-1000, 1000))).max(MOST_CORRECTIONS),
  setAside,
  /** When somebody looked at an odd reading and said that it is right. */
  keptAt: moment.optional(),
})
export type Reading = z.infer<typeof reading>
/** The cell of the table a reading belongs to, as a key: its step or state, and its corner. */
export const cellOf = (stepId: string, at: Corner): string => `${stepId} ${at}`

export type ReadingSource = z.infer<typeof readingSource>

/** Which end of the tray the builder saw on the ground. */
export const touched = z.strictObject({ front: z.boolean(), rear: z.boolean() })
export type Touched = z.infer<typeof touched>

/**
 * What is done before reading: nothing (the reading stays on the branch it came by), a tap, or two
 * bounces (the reading is taken as mid-branch).
 */
export const settle = z.enum(['none', 'tap', 'bounce'])
export type Settle = z.infer<typeof settle>
