/** `npx tsx tests/screenshots/liveRun.ts`: the README's pictures of the live bench, its camera a drawn film. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { launchBrowser } from '../e2e/browser'
import { libraryFolderForTest, startHostFor } from '../e2e/startedHost'
import { libraryAt } from '../harness/libraryAt'
import { writeFilm } from '../worlds/film/drawn'
import { airScript } from '../worlds/film/scripts'
import { drawFilmWorld, placesOf, RULE_MM, SPOTS } from '../worlds/film/world'

const PICTURES = fileURLToPath(new URL('../../docs/pictures/', import.meta.url))
const WIDTH = 640
const world = drawFilmWorld(1, WIDTH, 12)
const folder = mkdtempSync(join(tmpdir(), 'squatbench-live-'))
const library = await libraryFolderForTest()
const demo = readFileSync(new URL('../../seeds/demo.json', import.meta.url), 'utf8')
const { chassisId } = await libraryAt(library.folder).value('exchange.import', { text: demo })
writeFilm(join(folder, 'webcam.y4m'), world, airScript(world, 1), 1)
const host = await startHostFor(library.folder)
// The stand-in camera is named after its file: a plain name looks like a camera's.
process.chdir(folder)
const browser = await launchBrowser([
  '--use-fake-device-for-media-stream', '--use-fake-ui-for-media-stream',
  '--use-file-for-fake-video-capture=webcam.y4m',
])
try {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } })
  await page.goto(host.address)
  await page.getByRole('heading', { level: 1 }).first().waitFor()
  await page.evaluate((id) => { location.hash = `#/car/${id}/live` }, chassisId)
  await page.getByLabel('What is read').selectOption('air')
  await page.locator('[data-live="new-run"]').click()
  await page.locator('[data-live="camera"]').click()
  await page.waitForFunction(() => (document.querySelector('video')?.videoWidth ?? 0) > 0)
  await page.locator('[data-live="set-up"]').click()
  const board = page.locator('svg[data-camera="board"]')
  await board.waitFor()
  const length = page.getByRole('textbox', { name: /^Its length mm/ })
  await length.fill(String(RULE_MM))
  await length.press('Enter')
  await page.locator('[data-camera="snap-all"]').check()
  await page.waitForTimeout(500)
  const places = placesOf(world, { front: 0, rear: 0 })
  for (const name of SPOTS) {
    const box = (await board.boundingBox())!
    const { x, y } = places[name]
    await board.click({ position: { x: (x * box.width) / WIDTH, y: (y * box.width) / WIDTH } })
  }
  await page.waitForTimeout(500)
  await page.screenshot({ path: `${PICTURES}live-setup.png` })
  await page.locator('[data-live="camera"]').click()
  await page.locator('[data-live="camera"]').click()
  await page.locator('[data-live="begin"]:enabled').click()
  await page.locator('[data-live="air"][data-air="on"]').waitFor({ timeout: 60_000 })
  await page.waitForTimeout(5000)
  await page.locator('[data-live="air"]').evaluate((each) => each.scrollIntoView({ block: 'start' }))
  await page.screenshot({ path: `${PICTURES}live-air.png` })
} finally {
  await browser.close()
  await host.stop()
  await library.remove()
  rmSync(folder, { recursive: true, force: true })
}
