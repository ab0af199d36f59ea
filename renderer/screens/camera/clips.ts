/** The worker that counts the frames of clips and follows marks through them; one for all clips. */
import { asker } from '../../workers/ask'
import type { CameraDeeds } from '../../workers/camera.worker'

export const clips = asker<CameraDeeds>(
  () => new Worker(new URL('../../workers/camera.worker.ts', import.meta.url), { type: 'module' }),
)
