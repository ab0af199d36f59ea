/** Real encoders for synthetic pictures: ffmpeg's JPEG and WebP for stills, VP8 in WebM and MP4's codecs for clips. */
import { spawn, spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

/** Luminance of one byte a pixel, or colour of three. */
export interface Pixels { readonly width: number; readonly height: number; readonly data: Uint8Array }

/** True where ffmpeg can be run. */
export const hasFfmpeg = (): boolean => spawnSync('ffmpeg', ['-version'], { stdio: 'ignore' }).status === 0

export type StillCodec = { kind: 'jpeg'; q: number } | { kind: 'webp'; quality: number } | { kind: 'png' }

const codecArguments = (codec: StillCodec): string[] => {
  if (codec.kind === 'jpeg') return ['-c:v', 'mjpeg', '-q:v', String(codec.q)]
  if (codec.kind === 'webp') return ['-c:v', 'libwebp', '-quality', String(codec.quality)]
  return ['-c:v', 'png']
}

const ENDING = { jpeg: 'jpg', webp: 'webp', png: 'png' } as const

/** @throws with what ffmpeg said, where it fails */
function ffmpeg(args: string[], input?: Uint8Array): Buffer {
  const done = spawnSync('ffmpeg', ['-hide_banner', '-loglevel', 'error', '-threads', '1', '-y', ...args], {
    ...(input ? { input } : {}), maxBuffer: 2 ** 31 - 1,
  })
  if (done.status !== 0) throw new Error(`ffmpeg ${args.join(' ')}: ${String(done.stderr)}`)
  return done.stdout
}

const pixelFormat = ({ width, height, data }: Pixels): string => (data.length === 3 * width * height ? 'rgb24' : 'gray')
const rawArguments = (picture: Pixels): string[] =>
  ['-f', 'rawvideo', '-pix_fmt', pixelFormat(picture), '-s', `${picture.width}x${picture.height}`, '-r', '30', '-i', '-']

/** Encodes pictures of one size and decodes them again: what is left is what a camera's file would hold. */
export function throughEncoder(pictures: readonly Pixels[], codec: StillCodec): Pixels[] {
  const first = pictures[0]
  if (!first) return []
  const folder = mkdtempSync(join(tmpdir(), 'squatbench-stills-'))
  try {
    const pattern = join(folder, `%d.${ENDING[codec.kind]}`)
    ffmpeg([...rawArguments(first), ...codecArguments(codec), pattern], Buffer.concat(pictures.map(({ data }) => data)))
    const raw = ffmpeg(['-i', pattern, '-f', 'rawvideo', '-pix_fmt', 'gray', '-'])
    const size = first.width * first.height
    return pictures.map(({ width, height }, i) => {
      const data = new Uint8Array(raw.subarray(i * size, (i + 1) * size))
      if (data.length !== size) throw new Error(`decoded ${raw.length} bytes, not ${pictures.length} pictures`)
      return { width, height, data }
    })
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** The bytes of one still file. */
export function stillFile(picture: Pixels, codec: StillCodec): Buffer {
  const folder = mkdtempSync(join(tmpdir(), 'squatbench-still-'))
  try {
    const raw = join(folder, 'raw')
    writeFileSync(raw, picture.data)
    // To a file: WebP's own length stands at its beginning and cannot be filled in on a pipe.
    const made = join(folder, `still.${ENDING[codec.kind]}`)
    ffmpeg([...rawArguments(picture).slice(0, -1), raw, ...codecArguments(codec), '-frames:v', '1', made])
    return readFileSync(made)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

const CLIP_CODECS = {
  vp8: ['-c:v', 'libvpx', '-deadline', 'realtime', '-cpu-used', '8'],
  h264: ['-c:v', 'libx264', '-preset', 'veryfast'],
  mpeg4: ['-c:v', 'mpeg4'],
} as const
export type ClipCodec = keyof typeof CLIP_CODECS

/** True where ffmpeg can write a clip so; a build without the library lacks it. */
export const hasClipCodec = (codec: ClipCodec): boolean => {
  const encoder = CLIP_CODECS[codec][1]
  const said = spawnSync('ffmpeg', ['-hide_banner', '-encoders'], { encoding: 'utf8' }).stdout ?? ''
  return said.split('\n').some((line) => line.trim().split(/\s+/)[1] === encoder)
}

export interface ClipOptions {
  readonly fps?: number
  readonly bitrate?: string
  /** The file's ending names what it is wrapped in: webm for VP8, mp4 for the others. */
  readonly codec?: ClipCodec
  /** Leaves out each n-th frame, with its time: the frames that stay are unevenly spaced. */
  readonly withoutEach?: number
}

/** Writes a clip frame by frame, so that no more than one frame is held. */
export async function writeClip(
  file: string, size: { width: number; height: number }, count: number, frame: (index: number) => Pixels,
  { fps = 30, bitrate = '8M', codec = 'vp8', withoutEach = 0 }: ClipOptions = {},
): Promise<void> {
  const first = frame(0)
  const fewer = withoutEach > 0 ? ['-vf', `select=mod(n+1\\,${withoutEach})`, '-fps_mode', 'passthrough'] : []
  const coder = spawn('ffmpeg', [
    '-hide_banner', '-loglevel', 'error', '-y', '-f', 'rawvideo', '-pix_fmt', pixelFormat({ ...size, data: first.data }),
    '-s', `${size.width}x${size.height}`, '-r', String(fps), '-i', '-',
    ...fewer, ...CLIP_CODECS[codec], '-b:v', bitrate, '-pix_fmt', 'yuv420p', file,
  ], { stdio: ['pipe', 'ignore', 'pipe'] })
  let said = ''
  coder.stderr.on('data', (chunk) => { said += String(chunk) })
  const ended = new Promise<void>((resolve, reject) => {
    coder.on('error', reject)
    coder.on('close', (code) => (code === 0 ? resolve() : reject(new Error(`ffmpeg ended with ${code}: ${said}`))))
  })
  for (let index = 0; index < count; index++) {
    const ready = coder.stdin.write((index === 0 ? first : frame(index)).data)
    if (!ready) await new Promise((resolve) => coder.stdin.once('drain', resolve))
  }
  coder.stdin.end()
  await ended
}
