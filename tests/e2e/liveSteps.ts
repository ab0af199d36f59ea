/** The steps at a live bench whose camera plays a drawn film, for browser tests, pictures and the benchmark. */
import type { Page } from 'playwright-core'
import { placesOf, RULE_MM, SPOTS, type FilmWorld } from '../worlds/film/world'

/** A browser with a camera that plays what the film file holds when the camera is switched on; it is allowed. */
export const cameraFlags = (film: string): string[] => [
  '--use-fake-device-for-media-stream', '--use-fake-ui-for-media-stream', `--use-file-for-fake-video-capture=${film}`,
]

export async function openBench(page: Page, address: string, chassisId: string): Promise<void> {
  await page.goto(address)
  await page.getByRole('heading', { level: 1 }).first().waitFor()
  await page.evaluate((id) => { location.hash = `#/car/${id}/live` }, chassisId)
  await page.locator('[data-live="camera"]').waitFor()
}

/** Takes the set-up picture, marks it by clicks, and gives the length of the rule. The camera is on then. */
export async function setUpBench(page: Page, world: FilmWorld): Promise<void> {
  const { widthPx } = world.camera
  await page.locator('[data-live="camera"]').click()
  await page.waitForFunction((width) => document.querySelector('video')?.videoWidth === width, widthPx)
  await page.locator('[data-live="set-up"]').click()
  const board = page.locator('svg[data-camera="board"]')
  await board.waitFor()
  const length = page.getByRole('textbox', { name: /^Its length mm/ })
  await length.fill(String(RULE_MM))
  await length.press('Enter')
  await page.locator('[data-camera="snap-all"]').check()
  await page.waitForTimeout(400)
  const places = placesOf(world, { front: 0, rear: 0 })
  for (const name of SPOTS) {
    const box = (await board.boundingBox())!
    const scale = box.width / widthPx
    await board.click({ position: { x: places[name].x * scale, y: places[name].y * scale } })
  }
  await page.locator('[data-mark]').filter({ hasText: 'snapped' }).nth(SPOTS.length - 1).waitFor()
  await page.locator('[data-live="wanted"]').waitFor({ state: 'detached' })
}

/** The film begins with the camera, which is off; the bench begins at once. */
export async function beginWithFilm(page: Page): Promise<void> {
  await page.locator('[data-live="camera"]').click()
  await page.locator('[data-live="begin"]:enabled').click()
}
