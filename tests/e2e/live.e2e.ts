/**
 * The live bench in Chromium against the built app: the browser's stand-in camera plays drawn films of simulated
 * benches. A whole squat test and a blower run without one typed height; the truth of the film, which shares no code
 * with the app, lies in what the app states.
 */
import { mkdtempSync, readFileSync, renameSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { libraryAt } from '../harness/libraryAt'
import { airScript, squatScript } from '../worlds/film/scripts'
import { writeFilm } from '../worlds/film/drawn'
import { drawFilmWorld, placesOf, RULE_MM, SPOTS, WHEELBASE_MM, type FilmWorld, type Script } from '../worlds/film/world'
import { launchBrowser } from './browser'
import { libraryFolderForTest, startHostFor, type StartedHost } from './startedHost'

const WIDTH = 640
const PER_S = 15
const BAG_KG = 0.5
const MASSES_KG = [0, 1, 2, 3, 2, 1, 0].map((bags) => BAG_KG * bags)
const soon = <T>(ask: () => Promise<T>, timeout = 30_000) => expect.poll(ask, { timeout, interval: 100 })

const folder = mkdtempSync(join(tmpdir(), 'squatbench-live-'))
let library: Awaited<ReturnType<typeof libraryFolderForTest>>
const benches: { host: StartedHost; browser: Browser }[] = []
const faults: string[] = []
const asked: string[] = []

/** The demo car with three bags of 500 g, as long as the world's car, nothing read yet. */
function carFor(index: number): string {
  const demo = JSON.parse(readFileSync(new URL('../../seeds/demo.json', import.meta.url), 'utf8'))
  const { chassis } = demo
  const bag = chassis.loads[0]
  chassis.id = `live-car-${index}`
  chassis.name = `Live car ${index}`
  chassis.revision = 0
  chassis.wheelbaseMm = { value: WHEELBASE_MM, u: 0.2 }
  // Heights are read where the stickers are.
  const world = drawFilmWorld(index, WIDTH, PER_S)
  const along = (name: 'frontChassis' | 'rearChassis'): number => world.spots[name].x + WHEELBASE_MM / 2
  for (const [corner, name] of [['frontLeft', 'frontChassis'], ['rearLeft', 'rearChassis']] as const) {
    chassis.stations[corner].xMm = along(name)
    chassis.stations[corner.replace('Left', 'Right')].xMm = along(name)
  }
  chassis.trayTouchMm = { front: { value: 30, u: 0.5 }, rear: { value: 30, u: 0.5 } }
  chassis.scales[0].checks = []
  chassis.scales[0].gainU = 0.002
  delete chassis.place
  chassis.place = null
  chassis.loads = ['One', 'Two', 'Three'].map((name, i) => ({
    ...bag, id: `bag-${i}`, name: `Bag ${name}`,
    weighings: bag.weighings.map((each: object, k: number) => ({ ...each, id: `w-${i}-${k}`, massKg: BAG_KG })),
  }))
  demo.sessions = []
  return JSON.stringify(demo)
}

/** A browser whose camera plays what the film file holds when the camera is switched on; on the live bench of a car. */
async function atBench(film: string, index: number): Promise<Page> {
  // Each address is good for one browser.
  const host = await startHostFor(library.folder)
  const browser = await launchBrowser([
    '--use-fake-device-for-media-stream', '--use-fake-ui-for-media-stream', `--use-file-for-fake-video-capture=${film}`,
  ])
  benches.push({ host, browser })
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } })
  page.on('pageerror', (error) => faults.push(error.message))
  page.on('request', (request) => asked.push(request.url()))
  await page.goto(host.address)
  await page.getByRole('heading', { level: 1 }).first().waitFor()
  await page.evaluate((id) => { location.hash = `#/car/${id}/live` }, `live-car-${index}`)
  await page.locator('[data-live="camera"]').waitFor()
  return page
}

const clickSpot = async (page: Page, at: { x: number; y: number }): Promise<void> => {
  const board = page.locator('svg[data-camera="board"]')
  const box = (await board.boundingBox())!
  await board.click({ position: { x: (at.x * box.width) / WIDTH, y: (at.y * box.width) / WIDTH } })
}

/** Takes the set-up picture, marks it by clicks, and gives the length of the rule. */
async function setUp(page: Page, world: FilmWorld): Promise<void> {
  await page.locator('[data-live="camera"]').click()
  await page.locator('[data-live="set-up"]').waitFor()
  await soon(() => page.evaluate(() => document.querySelector('video')?.videoWidth ?? 0)).toBe(WIDTH)
  await page.locator('[data-live="set-up"]').click()
  await page.locator('svg[data-camera="board"]').waitFor()
  const length = page.getByRole('textbox', { name: /^Its length mm/ })
  await length.fill(String(RULE_MM))
  await length.press('Enter')
  await page.locator('[data-camera="snap-all"]').check()
  await page.waitForTimeout(400)
  const places = placesOf(world, { front: 0, rear: 0 })
  for (const name of SPOTS) await clickSpot(page, places[name])
  await soon(() => page.locator('[data-mark]').filter({ hasText: 'snapped' }).count()).toBe(SPOTS.length)
  await soon(() => page.locator('[data-live="wanted"]').count()).toBe(0)
}

