/**
 * `tsx tests/harness/attacks/files.ts [--cases N] [--seed N]`: damaged and hostile clips, pictures and logs, chosen in
 * the built window in a real Chromium. Each must end in a sentence or be taken within a time limit, and the window
 * answers after it.
 */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { parseArgs } from 'node:util'
import type { Page } from 'playwright-core'
import { ensureBuilt } from '../../../electron/freshBuild'
import { launchBrowser } from '../../e2e/browser'
import { libraryFolderForTest, startHostFor } from '../../e2e/startedHost'
import { openEncoders, type Encoders, type Pixels } from '../../synthetic/encode'
import type { Figure } from '../figure'
import { report } from '../figure'
import { chance, mutateText, type Chance } from '../fuzz/mutate'
import { sampleChassis } from '../sample'

const ROOT = fileURLToPath(new URL('../../..', import.meta.url))
/** Within it a file is taken or refused, ms: the player alone may be waited for 20 s. */
const END_MS = 30_000
/** Within it the window draws a frame afterwards, ms, on a machine that does other work beside. */
const ANSWER_MS = 2000

type Kind = 'clips' | 'pictures' | 'logs'
interface Bytes { readonly name: string; readonly bytes: Buffer }

const SIZE = { width: 96, height: 64 }
const stripes = (step: number): Pixels => ({
  ...SIZE, data: Uint8Array.from({ length: SIZE.width * SIZE.height }, (_, index) => ((index + step) % 17) * 15),
})

async function clipsOf(encoders: Encoders): Promise<Bytes[]> {
  const folder = mkdtempSync(join(tmpdir(), 'squatbench-files-'))
  try {
    const made: Bytes[] = []
    for (const [name, codec] of [['clip.webm', 'vp8'], ['clip.mp4', 'h264']] as const) {
      await encoders.clip(join(folder, name), SIZE, 12, stripes, { fps: 30, codec })
      made.push({ name, bytes: readFileSync(join(folder, name)) })
    }
    return made
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

async function picturesOf(encoders: Encoders): Promise<Bytes[]> {
  const still = async (name: string, ...codec: [Parameters<Encoders['still']>[1]]): Promise<Bytes> =>
    ({ name, bytes: await encoders.still(stripes(0), ...codec) })
  const photo = (name: string): Bytes => ({ name, bytes: readFileSync(new URL(`../../e2e/photos/${name}`, import.meta.url)) })
  return [
    await still('still.png', { kind: 'png' }), await still('still.jpg', { kind: 'jpeg', quality: 0.9 }),
    await still('still.webp', { kind: 'webp', quality: 0.9 }), photo('board.heic'), photo('board.avif'),
  ]
}

function logsOf(): Bytes[] {
  const rows = Array.from({ length: 400 }, (_, index) =>
    `${(index / 50).toFixed(2)},${(0.4 * Math.sin(index / 40)).toFixed(3)},${(index % 7) / 100},1.0`)
  return [{ name: 'log.csv', bytes: Buffer.from(['time (s),ax (g),ay (g),az (g)', ...rows, ''].join('\n')) }]
}

/** First bytes of files of other kinds, which promise what does not follow. */
const MAGIC: readonly Buffer[] = [
  Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]), Buffer.from([0xff, 0xd8, 0xff, 0xe1]),
  Buffer.from([0x1a, 0x45, 0xdf, 0xa3]), Buffer.from('RIFF\xff\xff\xff\x7fWEBP', 'latin1'), Buffer.from('II*\0', 'latin1'),
  Buffer.from('\0\0\0\x18ftypheic', 'latin1'), Buffer.from('\0\0\0\x18ftypmp42', 'latin1'), Buffer.from('PK\x03\x04', 'latin1'),
]
const ABSURD: readonly Buffer[] = [
  Buffer.from('ffffffff', 'hex'), Buffer.from('7fffffff', 'hex'), Buffer.from('01ffffffffffffff', 'hex'), Buffer.alloc(8),
]
const HEAD_BYTES = 400

