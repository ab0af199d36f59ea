/** Real encoders for synthetic pictures: ffmpeg's JPEG and WebP for stills, VP8 in WebM for clips. */
import { spawn, spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Gray } from './scene'

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

const rawArguments = ({ width, height }: Gray): string[] =>
  ['-f', 'rawvideo', '-pix_fmt', 'gray', '-s', `${width}x${height}`, '-r', '30', '-i', '-']

/** Encodes pictures of one size and decodes them again: what is left is what a camera's file would hold. */
export function throughEncoder(pictures: readonly Gray[], codec: StillCodec): Gray[] {
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
export function stillFile(picture: Gray, codec: StillCodec): Buffer {
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

/** Writes a WebM clip (VP8) frame by frame, so that no more than one frame is held. */
export async function writeClip(
  file: string, size: { width: number; height: number }, count: number, frame: (index: number) => Gray,
  { fps = 30, bitrate = '8M' } = {},
): Promise<void> {
  const coder = spawn('ffmpeg', [
    '-hide_banner', '-loglevel', 'error', '-y', '-f', 'rawvideo', '-pix_fmt', 'gray',
    '-s', `${size.width}x${size.height}`, '-r', String(fps), '-i', '-',
    '-c:v', 'libvpx', '-deadline', 'realtime', '-cpu-used', '8', '-b:v', bitrate, '-pix_fmt', 'yuv420p', file,
  ], { stdio: ['pipe', 'ignore', 'pipe'] })
  let said = ''
  coder.stderr.on('data', (chunk) => { said += String(chunk) })
  const ended = new Promise<void>((resolve, reject) => {
    coder.on('error', reject)
    coder.on('close', (code) => (code === 0 ? resolve() : reject(new Error(`ffmpeg ended with ${code}: ${said}`))))
  })
  for (let index = 0; index < count; index++) {
    const ready = coder.stdin.write(frame(index).data)
    if (!ready) await new Promise((resolve) => coder.stdin.once('drain', resolve))
  }
  coder.stdin.end()
  await ended
}
