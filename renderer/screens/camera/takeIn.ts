/**
 * Takes a file the builder chose or dropped: looks at its ends (through a JPEG's pixels, too), and says in plain words
 * what is wrong with it. Clips are never read whole.
 */
import {
  FINGERPRINT_BYTES, fingerprintOf, HEADER_BYTES, heldSize, isWhole, MAX_SIDE_PX, pixelsStart, readCamera, readHeader,
  walkPixels, type CameraSaid, type PictureFormat,
} from '@core/camera'
import type { ClipInfo } from '../../workers/camera.worker'
import { openClip } from './clips'
import { decodeHeif } from './heif'

/** A file that can be worked on. */
export interface TakenFile {
  readonly file: File
  readonly format: PictureFormat
  readonly fingerprint: string
  readonly widthPx: number
  readonly heightPx: number
  /** For clips. */
  readonly clip: ClipInfo | null
  /** What is shown in its place where the window can't show the file itself, or not in its full size. */
  readonly stand: Blob | null
  /** By how many times `stand` is smaller than the file; 1 for its own size. */
  readonly shrunk: number
  /** Something in its pixels was overwritten: it opens, but may show what was not there. */
  readonly damaged?: true
  readonly camera: CameraSaid | null
}

/** Why a file was not taken: a key under `camera.refused`, with what its sentence needs. */
export interface FileRefusal {
  readonly key: FileRefusalKey
  readonly values: Readonly<Record<string, string | number>>
}
export type FileRefusalKey =
  | 'empty' | 'tiff' | 'hevc' | 'heif' | 'wrongType' | 'damaged' | 'cutOff' | 'tooLarge' | 'unreadable' | 'notAClip' | 'noFrames' | 'noDecoder'
  | 'cannotPlay'

const CLIPS: readonly PictureFormat[] = ['webm', 'mp4']
const refuse = (key: FileRefusalKey, values: FileRefusal['values'] = {}): FileRefusal => ({ key, values })
export const isRefusal = (taken: TakenFile | FileRefusal): taken is FileRefusal => 'key' in taken

const bytesOf = async (file: File, from: number, to: number): Promise<Uint8Array> =>
  new Uint8Array(await file.slice(Math.max(0, from), to).arrayBuffer())

/** The fingerprint of a file by its size and its two ends. */
export async function fingerprintOfFile(file: File): Promise<string> {
  const head = await bytesOf(file, 0, FINGERPRINT_BYTES)
  const tail = await bytesOf(file, file.size - FINGERPRINT_BYTES, file.size)
  return fingerprintOf(file.size, head, tail)
}

/** Looks a file over. `onProgress` tells how many frames of a clip were counted so far. */
export async function takeIn(file: File, onProgress: (frames: number) => void): Promise<TakenFile | FileRefusal> {
  if (file.size === 0) return refuse('empty', { name: file.name })
  try {
    const head = await bytesOf(file, 0, HEADER_BYTES)
    const header = readHeader(head)
    if (!header) return refuse('wrongType', { name: file.name })
    if (header.format === 'tiff') return refuse('tiff', { name: file.name })
    const fingerprint = await fingerprintOfFile(file)
    if (CLIPS.includes(header.format)) return await takeClip(file, header.format, fingerprint, onProgress)
    const known = { file, format: header.format, fingerprint, clip: null, camera: readCamera(head) }
    if (header.format === 'heif' || header.format === 'avif') return await takeHeif(known)
    const { size } = header
    if (!size) return refuse('damaged', { name: file.name })
    const held = heldSize(size)
    if (!held) return refuse('tooLarge', { width: size.widthPx, height: size.heightPx, side: MAX_SIDE_PX })
    const state = await stateOf(file, header.format, head)
    if (state === 'cutOff') return refuse('cutOff', { name: file.name })
    const told = state === 'damaged' ? { ...known, damaged: true as const } : known
    if (held.shrunk > 1) return await takeShrunk(told, held)
    const shown = await decodedSize(file)
    return shown ? { ...told, ...shown, stand: null, shrunk: 1 } : refuse('damaged', { name: file.name })
  } catch {
    return refuse('unreadable', { name: file.name })
  }
}

