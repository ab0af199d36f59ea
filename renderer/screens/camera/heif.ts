/** The window's side of the HEIF decoder: its worker is fetched for the first such photo, and ended after each. */
import type { HeifTell } from '../../workers/heif.worker'

/** A photo decoded: pixels of its main picture, upright, as a picture the window can show; null where it can't be. */
export function decodeHeif(file: Blob): Promise<{ picture: Blob; widthPx: number; heightPx: number } | null> {
  const worker = new Worker(new URL('../../workers/heif.worker.ts', import.meta.url), { type: 'module' })
  return new Promise((resolve) => {
    const end = (result: { picture: Blob; widthPx: number; heightPx: number } | null): void => {
      worker.terminate()
      resolve(result)
    }
    worker.onmessage = ({ data }: MessageEvent<HeifTell>) => end(data)
    worker.onerror = () => end(null)
    worker.postMessage(file)
  })
}
