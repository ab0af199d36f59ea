/** What a photo says of its own camera: maker, model and focal length (Exif, CIPA DC-008 / JEITA CP-3451). */

export interface CameraSaid {
  /** Maker and model as written in the file; may be empty. */
  readonly says: string
  /** Focal length on the 35 mm format, mm; null where it is not told. */
  readonly focal35Mm: number | null
}

const MAKE = 0x010f
const MODEL = 0x0110
const EXIF_PART = 0x8769
const FOCAL_35 = 0xa405
const ASCII = 2
const SHORT = 3
const LONG = 4

/**
 * Looks for the Exif block anywhere in the file's beginning: JPEG, HEIF and PNG keep it in boxes of
 * their own, with the same block inside. Never throws.
 *
 * @param bytes the file's beginning
 * @returns null where there is none, or it says nothing of the camera
 */
export function readCamera(bytes: Uint8Array): CameraSaid | null {
  const start = tiffStart(bytes)
  if (start < 0) return null
  const view = new DataView(bytes.buffer, bytes.byteOffset + start, bytes.length - start)
  const little = view.getUint8(0) === 0x49
  try {
    const first = entriesAt(view, view.getUint32(4, little), little)
    const says = [MAKE, MODEL].map((tag) => textOf(view, first.get(tag), little)).filter((each) => each !== '')
    const part = first.get(EXIF_PART)
    const inner = part ? entriesAt(view, part.value, little) : new Map<number, Entry>()
    const focal = inner.get(FOCAL_35)
    const focal35Mm = focal && focal.type === SHORT && focal.value >= 1 && focal.value <= 5000 ? focal.value : null
    const said = unrepeated(says).slice(0, 200)
    return said === '' && focal35Mm === null ? null : { says: said, focal35Mm }
  } catch (error) {
    if (error instanceof RangeError) return null
    throw error
  }
}

interface Entry { readonly type: number; readonly count: number; readonly value: number; readonly place: number }

function entriesAt(view: DataView, at: number, little: boolean): Map<number, Entry> {
  const entries = new Map<number, Entry>()
  const count = Math.min(view.getUint16(at, little), 500)
  for (let i = 0; i < count; i++) {
    const place = at + 2 + 12 * i
    const type = view.getUint16(place + 2, little)
    const value = type === SHORT ? view.getUint16(place + 8, little) : view.getUint32(place + 8, little)
    const tag = view.getUint16(place, little)
    entries.set(tag, { type, count: view.getUint32(place + 4, little), value, place: place + 8 })
  }
  return entries
}

function textOf(view: DataView, entry: Entry | undefined, little: boolean): string {
  if (!entry || entry.type !== ASCII || entry.count > 200) return ''
  const from = entry.count <= LONG ? entry.place : view.getUint32(entry.place, little)
  const letters = Array.from({ length: entry.count }, (_, i) => view.getUint8(from + i))
  return String.fromCharCode(...letters.filter((each) => each >= 0x20 && each < 0x7f)).trim()
}

/** A model that begins with its maker's name says it twice. */
const unrepeated = ([make = '', model = '']: string[]): string =>
  (model === '' || model.toLowerCase().startsWith(make.toLowerCase()) ? model || make : `${make} ${model}`)

/** After "Exif" and two zeros (PNG: after "eXIf"): the block's own beginning, with its byte order. */
function tiffStart(bytes: Uint8Array): number {
  for (let i = 0; i + 18 < bytes.length; i++) {
    if (bytes[i] !== 0x45 && bytes[i] !== 0x65) continue
    const name = String.fromCharCode(bytes[i]!, bytes[i + 1]!, bytes[i + 2]!, bytes[i + 3]!)
    const at = name === 'Exif' && bytes[i + 4] === 0 && bytes[i + 5] === 0 ? i + 6 : name === 'eXIf' ? i + 4 : -1
    if (at < 0) continue
    const order = `${bytes[at]} ${bytes[at + 1]} ${bytes[at + 2]} ${bytes[at + 3]}`
    if (order === '73 73 42 0' || order === '77 77 0 42') return at
  }
  return -1
}
