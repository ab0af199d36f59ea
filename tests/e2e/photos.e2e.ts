/**
 * What phones hand over, opened in Chromium: HEIC, AVIF, a photo with a film behind it, one of 200 megapixels, and
 * what no browser shows. The photo is a real one (see photos/README.md); what the stage shows is compared with it.
 */
import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { readPng } from '../reference/camera/readPng'
import { openEncoders, type Encoders } from '../synthetic/encode'
import { useApp } from './appUnderTest'
import { chooseFile } from './cameraSteps'

const BOARD = readPng(new URL('../reference/camera/photos/left01.png', import.meta.url))
const [COLUMNS, ROWS] = [16, 12]
const soon = <T>(ask: () => Promise<T>, timeout = 30_000) => expect.poll(ask, { timeout, interval: 100 })

const app = useApp()
const folder = mkdtempSync(join(tmpdir(), 'squatbench-photos-'))
const file = (name: string): string => join(folder, name)
const faults: string[] = []
let page: Page
let encoders: Encoders

type Pixels = Pick<typeof BOARD, 'width' | 'height'> & { readonly data: ArrayLike<number> }

/** The picture on the stage, which is grey, row by row. */
async function shown(): Promise<Pixels> {
  const read = await page.evaluate(async () => {
    const image = document.querySelector<HTMLImageElement>('.board img')!
    await image.decode()
    const { naturalWidth: width, naturalHeight: height } = image
    const context = new OffscreenCanvas(width, height).getContext('2d')!
    context.drawImage(image, 0, 0)
    const { data } = context.getImageData(0, 0, width, height)
    let text = ''
    for (let i = 0; i < data.length; i += 4) text += String.fromCharCode(data[i]!)
    return { width, height, text: btoa(text) }
  })
  return { width: read.width, height: read.height, data: Buffer.from(read.text, 'base64') }
}

/** Mean level of each field of a picture. */
function fieldsOf({ width, height, data }: Pixels): number[] {
  const [wide, high] = [width / COLUMNS, height / ROWS]
  return Array.from({ length: COLUMNS * ROWS }, (_, i) => {
    const [left, top] = [(i % COLUMNS) * wide, Math.floor(i / COLUMNS) * high]
    let sum = 0
    for (let y = top; y < top + high; y++) for (let x = left; x < left + wide; x++) sum += data[y * width + x]!
    return sum / (wide * high)
  })
}

async function opened(name: string): Promise<string | null> {
  await chooseFile(page, file(name))
  await page.locator('.pictures button[aria-pressed="true"]').filter({ hasText: name }).waitFor({ timeout: 60_000 })
  return page.locator('svg[data-camera="board"]').getAttribute('viewBox')
}

async function refused(name: string): Promise<string> {
  await chooseFile(page, file(name))
  const said = page.locator('.camera > .trouble')
  await soon(() => said.innerText()).toContain(name)
  return said.innerText()
}

/** A baseline JPEG (ITU-T T.81) of one grey: codes of one bit, no difference and no detail in any block. */
function greyJpeg(width: number, height: number): Buffer {
  const two = (value: number): number[] => [value >> 8, value & 255]
  const blocks = Math.ceil(width / 8) * Math.ceil(height / 8)
  const oneCode = [1, ...new Array<number>(15).fill(0), 0]
  return Buffer.concat([
    Buffer.from([0xff, 0xd8, 0xff, 0xdb, 0, 67, 0, ...new Array<number>(64).fill(1)]),
    Buffer.from([0xff, 0xc0, 0, 11, 8, ...two(height), ...two(width), 1, 1, 0x11, 0]),
    Buffer.from([0xff, 0xc4, 0, 20, 0x00, ...oneCode, 0xff, 0xc4, 0, 20, 0x10, ...oneCode]),
    Buffer.from([0xff, 0xda, 0, 8, 1, 1, 0, 0, 63, 0]), Buffer.alloc(Math.ceil(blocks / 4)), Buffer.from([0xff, 0xd9]),
  ])
}

describe('what phones hand over', () => {
  beforeAll(async () => {
    encoders = await openEncoders(app.browser)
    page = await app.browser.newPage({ viewport: { width: 1280, height: 900 } })
    page.on('pageerror', (error) => faults.push(error.message))
    await page.goto(app.host.address)
    await page.getByLabel(/^Name of a new car/).fill('Photo car')
    await page.keyboard.press('Enter')
    await page.getByRole('heading', { level: 1, name: 'Car' }).waitFor()
    await page.getByRole('link', { name: /^Camera/ }).click()
    await page.locator('[data-camera="begin"]').click()
    for (const ending of ['heic', 'avif']) {
      copyFileSync(new URL(`photos/board.${ending}`, import.meta.url), file(`board.${ending}`))
    }
    // As phones lay a motion photo out: the film behind the photo's end, and no end marker in the last 64 kB.
    const jpeg = await encoders.still(BOARD, { kind: 'jpeg', quality: 0.9 })
    const film = Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from('ftypmp42\0\0\0\0isommp42'), Buffer.alloc(200_000, 0x41)])
    writeFileSync(file('motion.jpg'), Buffer.concat([jpeg, film]))
    // As a bad copy leaves it: four kilobytes in its middle are another file's.
    const bad = Buffer.from(jpeg)
    readFileSync(new URL('photos/board.avif', import.meta.url)).copy(bad, bad.length >> 1, 2000, 6096)
    writeFileSync(file('bad.jpg'), bad)
    writeFileSync(file('whole.jpg'), greyJpeg(16_320, 12_240))
    writeFileSync(file('raw.tif'), Buffer.from([0x49, 0x49, 0x2a, 0, 8, 0, 0, 0, ...new Array<number>(200).fill(0)]))
  })
  afterAll(async () => {
    await encoders?.close()
    rmSync(folder, { recursive: true, force: true })
  })

  it.each(['board.heic', 'board.avif', 'motion.jpg'])('opens %s, upright and as it was', async (name) => {
    expect(await opened(name)).toBe(`0 0 ${BOARD.width} ${BOARD.height}`)
    const [seen, real] = [fieldsOf(await shown()), fieldsOf(BOARD)]
    expect(Math.max(...seen.map((each, i) => Math.abs(each - real[i]!)))).toBeLessThan(5)
    expect(Math.max(...real) - Math.min(...real)).toBeGreaterThan(80)
  })

  it('opens 200 megapixels scaled down, and says so', async () => {
    expect(await opened('whole.jpg')).toBe('0 0 8160 6120')
    expect(await page.locator('[data-camera="note"]').innerText()).toMatch(/whole\.jpg has more pixels .* 2 times smaller, 8160 × 6120 px/)
  })

  it('says that a photo was overwritten in its middle', async () => {
    await opened('bad.jpg')
    expect(await page.locator('[data-camera="note"]').innerText()).toMatch(/^bad\.jpg opens, but a part of its pixels was overwritten/)
  })

  it('names a TIFF, and what to do', async () => {
    expect(await refused('raw.tif')).toMatch(/is a TIFF .*Save it as JPEG or PNG/)
  })

  it('showed no fault', () => expect(faults).toEqual([]))
})
