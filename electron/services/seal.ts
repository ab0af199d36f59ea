/**
 * The seal of a stored document: a digest of its content, written with it. A file whose content changed outside (a
 * fault of the disk, another program, a hand) still opens, but is told from one that is as it was written.
 */
import { createHash } from 'node:crypto'

const KEY = 'digest'

export type Seal = 'whole' | 'broken' | 'none'

/** Files are written for reading by people, too. */
export const fileText = (content: unknown): string => `${JSON.stringify(content, null, 1)}\n`

const digestOf = (text: string): string => createHash('sha256').update(text).digest('hex')

/** How the text of an object ends, and how it goes on where a seal is put at its end. */
const END = '\n}\n'
const sealLine = (digest: string): string => `,\n "${KEY}": "${digest}"`

/** The text of a file with its seal, which is the last of its keys. @param content holds a key at least */
export function sealedText(content: object): string {
  const text = fileText(content)
  return text.slice(0, -END.length) + sealLine(digestOf(text)) + END
}

/**
 * What a file holds without its seal, and how that fits; files of before there were seals have none.
 * @param text the file's own text, which spares writing its content anew
 */
export function unseal(value: unknown, text: string): { content: unknown; seal: Seal } {
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, KEY)) return { content: value, seal: 'none' }
  const { [KEY]: digest, ...content } = value as Record<string, unknown>
  const line = sealLine(String(digest)) + END
  const asWritten = text.endsWith(line) && digest === digestOf(text.slice(0, -line.length) + END)
  // Otherwise laid out by another hand, the content may still be the same.
  return { content, seal: asWritten || digest === digestOf(fileText(content)) ? 'whole' : 'broken' }
}