type Known = Pick<TakenFile, 'file' | 'format' | 'fingerprint' | 'clip' | 'camera' | 'damaged'>

/** The phones' own formats: by the browser where it can, else by a decoder that is fetched only then. */
async function takeHeif(known: Known): Promise<TakenFile | FileRefusal> {
  const shown = await decodedSize(known.file)
  if (shown) return { ...known, ...shown, stand: null, shrunk: 1 }
  const decoded = known.format === 'heif' ? await decodeHeif(known.file) : null
  if (!decoded) return refuse('heif', { name: known.file.name })
  return { ...known, widthPx: decoded.widthPx, heightPx: decoded.heightPx, stand: decoded.picture, shrunk: 1 }
}

/** A photo of more pixels than can be worked with, scaled down to a half or a quarter. */
async function takeShrunk(
  known: Known, held: { widthPx: number; heightPx: number; shrunk: number },
): Promise<TakenFile | FileRefusal> {
  try {
    const whole = await createImageBitmap(known.file, {
      resizeWidth: held.widthPx, resizeHeight: held.heightPx, resizeQuality: 'high',
    })
    const canvas = new OffscreenCanvas(whole.width, whole.height)
    canvas.getContext('2d')?.drawImage(whole, 0, 0)
    whole.close()
    const stand = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.95 })
    return { ...known, widthPx: canvas.width, heightPx: canvas.height, stand, shrunk: held.shrunk }
  } catch {
    return refuse('damaged', { name: known.file.name })
  }
}

/** Whether a still was cut off or damaged; a JPEG with a film behind it has its end farther up. */
async function stateOf(file: File, format: PictureFormat, head: Uint8Array): Promise<'whole' | 'damaged' | 'cutOff'> {
  const tail = await bytesOf(file, file.size - FINGERPRINT_BYTES, file.size)
  const start = format === 'jpeg' ? pixelsStart(head) : null
  const walked = start === null ? 'cutOff' : walkPixels(await bytesOf(file, start, file.size))
  return walked === 'cutOff' && isWhole(format, file.size, head, tail) ? 'whole' : walked
}

async function takeClip(
  file: File, format: PictureFormat, fingerprint: string, onProgress: (frames: number) => void,
): Promise<TakenFile | FileRefusal> {
  const opened = await openClip(file, onProgress)
  if (typeof opened === 'string') return refuse(opened, { name: file.name })
  if (!(await canPlay(file))) {
    if (opened.codec === 'hevc') return refuse('hevc', { name: file.name })
    return refuse('cannotPlay', { name: file.name, codec: opened.codec })
  }
  return {
    file, format, fingerprint, widthPx: opened.widthPx, heightPx: opened.heightPx, clip: opened, stand: null, shrunk: 1,
    camera: null,
  }
}

/** Size as shown (turned upright), or null where the picture does not decode. */
async function decodedSize(file: File): Promise<{ widthPx: number; heightPx: number } | null> {
  const address = URL.createObjectURL(file)
  const image = new Image()
  try {
    image.src = address
    await image.decode()
    return { widthPx: image.naturalWidth, heightPx: image.naturalHeight }
  } catch {
    return null
  } finally {
    URL.revokeObjectURL(address)
  }
}

/** True where the window's player shows the clip. */
function canPlay(file: File): Promise<boolean> {
  const address = URL.createObjectURL(file)
  const video = document.createElement('video')
  video.muted = true
  video.preload = 'auto'
  return new Promise((resolve) => {
    const end = (good: boolean) => (): void => {
      clearTimeout(late)
      video.removeAttribute('src')
      video.load()
      URL.revokeObjectURL(address)
      resolve(good)
    }
    const late = setTimeout(end(false), 20_000)
    video.onloadeddata = end(true)
    video.onerror = end(false)
    video.src = address
  })
}
