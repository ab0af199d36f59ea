/** What a picture file is, told from its first bytes: name endings and announced types are not believed. */

export type PictureFormat = 'png' | 'jpeg' | 'webp' | 'heif' | 'avif' | 'webm' | 'mp4' | 'tiff'

export interface PictureHeader {
  readonly format: PictureFormat
  /** Size as stored (before any rotation), px; null for clips, and where the header does not tell. */
  readonly size: { readonly widthPx: number; readonly heightPx: number } | null
}

/** As many first bytes as `readHeader` should be given; a JPEG may carry long notes before its size. */
export const HEADER_BYTES = 1 << 20

/** Longest side that a browser decodes, px, and most pixels held as they are: larger photos open scaled down. */
export const MAX_SIDE_PX = 16_384
export const MAX_PIXELS = 120_000_000

/** A size with the same shape that can be held, and by how many times it is smaller; null where it can't be decoded. */
export function heldSize(
  { widthPx, heightPx }: { readonly widthPx: number; readonly heightPx: number },
): { readonly widthPx: number; readonly heightPx: number; readonly shrunk: number } | null {
  if (Math.max(widthPx, heightPx) > MAX_SIDE_PX) return null
  // Halved as a whole, each px is the mean of four: no place moves.
  let shrunk = 1
  while ((widthPx * heightPx) / shrunk ** 2 > MAX_PIXELS) shrunk *= 2
  return { widthPx: Math.floor(widthPx / shrunk), heightPx: Math.floor(heightPx / shrunk), shrunk }
}

/**
 * Reads a file's header. Never throws.
 *
 * Formats: PNG (ISO/IEC 15948), JPEG (ITU-T T.81), WebP (its container specification, RFC 9649),
 * HEIF (HEIC) and AVIF (ISO/IEC 23008-12, by the brands of their `ftyp` box), WebM/Matroska (EBML,
 * RFC 8794), MP4 and QuickTime (ISO/IEC 14496-12), and TIFF, which is known only to be named.
 *
 * @param bytes the file's beginning, up to `HEADER_BYTES`
 * @returns null where it is none of the known formats
 */
