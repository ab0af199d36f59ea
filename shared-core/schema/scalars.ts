/**
 * The small pieces every document of the product is made of: identifiers, texts, moments, finite
 * numbers with a range, and measured values with their standard uncertainty.
 *
 * Units: SI inside, heights and lengths on the car in mm; the unit stands in each key's name.
 */
import { z } from 'zod'

/** Version written into every file. A file of a newer version is refused with words. */
export const SCHEMA_VERSION = 2

/** Identifier: a lower-case word of letters, digits and hyphens; safe as a file name everywhere. */
export const id = z
  .string()
  .regex(/^[a-z0-9](?:[a-z0-9-]{0,62}[a-z0-9])?$/, 'use 1 to 64 lower-case letters, digits or hyphens')
export type Id = z.infer<typeof id>

/** A one-line name typed by the builder; any script, no control characters. */
export const name = z
  .string()
  .trim()
  .min(1, 'give it a name')
  .max(200, 'keep it under 200 characters')
  .refine((text) => !/[\u0000-\u001f\u007f]/.test(text), {
    params: { code: 'oneLine' }, message: 'a name is one line without control characters',
  })

/** A free note. */
export const note = z.string().max(10_000, 'keep the note under 10,000 characters')

/** A moment, ISO 8601 in UTC with milliseconds as `Date.toISOString` writes it. */
export const moment = z.iso.datetime({ message: 'use a moment like 2031-05-04T09:30:00.000Z' })

/** A finite number between two bounds, both included. */
export const between = (low: number, high: number) =>
  z.number({ message: 'a number is needed' }).min(low, `not below ${low}`).max(high, `not above ${high}`)

/** A standard uncertainty: a finite number, zero or more. */
export const standardUncertainty = (high: number) => between(0, high)

/**
 * A measured value with its standard uncertainty, both in the unit that the key names,
 * such as `cgHeightMm: { value: 24, u: 2 }`.
 */
export const measured = (low: number, high: number) =>
  z.strictObject({ value: between(low, high), u: standardUncertainty(high - low) })
export type Measured = { value: number; u: number }

/** The four corners in the one order used everywhere: front left, front right, rear left, rear right. */
export const CORNERS = ['frontLeft', 'frontRight', 'rearLeft', 'rearRight'] as const
export const corner = z.enum(CORNERS)
export type Corner = z.infer<typeof corner>

/** The two axles in the one order used everywhere. */
export const AXLES = ['front', 'rear'] as const
export const axle = z.enum(AXLES)
export type Axle = z.infer<typeof axle>

/** One value for each corner. */
export const perCorner = <T extends z.ZodType>(each: T) =>
  z.strictObject({ frontLeft: each, frontRight: each, rearLeft: each, rearRight: each })

/** One value for each axle. */
export const perAxle = <T extends z.ZodType>(each: T) => z.strictObject({ front: each, rear: each })

/**
 * What was there before a correction. Readings are never overwritten: the newest value stands in
 * the reading, the older ones here, oldest first, each with the reason the builder gave.
 */
export const correction = <T extends z.ZodType>(value: T) =>
  z.strictObject({ was: value, at: moment, why: note })

/** Set when the builder put a reading aside; it is kept and shown, and takes no part in results. */
export const setAside = z.strictObject({ at: moment, why: note }).nullable()