const overwritten = (bytes: Buffer, at: number, by: Uint8Array): Buffer => {
  const result = Buffer.from(bytes)
  result.set(by.subarray(0, Math.max(0, result.length - at)), at)
  return result
}
const noise = (count: number, { int }: Chance): Buffer => Buffer.from(Array.from({ length: count }, () => int(0, 255)))

/** Ways to spoil bytes: cut off, noise in the head, sizes beyond measure, another kind's beginning, noise alone. */
const WAYS: readonly ((bytes: Buffer, some: Chance) => Buffer)[] = [
  (bytes, { int }) => bytes.subarray(0, int(1, bytes.length - 1)),
  (bytes, some) => {
    let result = bytes
    for (let count = some.int(1, 12); count > 0; count -= 1) {
      result = overwritten(result, some.int(0, Math.min(HEAD_BYTES, bytes.length - 1)), noise(1, some))
    }
    return result
  },
  (bytes, { int, pick }) => overwritten(bytes, int(4, Math.min(HEAD_BYTES, bytes.length - 1)), pick(ABSURD)),
  (bytes, { pick }) => overwritten(bytes, 0, pick(MAGIC)),
  (bytes, some) => Buffer.concat([bytes.subarray(0, some.int(0, 64)), noise(some.int(0, 4000), some)]),
]
const TEXT_WAYS: readonly ((text: string, some: Chance) => string)[] = [
  mutateText,
  (text, { int }) => `${text.slice(0, int(0, 400))}${'9'.repeat(500_000)}\n${text}`,
  (text, { int }) => `${'a,'.repeat(int(1000, 20_000))}\n${text}`,
  (text) => text.replaceAll('\n', ''),
  (text, { pick }) => text.replaceAll(/\d\.\d+/g, () => pick(['NaN', '1e999', '-', '""', '1,5', '0x10', '1.0'])),
]

/** A case by its number: the same for the same seed. */
function spoiled(kind: Kind, whole: readonly Bytes[], number: number, seed: number): Bytes {
  const some = chance(seed * 100_000 + number)
  const { name, bytes } = whole[number % whole.length]!
  const asText = kind === 'logs' && some.int(0, 1) === 0
  const made = asText ? Buffer.from(some.pick(TEXT_WAYS)(bytes.toString('latin1'), some)) : some.pick(WAYS)(bytes, some)
  return { name: `${number}-${name}`, bytes: made }
}

const PLACE: Readonly<Record<Kind, string>> = {
  clips: '.camera', pictures: '.camera', logs: 'section[aria-labelledby="log-title"]',
}

/** What the window shows of a file: a sentence why not, or that it was taken; empty where nothing. */
async function chosen(page: Page, kind: Kind, { name, bytes }: Bytes): Promise<string> {
  const place = PLACE[kind]
  const quiet = (): Promise<unknown> => page.waitForFunction(
    (selector) => document.querySelector(selector)?.getAttribute('aria-busy') === 'false', place, { timeout: END_MS })
  await page.locator(`${place} input[type="file"]`).first()
    .setInputFiles({ name, mimeType: 'application/octet-stream', buffer: bytes })
  await quiet()
  if (kind === 'logs') {
    const read = page.locator(`${place} button.main:enabled`, { hasText: 'Read' })
    if (await read.count() > 0) {
      await read.first().click()
      await quiet()
    }
  }
  return page.evaluate(({ selector, shown }) => {
    const within = document.querySelector(selector)
    const said = within?.querySelector('.trouble[role="alert"]')?.textContent?.trim() ?? ''
    return said === '' ? within?.querySelector(shown)?.textContent?.trim() ?? '' : `refused: ${said}`
  }, { selector: place, shown: kind === 'logs' ? 'summary' : '.pictures button[aria-pressed="true"]' })
}

