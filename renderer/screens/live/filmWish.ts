/** The builder's wish for a film of what the bench reads: recorded only when asked for, and handed over as a file. */
import { onBeforeUnmount, ref } from 'vue'
import { saveText } from '../../parts/saving'

/** The first that the browser can write is taken. */
const KINDS = [{ type: 'video/webm', ending: 'webm' }, { type: 'video/mp4', ending: 'mp4' }] as const

/** Enough for marks to be followed again, bits a second. */
const BITS_PER_S = 8e6

export function useFilmWish() {
  const wanted = ref(false)
  let recorder: MediaRecorder | null = null

  function begin(stream: MediaStream, name: string): void {
    end()
    if (!wanted.value) return
    const kind = KINDS.find(({ type }) => MediaRecorder.isTypeSupported(type))
    if (!kind) return
    const pieces: Blob[] = []
    recorder = new MediaRecorder(stream, { mimeType: kind.type, videoBitsPerSecond: BITS_PER_S })
    recorder.ondataavailable = ({ data }) => pieces.push(data)
    recorder.onstop = () => saveText(new Blob(pieces, { type: kind.type }), `${name}.${kind.ending}`)
    recorder.start(1000)
  }

  /** Ends the film and hands it over. */
  function end(): void {
    if (recorder?.state === 'recording') recorder.stop()
    recorder = null
  }

  onBeforeUnmount(end)
  return { wanted, begin, end }
}
