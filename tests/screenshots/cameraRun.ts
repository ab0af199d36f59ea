/** A camera run to be looked at: a still with its marks and its height, a clip followed through off, on, off. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { frameShown, markAll, openPicture, typeInto } from '../e2e/cameraSteps'
import { CAR_SCALE_MM, carFrame, carPlaces } from '../synthetic/car'
import { CLIP_CAMERA, type ClipKey, type ClipTruth } from '../synthetic/clip'
import { openEncoders } from '../synthetic/encode'

const FPS = 25
const FRAMES = 180
const ORDER: readonly ClipKey[] = [
  'scaleStart', 'scaleEnd', 'groundLeft', 'groundRight', 'frontHub', 'frontChassis', 'rearHub', 'rearChassis',
]

/** Air off, on, off; the car shivers in the air. */
const TRUTH: ClipTruth = {
  frontMm: (s) => 30 - 4.2 * onAt(s) + 0.15 * onAt(s) * Math.sin(31 * s),
  rearMm: (s) => 34 - 6.1 * onAt(s) + 0.12 * onAt(s) * Math.cos(27 * s),
  alongMm: () => 0,
}
function onAt(timeS: number): number {
  const rise = (at: number): number => 1 / (1 + Math.exp(-(timeS - at) * 14))
  return rise(2.4) - rise(4.9)
}

export interface CameraFiles { readonly still: string; readonly clip: string; remove(): void }

/** Makes the still and the clip through a browser's encoders. */
export async function cameraFiles(browser: Browser): Promise<CameraFiles> {
  const folder = mkdtempSync(join(tmpdir(), 'squatbench-camera-'))
  const [still, clip] = [join(folder, 'at rest.jpg'), join(folder, 'blower.webm')]
  const encoders = await openEncoders(browser)
  writeFileSync(still, await encoders.still(carFrame(TRUTH, 0), { kind: 'jpeg', quality: 0.92 }))
  const size = { width: CLIP_CAMERA.widthPx, height: CLIP_CAMERA.heightPx }
  await encoders.clip(clip, size, FRAMES, (i) => carFrame(TRUTH, i / FPS), { fps: FPS })
  await encoders.close()
  return { still, clip, remove: () => rmSync(folder, { recursive: true, force: true }) }
}

/** Opens the still and marks its first marks; the camera screen must be open. */
export async function beginStill(page: Page, files: Pick<CameraFiles, 'still'>): Promise<void> {
  await openPicture(page, files.still)
  await typeInto(page, /^Its length mm/, String(CAR_SCALE_MM))
  await mark(page, ORDER.slice(0, 5))
}

/** Marks the rest, and opens where a height's uncertainty comes from. */
export async function endStill(page: Page): Promise<void> {
  await mark(page, ORDER.slice(5))
  await page.locator('.whence summary').click()
  await page.locator('[data-mark^="chassis frontLeft"]').click()
  await page.waitForTimeout(300)
}

/** Opens the clip, follows its marks, and sets three windows. */
export async function followFilm(page: Page, files: Pick<CameraFiles, 'clip'>): Promise<void> {
  await openPicture(page, files.clip)
  await mark(page, ORDER)
  await page.locator('[data-camera="follow"]').click()
  await page.locator('[data-camera="followed"]').getByText('frames followed').waitFor({ timeout: 120_000 })
  await page.locator('[data-camera="windows"]').click()
  await page.locator('[data-camera="bracket"]').waitFor()
  await frameShown(page).scrollIntoViewIfNeeded()
  await page.waitForTimeout(600)
}

const mark = (page: Page, keys: readonly ClipKey[]): Promise<void> =>
  markAll(page, keys.map((key) => carPlaces(TRUTH, 0)[key]), CLIP_CAMERA.widthPx)
