/** The worker that counts the frames of clips and follows marks through them; one for all clips. */
import { asker } from '../../workers/ask'
import type { CameraDeeds, ClipInfo, ClipRefusal } from '../../workers/camera.worker'

export const clips = asker<CameraDeeds>(
  () => new Worker(new URL('../../workers/camera.worker.ts', import.meta.url), { type: 'module' }),
)

/** A clip of which no further frame was found for so long leads its reader round in circles, ms. */
const STALLED_MS = 10_000

/**
 * Counts a clip's frames. A damaged file over which the worker goes round without end is refused, and the worker is
 * ended with all that it was asked: it would answer nothing more.
 */
export async function openClip(file: File, onProgress: (frames: number) => void): Promise<ClipInfo | ClipRefusal> {
  let stalled = false
  const end = (): void => {
    stalled = true
    clips.end()
  }
  let late = setTimeout(end, STALLED_MS)
  try {
    return await clips.ask('open', file, {
      onProgress: ({ frames }) => {
        clearTimeout(late)
        late = setTimeout(end, STALLED_MS)
        onProgress(frames)
      },
    })
  } catch (error) {
    if (stalled) return 'notAClip'
    throw error
  } finally {
    clearTimeout(late)
  }
}