/** The film begins with the camera, which is off; the bench begins at once. */
async function beginWithFilm(page: Page): Promise<void> {
  await page.locator('[data-live="camera"]').click()
  await soon(() => page.locator('[data-live="begin"]').isEnabled()).toBe(true)
  await page.locator('[data-live="begin"]').click()
}

/** Ends of the stated interval at a place of the screen. */
async function intervalAt(page: Page, selector: string): Promise<[number, number]> {
  const text = await page.locator(selector).innerText()
  const found = /interval ([\d.−-]+) to ([\d.−-]+)/.exec(text)
  if (!found) throw new Error(`no interval in: ${text}`)
  return [found[1]!, found[2]!].map((each) => Number(each.replace('−', '-'))) as [number, number]
}

const saved = (index: number) => libraryAt(library.folder).value('library.open', { chassisId: `live-car-${index}` })

/** The ends of an interval lie on both sides of the truth. */
const around = ([low, high]: [number, number], truth: number) => [low < truth, high > truth]

/** A squat test and a blower run of a world; what the app states is held to what was true in the film. */
async function walk(index: number): Promise<void> {
  const world = drawFilmWorld(index, WIDTH, PER_S)
  const squat = squatScript(world, index, { stayS: 5, leadS: 1, massesKg: MASSES_KG })
  const air = airScript(world, index, { restS: 4, airS: 6 })
  const film = join(folder, `bench-${index}.y4m`)
  const play = (script: Script): void => {
    writeFilm(`${film}.new`, world, script, index)
    renameSync(`${film}.new`, film)
  }
  play(squat)
  const page = await atBench(film, index)
  await setUp(page, world)
  expect(await page.locator('[data-live="lamp"]').innerText()).toContain('The camera is on')
  await page.locator('[data-live="camera"]').click()
  await beginWithFilm(page)
  await soon(() => page.locator('[data-live="instruction"]').innerText(), 60_000).toContain('All steps are read')
  await page.locator('[data-live="end"]').click()
  await page.locator('[data-live="camera"]').click()
  await soon(async () => {
    const { sessions } = await saved(index)
    return sessions.flatMap((each) => (each.kind === 'squat' ? each.readings : [])).length
  }).toBe(4 * MASSES_KG.length)
  await page.evaluate((id) => { location.hash = `#/car/${id}/curve` }, `live-car-${index}`)
  for (const axle of ['front', 'rear'] as const) {
    await page.getByRole('button', { name: axle === 'front' ? 'Front axle' : 'Rear axle' }).click()
    const rate = await intervalAt(page, 'section[aria-labelledby="rate"]')
    expect([index, axle, ...around(rate, world[axle].rateNPerMm)]).toEqual([index, axle, true, true])
  }

  play(air)
  await page.evaluate((id) => { location.hash = `#/car/${id}/live` }, `live-car-${index}`)
  await page.getByLabel('What is read').selectOption('air')
  await page.locator('[data-live="new-run"]').click()
  await beginWithFilm(page)
  await page.locator('[data-live="air"][data-air="on"][data-phase="held"]').waitFor()
  for (const axle of ['front', 'rear'] as const) {
    const load = await intervalAt(page, `[data-load="${axle}"]`)
    expect([index, axle, ...around(load, air.loadN[axle])]).toEqual([index, axle, true, true])
  }
  await soon(() => page.locator('[data-live="kept"]').innerText()).toContain('air off, air on')
  await page.locator('[data-live="air"][data-air="off"][data-phase="held"]').waitFor()
  await page.waitForTimeout(500)
  await page.locator('[data-live="end"]').click()
  await soon(async () => {
    const { sessions } = await saved(index)
    const [run] = sessions.flatMap((each) => (each.kind === 'airflow' ? each.runs : []))
    return run?.states.filter(({ id }) => run.readings.some(({ stepId }) => stepId === id)).map((each) => each.air)
  }).toEqual(['off', 'on', 'off'])
}

describe('the live bench', () => {
  beforeAll(async () => {
    library = await libraryFolderForTest()
    for (const index of [1, 2]) await libraryAt(library.folder).value('exchange.import', { text: carFor(index) })
  })
  afterAll(async () => {
    for (const { host, browser } of benches) {
      await browser.close()
      await host.stop()
    }
    await library?.remove()
    rmSync(folder, { recursive: true, force: true })
  })

  it('walks a whole squat test and a blower run of two worlds with no typed height', async () => {
    // Both at once: they mostly wait for their films.
    await Promise.all([1, 2].map(walk))
  }, 150_000)

  it('lets no frame leave the machine, and no fault happen', () => {
    const own = benches.map(({ host }) => host.origin)
    expect(own).toHaveLength(2)
    expect(asked.filter((url) => !own.some((each) => url.startsWith(each)) && !/^(blob|data):/.test(url))).toEqual([])
    expect(faults).toEqual([])
  })
})
