/**
 * The seal of a stored document: a digest of its content, written with it. A file whose content changed outside (a
 * fault of the disk, another program, a hand) still opens, but is told from one that is as it was written.
 */
import { createHash } from 'node:crypto'

const KEY = 'digest'

export type Seal = 'whole' | 'broken' | 'none'

/** Files are written for reading by people, too. */
export const fileText = (content: unknown): string => `${JSON.stringify(content, null, 1)}\n`

const digestOf = (content: object): string => createHash('sha256').update(fileText(content)).digest('hex')

/** The text of a file with its seal. */
export const sealedText = (content: object): string => fileText({ ...content, [KEY]: digestOf(content) })

/** What a file holds without its seal, and how that fits; files of before there were seals have none. */
export function unseal(value: unknown): { content: unknown; seal: Seal } {
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, KEY)) return { content: value, seal: 'none' }
  const { [KEY]: digest, ...content } = value as Record<string, unknown>
  return { content, seal: digest === digestOf(content) ? 'whole' : 'broken' }
}
