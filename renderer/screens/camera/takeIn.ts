/**
 * Takes a file the builder chose or dropped: looks at its ends, never reads it whole, and says in
 * plain words what is wrong with it.
 */
import {
  FINGERPRINT_BYTES, fingerprintOf, HEADER_BYTES, isWhole, MAX_PIXELS, MAX_SIDE_PX, readHeader, type PictureFormat,
} from '@core/camera'
import type { ClipInfo } from '../../workers/camera.worker'
import { clips } from './clips'

/** A file that can be worked on. */
export interface TakenFile {
  readonly file: File
  readonly format: PictureFormat
  readonly fingerprint: string
  readonly widthPx: number
  readonly heightPx: number
  /** For clips. */
  readonly clip: ClipInfo | null
}

/** Why a file was not taken: a key under `camera.refused`, with what its sentence needs. */
export interface FileRefusal {
  readonly key: FileRefusalKey
  readonly values: Readonly<Record<string, string | number>>
}
export type FileRefusalKey =
  | 'empty' | 'wrongType' | 'damaged' | 'cutOff' | 'tooLarge' | 'unreadable' | 'notAClip' | 'noFrames' | 'noDecoder'
  | 'cannotPlay'

const STILLS: readonly PictureFormat[] = ['png', 'jpeg', 'webp']
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
    const fingerprint = await fingerprintOfFile(file)
    if (!STILLS.includes(header.format)) return await takeClip(file, header.format, fingerprint, onProgress)
    const { size } = header
    if (!size) return refuse('damaged', { name: file.name })
    const { widthPx, heightPx } = size
    if (Math.max(widthPx, heightPx) > MAX_SIDE_PX || widthPx * heightPx > MAX_PIXELS) {
      return refuse('tooLarge', { width: widthPx, height: heightPx, side: MAX_SIDE_PX, pixels: MAX_PIXELS / 1e6 })
    }
    const tail = await bytesOf(file, file.size - FINGERPRINT_BYTES, file.size)
    if (!isWhole(header.format, file.size, head, tail)) return refuse('cutOff', { name: file.name })
    const shown = await decodedSize(file)
    return shown
      ? { file, format: header.format, fingerprint, ...shown, clip: null }
      : refuse('damaged', { name: file.name })
  } catch {
    return refuse('unreadable', { name: file.name })
  }
}

async function takeClip(
  file: File, format: PictureFormat, fingerprint: string, onProgress: (frames: number) => void,
): Promise<TakenFile | FileRefusal> {
  const opened = await clips.ask('open', file, { onProgress: ({ frames }) => onProgress(frames) })
  if (typeof opened === 'string') return refuse(opened, { name: file.name })
  if (!(await canPlay(file))) return refuse('cannotPlay', { name: file.name, codec: opened.codec })
  return { file, format, fingerprint, widthPx: opened.widthPx, heightPx: opened.heightPx, clip: opened }
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