/** How long the window takes to draw its next frame, ms. */
const answerMs = (page: Page): Promise<number> => page.evaluate(() => new Promise<number>((done) => {
  const from = performance.now()
  requestAnimationFrame(() => { setTimeout(() => { done(performance.now() - from) }, 0) })
}))

interface Tally { tried: number; refused: number; taken: number; slowestMs: number; lost: string[] }

interface Plan { readonly cases: number; readonly seed: number; readonly faults: readonly string[] }

async function attack(page: Page, kind: Kind, whole: readonly Bytes[], { cases, seed, faults }: Plan): Promise<Figure> {
  const tally: Tally = { tried: 0, refused: 0, taken: 0, slowestMs: 0, lost: [] }
  for (let number = 0; number < cases; number += 1) {
    const file = spoiled(kind, whole, number, seed)
    const before = faults.length
    const from = performance.now()
    const said = await chosen(page, kind, file).catch((error: unknown) => `lost: ${String(error).slice(0, 200)}`)
    tally.tried += 1
    tally.slowestMs = Math.max(tally.slowestMs, performance.now() - from)
    const drawnMs = said.startsWith('lost') ? Infinity : await answerMs(page)
    if (said === '' || drawnMs > ANSWER_MS || faults.length > before) {
      tally.lost.push(file.name)
      console.log(`  ${file.name} (seed ${seed}): "${said}", frame after ${drawnMs} ms, ${faults.slice(before).join('; ')}`)
    }
    if (said.startsWith('lost')) break
    if (said.startsWith('refused')) tally.refused += 1
    else tally.taken += 1
  }
  const { tried, refused, taken, slowestMs, lost } = tally
  return {
    what: `Spoiled ${kind} (cut off, noise, absurd sizes, wrong beginnings) chosen in the window, seed ${seed}: `
      + `ended within ${END_MS / 1000} s, and the window answers after`,
    figure: `${tried} tried, ${refused} refused in a sentence, ${taken} taken, slowest ${(slowestMs / 1000).toFixed(1)} s, `
      + `${lost.length} lost`,
    good: lost.length === 0 && tried === cases,
  }
}

/** All rows of this command. */
export async function fileFigures(cases: number, seed: number): Promise<Figure[]> {
  ensureBuilt(ROOT)
  const library = await libraryFolderForTest()
  const host = await startHostFor(library.folder)
  const browser = await launchBrowser()
  const encoders = await openEncoders(browser)
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 } })
    const faults: string[] = []
    page.on('pageerror', (error) => faults.push(error.message))
    page.on('crash', () => faults.push('the page crashed'))
    await page.goto(host.address)
    await page.getByRole('heading', { level: 1 }).first().waitFor()
    await page.evaluate(async (chassis) => {
      await fetch('/service/library.saveChassis', {
        method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ chassis, baseRevision: 0 }),
      })
    }, sampleChassis('mule'))
    const figures: Figure[] = []
    for (const [kind, whole] of [['logs', logsOf()], ['pictures', await picturesOf(encoders)], ['clips', await clipsOf(encoders)]] as const) {
      await page.goto(`${host.origin}/#/car/mule/${kind === 'logs' ? 'track' : 'camera'}`)
      const begin = page.locator('[data-camera="begin"]')
      await page.locator(PLACE[kind]).first().waitFor()
      if (kind !== 'logs' && await begin.count() > 0) await begin.click()
      figures.push(await attack(page, kind, whole, { cases, seed, faults }))
      console.log(`  ${kind}: ${figures.at(-1)!.figure}`)
    }
    return figures
  } finally {
    await encoders.close()
    await browser.close()
    await host.stop()
    await library.remove()
  }
}

if (import.meta.url === `file://${process.argv[1]}`) {
  const { values } = parseArgs({ options: { cases: { type: 'string', default: '200' }, seed: { type: 'string', default: '1' } } })
  report('Hostile files in the window', await fileFigures(Number(values.cases), Number(values.seed)))
}
