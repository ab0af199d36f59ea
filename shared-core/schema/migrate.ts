/**
 * Opens a stored document of any version: older ones are brought forward step by step on a copy,
 * newer ones are refused, and what does not fit is told with its path. Pure: the caller decides
 * what becomes of the original.
 */
import type { z } from 'zod'
import { chassis } from './chassis'
import { exchange, EXCHANGE_FORMAT } from './exchange'
import type { Exchange } from './exchange'
import { problemsOf } from './problems'
import type { Problem, ProblemCode } from './problems'
import { SCHEMA_VERSION } from './scalars'
import { session } from './session'

type Raw = Record<string, unknown>

/** Brings a document of one version to the next. Gets its own copy, may change it, returns it. */
export type MigrationStep = (document: Raw) => Raw

/** The steps of each kind of document; the one at index i leads from version i + 1 to i + 2. */
export interface MigrationSteps {
  chassis: readonly MigrationStep[]
  session: readonly MigrationStep[]
  exchange: readonly MigrationStep[]
}

/** Version 2 only added keys that may be left out; what each means then stands with it in the schema. */
const toVersion2: MigrationStep = (document) => document

/** A new version adds one step to each list, even if it changes nothing. */
export const MIGRATION_STEPS: MigrationSteps = { chassis: [toVersion2], session: [toVersion2], exchange: [toVersion2] }

/** What opening a document came to. `fromVersion` is the version found in the original. */
export type Opening<T> =
  | { kind: 'opened'; document: T; fromVersion: number }
  | { kind: 'newer'; version: number }
  | { kind: 'refused'; problems: Problem[]; total: number }

/** The words for a document of a version this program does not know. */
export const newerWords = (version: number): string =>
  `written by a newer Squatbench (file version ${version}, this one knows up to ${SCHEMA_VERSION}). `
  + 'Open it with that newer version; nothing was changed'

const isRaw = (value: unknown): value is Raw => typeof value === 'object' && value !== null && !Array.isArray(value)

const refusal = (
  where: string, what: string, code?: ProblemCode,
): { kind: 'refused'; problems: Problem[]; total: number } =>
  ({ kind: 'refused', problems: [{ where, what, ...(code && { code }) }], total: 1 })

/** Reads the version and walks the steps up to `steps.length + 1`, on a copy. */
function bringForward(raw: unknown, steps: readonly MigrationStep[]): Opening<unknown> {
  if (!isRaw(raw)) return refusal('(whole)', 'this is not a document: an object in braces is needed', 'noDocument')
  const found = raw['schemaVersion']
  if (typeof found !== 'number' || !Number.isInteger(found) || found < 1) {
    return refusal('schemaVersion', `a whole number from 1 to ${steps.length + 1} is needed`)
  }
  const target = steps.length + 1
  if (found > target) return { kind: 'newer', version: found }
  if (found === target) return { kind: 'opened', document: raw, fromVersion: found }
  try {
    const document = steps.slice(found - 1)
      .reduce<Raw>((at, step, index) => ({ ...step(at), schemaVersion: found + index + 1 }), structuredClone(raw))
    return { kind: 'opened', document, fromVersion: found }
  } catch (error) {
    return refusal('(whole)', `this file of version ${found} could not be brought forward: ${String(error)}`)
  }
}

function openWith<T>(schema: z.ZodType<T>, raw: unknown, steps: readonly MigrationStep[]): Opening<T> {
  const forward = bringForward(raw, steps)
  if (forward.kind !== 'opened') return forward
  const parsed = schema.safeParse(forward.document)
  if (!parsed.success) return { kind: 'refused', ...problemsOf(parsed.error) }
  return { kind: 'opened', document: parsed.data, fromVersion: forward.fromVersion }
}

/** Opens the content of a `chassis.json`. */
export const openChassis = (raw: unknown, steps = MIGRATION_STEPS) => openWith(chassis, raw, steps.chassis)

/** Opens the content of a session file. */
export const openSession = (raw: unknown, steps = MIGRATION_STEPS) => openWith(session, raw, steps.session)

/** Opens an exchange file: the document around, its chassis and each session have their own versions. */
export function openExchange(raw: unknown, steps = MIGRATION_STEPS): Opening<Exchange> {
  if (!isRaw(raw)) return refusal('(whole)', 'this is not an exchange file: an object in braces is needed', 'noSquatbenchFile')
  if (raw['format'] !== EXCHANGE_FORMAT) {
    return refusal('format', `"${EXCHANGE_FORMAT}" is needed: this is not an exchange file of Squatbench`, 'noSquatbenchFile')
  }
  const outer = bringForward(raw, steps.exchange)
  if (outer.kind !== 'opened') return outer
  const document = outer.document as Raw
  const inner = bringForward(document['chassis'], steps.chassis)
  if (inner.kind !== 'opened') return under('chassis', inner)
  if (!Array.isArray(document['sessions'])) return refusal('sessions', 'a list of sessions is needed')
  const sessions: unknown[] = []
  for (const [index, each] of document['sessions'].entries()) {
    const forward = bringForward(each, steps.session)
    if (forward.kind !== 'opened') return under(`sessions[${index}]`, forward)
    sessions.push(forward.document)
  }
  const parsed = exchange.safeParse({ ...document, chassis: inner.document, sessions })
  if (!parsed.success) return { kind: 'refused', ...problemsOf(parsed.error) }
  return { kind: 'opened', document: parsed.data, fromVersion: outer.fromVersion }
}

/** Puts the place of an inner document before the places of its problems. */
function under<T extends Opening<unknown>>(place: string, opening: T): T {
  if (opening.kind !== 'refused') return opening
  const problems = opening.problems.map(({ where, what }) => ({
    where: where === '(whole)' ? place : `${place}.${where}`, what,
  }))
  return { ...opening, problems }
}

/** Longest exchange text taken, characters. */
export const MAX_EXCHANGE_CHARACTERS = 200_000_000

/** Opens the text of an exchange file; a text that is no JSON is refused with what the parser found. */
export function openExchangeText(text: string, steps = MIGRATION_STEPS): Opening<Exchange> {
  if (text.length > MAX_EXCHANGE_CHARACTERS) {
    return refusal('(whole)', `too long: at most ${MAX_EXCHANGE_CHARACTERS} characters are read`)
  }
  const json = readJson(text)
  return json.ok ? openExchange(json.value, steps) : refusal('(whole)', json.why)
}

/** Parses JSON text (a byte order mark is let pass) without throwing. */
export function readJson(text: string): { ok: true; value: unknown } | { ok: false; why: string } {
  try {
    return { ok: true, value: JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text) }
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error)
    return { ok: false, why: `this is not JSON text (${why.slice(0, 200)})` }
  }
}
