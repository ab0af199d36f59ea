/**
 * The one table of services. Each service is a name, a zod schema of what goes in and one of what
 * comes out. The desktop bridge and the loopback host are two thin transports over this table; the
 * renderer's client is typed from it. Nothing else crosses between window and machine.
 */
import { z } from 'zod'
import { chassis, id, moment, name, PROBLEM_CODES, session } from '@core/schema'
import { CHOICES, DECIMAL_MARKS, DEFAULT_UNITS } from '@core/units'

/** A document of the library: a chassis, or one of its sessions. */
const place = z.strictObject({ chassisId: id, sessionId: id.nullable() })

/**
 * A file that did not parse, or that changed since it was written: it was left as it is, the rest opened. `spare`
 * where the copy of before its last change can be taken in its place.
 */
export const unreadable = z.strictObject({ file: z.string(), why: z.string(), spare: place.optional() })

const revision = z.number().int().min(0)

/** What became of a save: written, or refused because another window wrote first. */
const saved = z.strictObject({ kind: z.literal('saved'), revision })
const outcome = <T extends z.ZodType>(current: T) =>
  z.discriminatedUnion('kind', [saved, z.strictObject({ kind: z.literal('conflict'), current })])

/** How the builder wants things shown; kept per builder, not per chassis. */
export const preferences = z.strictObject({
  theme: z.enum(['system', 'light', 'dark']),
  language: z.enum(['en', 'de']),
  force: z.enum(CHOICES.force),
  length: z.enum(CHOICES.length),
  speed: z.enum(CHOICES.speed),
  mass: z.enum(CHOICES.mass),
  temperature: z.enum(CHOICES.temperature),
  decimalMark: z.enum(DECIMAL_MARKS),
  cues: z.enum(['none', 'beep', 'speech']),
})

export const DEFAULT_PREFERENCES: z.infer<typeof preferences> = {
  ...DEFAULT_UNITS, theme: 'system', language: 'en', cues: 'none',
}

export const summary = z.strictObject({
  id, name, changedAt: moment, sessionCount: z.number().int().min(0), sessionNames: z.array(z.string()),
})

const nothing = z.strictObject({})

/** A plain name of a file, of letters, digits and a few signs: never a path, a hidden file or another kind of file. */
const tableName = z.string().max(200).regex(/^[\p{L}\p{N}_][\p{L}\p{N} ._-]*\.csv$/u)

export const services = {
  'app.info': {
    input: nothing,
    output: z.strictObject({
      version: z.string(),
      transport: z.enum(['desktop', 'host']),
      canMakePdf: z.boolean(),
      libraryWritable: z.boolean(),
    }),
  },
  'preferences.read': { input: nothing, output: preferences },
  'preferences.save': { input: preferences, output: preferences },
  /** Tells this library from another one that is served at the same address at another time. */
  'library.identity': { input: nothing, output: z.strictObject({ libraryId: z.string().regex(/^[0-9a-f]{16}$/) }) },
  'library.list': {
    input: nothing,
    output: z.strictObject({ chassis: z.array(summary), unreadable: z.array(unreadable) }),
  },
  'library.open': {
    input: z.strictObject({ chassisId: id }),
    output: z.strictObject({
      chassis,
      sessions: z.array(session),
      unreadable: z.array(unreadable),
      /** Opened as well, but not as they were written. */
      altered: z.array(unreadable),
    }),
  },
  /** Revisions as they stand on disk, to notice another window's writing. */
  'library.revisions': {
    input: z.strictObject({ chassisId: id }),
    output: z.strictObject({ chassis: revision, sessions: z.record(id, revision) }),
  },
  /** `baseRevision` is the revision the change was made from; 0 makes a new file. */
  'library.saveChassis': {
    input: z.strictObject({ chassis, baseRevision: revision }),
    output: outcome(chassis),
  },
  'library.saveSession': {
    input: z.strictObject({ session, baseRevision: revision }),
    output: outcome(session),
  },
  /** Moves the files to the library's `removed` folder; nothing is deleted. */
  'library.removeChassis': { input: z.strictObject({ chassisId: id }), output: nothing },
  'library.removeSession': { input: z.strictObject({ chassisId: id, sessionId: id }), output: nothing },
  /** Puts the copy of before a document's last change in its place; what stands there is kept aside. */
  'library.restore': { input: place, output: nothing },
  /** Takes an exchange file's text. A chassis id that exists already gets a new id, and says so. */
  'exchange.import': {
    input: z.strictObject({ text: z.string().max(200_000_000) }),
    output: z.strictObject({ chassisId: id, renamedFrom: id.nullable() }),
  },
  'exchange.export': {
    input: z.strictObject({ chassisId: id }),
    output: z.strictObject({ fileName: z.string(), text: z.string() }),
  },
  /** Prints a complete HTML document to PDF (desktop only; `app.info` tells). */
  'report.pdf': {
    input: z.strictObject({ html: z.string().max(50_000_000) }),
    output: z.strictObject({ base64: z.string() }),
  },
  /** Puts tables into a folder that the builder is asked for, once (desktop only; a browser downloads each). */
  'report.tables': {
    input: z.strictObject({
      files: z.array(z.strictObject({ fileName: tableName, text: z.string() })).min(1).max(500),
    }),
    output: z.discriminatedUnion('kind', [
      z.strictObject({ kind: z.literal('saved'), folder: z.string() }), z.strictObject({ kind: z.literal('cancelled') }),
    ]),
  },
} as const

export type ServiceName = keyof typeof services
export type ServiceInput<N extends ServiceName> = z.infer<(typeof services)[N]['input']>
export type ServiceOutput<N extends ServiceName> = z.infer<(typeof services)[N]['output']>

/** What a transport answers. `message` says what, where and what to do, in plain words. */
export const serviceError = z.strictObject({
  code: z.enum([
    'badInput', 'notFound', 'notWritable', 'noSpace', 'newerVersion', 'unavailable', 'refused', 'noSession', 'otherLibrary',
    'libraryGone', 'failed',
  ]),
  message: z.string(),
  problems: z.array(z.strictObject({
    where: z.string(), what: z.string(), code: z.enum(PROBLEM_CODES).optional(), limit: z.string().optional(),
  })),
})
export type ServiceError = z.infer<typeof serviceError>
export type Answer<T> = { ok: true; value: T } | { ok: false; error: ServiceError }

export type Preferences = z.infer<typeof preferences>
export type ChassisSummary = z.infer<typeof summary>
export type Unreadable = z.infer<typeof unreadable>
export type DocumentPlace = z.infer<typeof place>