export function readHeader(bytes: Uint8Array): PictureHeader | null {
  if (startsWith(bytes, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return { format: 'png', size: pngSize(bytes) }
  if (startsWith(bytes, [0xff, 0xd8, 0xff])) return { format: 'jpeg', size: jpegSize(bytes) }
  if (textAt(bytes, 0, 'RIFF') && textAt(bytes, 8, 'WEBP')) return { format: 'webp', size: webpSize(bytes) }
  if (startsWith(bytes, [0x1a, 0x45, 0xdf, 0xa3])) return { format: 'webm', size: null }
  if (TIFF_STARTS.some((start) => startsWith(bytes, start))) return { format: 'tiff', size: null }
  const brands = brandsOf(bytes)
  if (brands.some((each) => AVIF_BRANDS.includes(each))) return { format: 'avif', size: null }
  if (brands.some((each) => HEIF_BRANDS.includes(each))) return { format: 'heif', size: null }
  if (['ftyp', 'moov', 'mdat', 'wide', 'free'].some((name) => textAt(bytes, 4, name))) return { format: 'mp4', size: null }
  return null
}

/** Classic and big TIFF, each in both byte orders; camera makers' raw files begin so, too. */
const TIFF_STARTS = [[0x49, 0x49, 0x2a, 0], [0x4d, 0x4d, 0, 0x2a], [0x49, 0x49, 0x2b, 0], [0x4d, 0x4d, 0, 0x2b]]
const AVIF_BRANDS = ['avif', 'avis']
/** Still pictures and bursts. Films have brands of their own (`isom`, `qt  `, ..). */
const HEIF_BRANDS = ['heic', 'heix', 'heim', 'heis', 'hevc', 'hevx', 'mif1', 'msf1']

/** The major brand and the compatible ones of an `ftyp` box at the file's beginning. */
function brandsOf(bytes: Uint8Array): string[] {
  if (!textAt(bytes, 4, 'ftyp')) return []
  const end = Math.min(big32(bytes, 0), bytes.length, 400)
  const found: string[] = []
  for (let at = 8; at + 4 <= end; at += at === 8 ? 8 : 4) found.push(String.fromCharCode(...bytes.subarray(at, at + 4)))
  return found
}

const startsWith = (bytes: Uint8Array, start: readonly number[]): boolean =>
  bytes.length >= start.length && start.every((each, i) => bytes[i] === each)

const textAt = (bytes: Uint8Array, at: number, text: string): boolean =>
  bytes.length >= at + text.length && [...text].every((letter, i) => bytes[at + i] === letter.charCodeAt(0))

type Size = PictureHeader['size']

const sizeOf = (widthPx: number, heightPx: number): Size => (widthPx > 0 && heightPx > 0 ? { widthPx, heightPx } : null)

const big16 = (bytes: Uint8Array, at: number): number => (bytes[at]! << 8) | bytes[at + 1]!
const big32 = (bytes: Uint8Array, at: number): number => big16(bytes, at) * 65_536 + big16(bytes, at + 2)
const little24 = (bytes: Uint8Array, at: number): number => bytes[at]! | (bytes[at + 1]! << 8) | (bytes[at + 2]! << 16)

function pngSize(bytes: Uint8Array): Size {
  if (bytes.length < 24 || !textAt(bytes, 12, 'IHDR')) return null
  return sizeOf(big32(bytes, 16), big32(bytes, 20))
}

/** Walks the segments up to the frame header (SOF0 to SOF15, but the three that are none). */
function jpegSize(bytes: Uint8Array): Size {
  let at = 2
  while (at + 9 < bytes.length) {
    if (bytes[at] !== 0xff) return null
    const marker = bytes[at + 1]!
    if (marker === 0xff) {
      at += 1
      continue
    }
    if (marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker)) {
      return sizeOf(big16(bytes, at + 7), big16(bytes, at + 5))
    }
    if (marker === 0xda || marker === 0xd9) return null
    const alone = marker === 0x01 || (marker >= 0xd0 && marker <= 0xd8)
    const length = alone ? 0 : big16(bytes, at + 2)
    if (!alone && length < 2) return null
    at += 2 + length
  }
  return null
}

function webpSize(bytes: Uint8Array): Size {
  if (bytes.length < 30) return null
  if (textAt(bytes, 12, 'VP8X')) return sizeOf(little24(bytes, 24) + 1, little24(bytes, 27) + 1)
  if (textAt(bytes, 12, 'VP8L')) {
    const bits = bytes[21]! | (bytes[22]! << 8) | (bytes[23]! << 16) | (bytes[24]! << 24)
    return sizeOf((bits & 0x3fff) + 1, ((bits >>> 14) & 0x3fff) + 1)
  }
  if (!textAt(bytes, 12, 'VP8 ')) return null
  return sizeOf((bytes[26]! | (bytes[27]! << 8)) & 0x3fff, (bytes[28]! | (bytes[29]! << 8)) & 0x3fff)
}

/**
 * False where a still was cut off: a PNG without its end chunk, a JPEG without its end marker in the
 * last bytes, a WebP shorter than it says. Others are always taken as whole: decoding tells. A phone
 * may append a film to a JPEG (motion photo): then its end stands far before the file's, see `walkPixels`.
 *
 * @param tail the file's last bytes, 64 kB or all of it
 */
export function isWhole(format: PictureFormat, sizeBytes: number, head: Uint8Array, tail: Uint8Array): boolean {
  if (format === 'png') return indexOfText(tail, 'IEND') >= 0
  if (format === 'jpeg') {
    for (let i = tail.length - 2; i >= 0; i--) if (tail[i] === 0xff && tail[i + 1] === 0xd9) return true
    return false
  }
  if (format !== 'webp' || head.length < 8) return true
  return (head[4]! | (head[5]! << 8) | (head[6]! << 16)) + head[7]! * 0x1000000 + 8 <= sizeBytes + 1
}

function indexOfText(bytes: Uint8Array, text: string): number {
  for (let i = bytes.length - text.length; i >= 0; i--) if (textAt(bytes, i, text)) return i
  return -1
}

/** Where the pixels of a JPEG begin, bytes: behind the head and the small picture in it; null for a broken head. */
export function pixelsStart(head: Uint8Array): number | null {
  let at = 2
  while (at + 4 < head.length && head[at] === 0xff) {
    const marker = head[at + 1]!
    if (marker === 0xda) return at
    at += marker === 0xff ? 1 : 2 + big16(head, at + 2)
  }
  return null
}

/** Markers that may stand between a JPEG's scans, with a length behind them: tables, notes, the next scan. */
const BETWEEN_SCANS = [0xc4, 0xcc, 0xda, 0xdb, 0xdc, 0xdd, 0xfe]
const carriesLength = (marker: number): boolean => BETWEEN_SCANS.includes(marker) || (marker >= 0xe0 && marker <= 0xef)

/**
 * Walks the pixels of a JPEG to their end, and looks at every byte ff in them: what follows it can only be a stuffed 0,
 * a restart, or what may stand between scans (ITU-T T.81, B.1.1.5 and B.2.1). Anything else was overwritten. Damage
 * that leaves no such byte is not seen.
 *
 * @param bytes from the first scan on, see `pixelsStart`; a film may follow the end
 */
export function walkPixels(bytes: Uint8Array): 'whole' | 'damaged' | 'cutOff' {
  let isDamaged = false
  for (let at = bytes.indexOf(0xff); at >= 0 && at + 1 < bytes.length; at = bytes.indexOf(0xff, at)) {
    const marker = bytes[at + 1]!
    if (marker === 0xd9) return isDamaged ? 'damaged' : 'whole'
    if (marker === 0xff) {
      at += 1
      continue
    }
    const known = marker === 0 || (marker >= 0xd0 && marker <= 0xd7) || carriesLength(marker)
    if (!known) isDamaged = true
    // Past the first damage a length may be no length.
    at += 2 + (carriesLength(marker) && !isDamaged ? big16(bytes, at + 2) : 0)
  }
  return 'cutOff'
}
