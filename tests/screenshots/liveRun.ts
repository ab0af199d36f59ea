/** `npx tsx tests/screenshots/liveRun.ts`: the README's pictures of the live bench, its camera a drawn film. */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { launchBrowser } from '../e2e/browser'
import { beginWithFilm, cameraFlags, openBench, setUpBench } from '../e2e/liveSteps'
import { libraryFolderForTest, startHostFor } from '../e2e/startedHost'
import { libraryAt } from '../harness/libraryAt'
import { writeFilm } from '../worlds/film/drawn'
import { airScript } from '../worlds/film/scripts'
import { drawFilmWorld } from '../worlds/film/world'

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
const browser = await launchBrowser(cameraFlags('webcam.y4m'))
try {
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } })
  await openBench(page, host.address, chassisId)
  await page.getByLabel('What is read').selectOption('air')
  await page.locator('[data-live="new-run"]').click()
  await setUpBench(page, world)
  await page.waitForTimeout(500)
  await page.screenshot({ path: `${PICTURES}live-setup.png` })
  await page.locator('[data-live="camera"]').click()
  await beginWithFilm(page)
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
