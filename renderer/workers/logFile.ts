/** A logger's file before its text: how the text is coded, and what a zip of logs holds. */
import { unzipSync } from 'fflate'

/** How a text is coded: by its byte order mark, else UTF-8 where it is that, else the old single-byte code. */
export type LogEncoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252'

/** At most so many bytes of one character may be cut off at the end of a first part. */
const LONGEST_CHARACTER = 4

/** @param head first part of the file */
export function encodingOf(head: Uint8Array): LogEncoding {
  if (head[0] === 0xff && head[1] === 0xfe) return 'utf-16le'
  if (head[0] === 0xfe && head[1] === 0xff) return 'utf-16be'
  for (let cut = 0; cut < LONGEST_CHARACTER; cut++) {
    try {
      new TextDecoder('utf-8', { fatal: true }).decode(head.subarray(0, head.length - cut))
      return 'utf-8'
    } catch {
      continue
    }
  }
  return 'windows-1252'
}

/** True for a zip archive, by its first bytes. */
export const isZip = (head: Uint8Array): boolean =>
  head[0] === 0x50 && head[1] === 0x4b && head[2] === 0x03 && head[3] === 0x04

/** An entry larger than this would not fit into the memory of a small machine. */
const LARGEST_ENTRY = 1e9
const isLog = (name: string): boolean => /\.(csv|txt|tsv|log|dat)$/i.test(name) && !name.startsWith('__MACOSX/')

/**
 * Names of the logs in a zip, the likeliest first: one that is named for acceleration, and not for one
 * without gravity, which can't tell how the sensor lies.
 */
export function logsIn(zip: Uint8Array): string[] {
  const names: string[] = []
  unzipSync(zip, {
    filter: ({ name, originalSize }) => {
      if (isLog(name) && originalSize <= LARGEST_ENTRY) names.push(name)
      return false
    },
  })
  const rank = (name: string): number =>
    (/acc|beschl/i.test(name) ? 0 : 2) + (/linear|user|uncal/i.test(name) ? 1 : 0)
  return names.sort((a, b) => rank(a) - rank(b) || a.localeCompare(b, 'en'))
}

/** One log of a zip, unpacked. @throws Error where it is not in there */
export function unpacked(zip: Uint8Array, name: string): Uint8Array<ArrayBuffer> {
  const found = unzipSync(zip, { filter: (each) => each.name === name })[name]
  if (!found) throw new Error(name)
  return new Uint8Array(found)
}
