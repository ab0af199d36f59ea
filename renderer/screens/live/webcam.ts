/** The camera of the live bench: asked for here and nowhere else, and let go when the screen is left. */
import { onBeforeUnmount, ref, shallowRef } from 'vue'

/** Why there is no picture: a key under `live.cameraTrouble`. */
export type CameraTrouble = 'refused' | 'none' | 'inUse' | 'unable' | 'gone'

const WISHED = { width: { ideal: 1280 }, height: { ideal: 720 }, frameRate: { ideal: 60 } } as const

/** Frames as a stream, which Chromium has and the type library does not know yet. */
declare class MediaStreamTrackProcessor {
  constructor(init: { track: MediaStreamTrack; maxBufferSize?: number })
  readonly readable: ReadableStream<VideoFrame>
}

export function useWebcam() {
  const stream = shallowRef<MediaStream | null>(null)
  const trouble = ref<CameraTrouble | ''>('')
  const cameras = shallowRef<readonly { readonly value: string; readonly text: string }[]>([])
  const chosen = ref('')

  /** Lists cameras; their names are told only once the camera was allowed. */
  async function list(): Promise<void> {
    const found = await navigator.mediaDevices.enumerateDevices()
    cameras.value = found.filter(({ kind }) => kind === 'videoinput')
      .map(({ deviceId, label }, i) => ({ value: deviceId, text: label || String(i + 1) }))
  }

  async function start(deviceId = chosen.value): Promise<void> {
    stop()
    trouble.value = ''
    if (!('MediaStreamTrackProcessor' in globalThis) || !navigator.mediaDevices) {
      trouble.value = 'unable'
      return
    }
    try {
      const video = deviceId === '' ? WISHED : { ...WISHED, deviceId: { exact: deviceId } }
      const made = await navigator.mediaDevices.getUserMedia({ audio: false, video })
      stream.value = made
      const [track] = made.getVideoTracks()
      chosen.value = track?.getSettings().deviceId ?? ''
      track?.addEventListener('ended', () => {
        if (stream.value !== made) return
        stream.value = null
        trouble.value = 'gone'
      })
      await list()
    } catch (error) {
      trouble.value = troubleOf(error)
    }
  }

  function stop(): void {
    stream.value?.getTracks().forEach((track) => track.stop())
    stream.value = null
  }

  /** The frames of a copy of the camera's track, and a way to let them go. */
  function frames(): { readable: ReadableStream<VideoFrame>; end: () => void } | null {
    const track = stream.value?.getVideoTracks()[0]?.clone()
    if (!track) return null
    return { readable: new MediaStreamTrackProcessor({ track, maxBufferSize: 4 }).readable, end: () => track.stop() }
  }

  onBeforeUnmount(stop)
  return { stream, trouble, cameras, chosen, start, stop, frames }
}

function troubleOf(error: unknown): CameraTrouble {
  const name = error instanceof DOMException ? error.name : ''
  if (name === 'NotAllowedError' || name === 'SecurityError') return 'refused'
  return name === 'NotFoundError' || name === 'OverconstrainedError' ? 'none' : 'inUse'
}
