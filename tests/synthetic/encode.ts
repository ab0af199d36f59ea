/**
 * Real encoders for synthetic pictures, those of the browser that the tests run in: JPEG, WebP and PNG for stills,
 * VP8 in WebM and H.264 in MP4 for clips. Nothing else has to be installed.
 */
import { readFileSync, writeFileSync } from 'node:fs'
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import { fileURLToPath } from 'node:url'
import type { Browser, Page } from 'playwright-core'
import ts from 'typescript'
import { launchBrowser } from '../e2e/browser'
import type { ClipAsk, deeds, StillAsk } from './encoderPage'

/** Luminance of one byte a pixel, or colour of three. */
export interface Pixels { readonly width: number; readonly height: number; readonly data: Uint8Array }

/** `quality` is the browser's own measure, 0 to 1. */
export type StillCodec = { kind: 'jpeg'; quality: number } | { kind: 'webp'; quality: number } | { kind: 'png' }

export interface ClipOptions {
  readonly fps?: number
  /** Bits a second. */
  readonly bitrate?: number
  /** VP8 is wrapped in WebM, H.264 in MP4. */
  readonly codec?: 'vp8' | 'h264'
  /** Leaves out each n-th frame, with its time: the frames that stay are unevenly spaced. */
  readonly withoutEach?: number
}

export interface Encoders {
  /** The bytes of one still file. */
  still(picture: Pixels, codec: StillCodec): Promise<Buffer>
  /** Encodes pictures and decodes them again: what is left is what a camera's file would hold. */
  throughStill(pictures: readonly Pixels[], codec: StillCodec): Promise<Pixels[]>
  /** Writes a clip frame by frame, so that no more than a few frames are held. */
  clip(
    file: string, size: { width: number; height: number }, count: number, frame: (index: number) => Pixels,
    options?: ClipOptions,
  ): Promise<void>
  /** The frames of a clip as a player would show them, luminance only. */
  frames(file: string, size: { width: number; height: number }): Promise<Pixels[]>
  close(): Promise<void>
}

type Deeds = typeof deeds

const PAGE = `<!doctype html><title>Encoders</title>
<script type="importmap">{"imports": {"mediabunny": "/mediabunny.mjs"}}</script>
<script type="module" src="/page.mjs"></script>`
const path = (name: string): string => fileURLToPath(new URL(name, import.meta.url))
const pageProgram = (): string => ts.transpileModule(readFileSync(path('encoderPage.ts'), 'utf8'), {
  compilerOptions: { target: ts.ScriptTarget.ES2022, module: ts.ModuleKind.ESNext },
}).outputText

/** What the page fetches and hands over, on the loopback interface. */
async function exchange() {
  let give: (index: number) => Uint8Array = () => new Uint8Array()
  const taken: Buffer[] = []
  const files: Record<string, () => { type: string; body: string | Buffer }> = {
    '/': () => ({ type: 'text/html', body: PAGE }),
    '/page.mjs': () => ({ type: 'text/javascript', body: pageProgram() }),
    '/mediabunny.mjs': () => ({
      type: 'text/javascript', body: readFileSync(path('../../node_modules/mediabunny/dist/bundles/mediabunny.min.mjs')),
    }),
  }
  const answer = async (request: IncomingMessage, response: ServerResponse): Promise<void> => {
    const [, way, index] = /^\/(in|out)\/(\d+)$/.exec(request.url ?? '') ?? []
    if (way === 'in') return void response.end(give(Number(index)))
    if (way === 'out') {
      const parts: Buffer[] = []
      for await (const part of request) parts.push(part as Buffer)
      taken[Number(index)] = Buffer.concat(parts)
      return void response.end()
    }
    const file = files[request.url ?? '']?.()
    response.writeHead(file ? 200 : 404, { 'content-type': file?.type ?? 'text/plain' }).end(file?.body)
  }
  const server = createServer((request, response) => {
    answer(request, response).catch((error: unknown) => response.writeHead(500).end(String(error)))
  })
  await new Promise<void>((done) => { server.listen(0, '127.0.0.1', done) })
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    giving: (source: (index: number) => Uint8Array): void => { give = source; taken.length = 0 },
    taken,
    close: (): void => { server.closeAllConnections(); server.close() },
  }
}

const stillAsk = ({ width, height }: Pixels, codec: StillCodec): StillAsk => ({
  width, height, type: `image/${codec.kind}`, ...(codec.kind !== 'png' && { quality: codec.quality }),
})

/** @param shared a browser that runs already; without one an own is started, and ended by `close` */
export async function openEncoders(shared?: Browser): Promise<Encoders> {
  const [desk, browser] = [await exchange(), shared ?? await launchBrowser()]
  const page = await browser.newPage()
  await page.goto(desk.address)
  await page.waitForFunction('globalThis.deeds !== undefined')

  async function still(deed: 'still' | 'throughStill', pictures: readonly Pixels[], codec: StillCodec): Promise<Buffer[]> {
    desk.giving((index) => pictures[index]!.data)
    for (const [index, picture] of pictures.entries()) await ask(page, deed, index, stillAsk(picture, codec))
    return [...desk.taken]
  }
  return {
    still: async (picture, codec) => (await still('still', [picture], codec))[0]!,
    throughStill: async (pictures, codec) => (await still('throughStill', pictures, codec))
      .map((data, index) => ({ ...pictures[index]!, data: new Uint8Array(data) })),
    async clip(file, size, count, frame, { fps = 30, bitrate = 8e6, codec = 'vp8', withoutEach = 0 } = {}) {
      const kept = Array.from({ length: count }, (_, index) => index)
        .filter((index) => withoutEach === 0 || (index + 1) % withoutEach !== 0)
      desk.giving((index) => frame(kept[index]!).data)
      const clipAsk: ClipAsk = {
        ...size, bitrate, codec: codec === 'vp8' ? 'vp8' : 'avc', timesS: kept.map((index) => index / fps), frameS: 1 / fps,
      }
      await ask(page, 'clip', clipAsk)
      writeFileSync(file, desk.taken[0]!)
    },
    async frames(file, size) {
      desk.giving(() => readFileSync(file))
      const count = await ask(page, 'frames')
      return desk.taken.slice(0, count as number).map((data) => ({ ...size, data: new Uint8Array(data) }))
    },
    async close() {
      await page.close()
      if (!shared) await browser.close()
      desk.close()
    },
  }
}

/** Has the page do one of its deeds. @throws what the page threw */
const ask = <K extends keyof Deeds>(page: Page, deed: K, ...input: Parameters<Deeds[K]>): Promise<unknown> =>
  page.evaluate(`globalThis.deeds.${deed}(...${JSON.stringify(input)})`)
