/**
 * The live bench in Chromium against the built app: the browser's stand-in camera plays drawn films of simulated
 * benches. A whole squat test and a blower run without one typed height; the truth of the film, which shares no code
 * with the app, lies in what the app states.
 */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { libraryAt } from '../harness/libraryAt'
import { airScript, squatScript, SQUAT_KG } from '../worlds/film/scripts'
import { writeFilm } from '../worlds/film/drawn'
import { drawFilmWorld, placesOf, RULE_MM, SPOTS, WHEELBASE_MM, type FilmWorld, type Script } from '../worlds/film/world'
import { launchBrowser } from './browser'
import { libraryFolderForTest, startHostFor, type StartedHost } from './startedHost'

const WIDTH = 640
const PER_S = 12
const soon = <T>(ask: () => Promise<T>, timeout = 30_000) => expect.poll(ask, { timeout, interval: 200 })

const folder = mkdtempSync(join(tmpdir(), 'squatbench-live-'))
let library: Awaited<ReturnType<typeof libraryFolderForTest>>
let host: StartedHost | undefined
let browser: Browser | undefined
let page: Page
const faults: string[] = []
const asked: string[] = []
const origins: string[] = []

/** The demo car with four bags of 400 g, as long as the world's car, nothing read yet. */
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
  chassis.loads = ['One', 'Two', 'Three', 'Four'].map((name, i) => ({
    ...bag, id: `bag-${i}`, name: `Bag ${name}`,
    weighings: bag.weighings.map((each: object, k: number) => ({ ...each, id: `w-${i}-${k}`, massKg: 0.4 })),
  }))
  demo.sessions = []
  return JSON.stringify(demo)
}

/** A browser whose camera plays a film, on the live bench of a car. */
async function atBench(film: string, index: number): Promise<void> {
  // Each address is good for one browser.
  host = await startHostFor(library.folder)
  browser = await launchBrowser([
    '--use-fake-device-for-media-stream', '--use-fake-ui-for-media-stream', `--use-file-for-fake-video-capture=${film}`,
  ])
  page = await browser.newPage({ viewport: { width: 1280, height: 900 } })
  page.on('pageerror', (error) => faults.push(error.message))
  page.on('request', (request) => asked.push(request.url()))
  await page.goto(host.address)
  origins.push(host.origin)
  await page.getByRole('heading', { level: 1 }).first().waitFor()
  await page.evaluate((id) => { location.hash = `#/car/${id}/live` }, `live-car-${index}`)
  await page.locator('[data-live="camera"]').waitFor()
}

async function leave(): Promise<void> {
  await browser?.close()
  browser = undefined
  await host?.stop()
}

const clickSpot = async (at: { x: number; y: number }): Promise<void> => {
  const board = page.locator('svg[data-camera="board"]')
  const box = (await board.boundingBox())!
  await board.click({ position: { x: (at.x * box.width) / WIDTH, y: (at.y * box.width) / WIDTH } })
}

/** Takes the set-up picture, marks it by clicks, and gives the length of the rule. */
async function setUp(world: FilmWorld): Promise<void> {
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
  for (const name of SPOTS) await clickSpot(places[name])
  await soon(() => page.locator('[data-mark]').filter({ hasText: 'snapped' }).count()).toBe(SPOTS.length)
  await soon(() => page.locator('[data-live="wanted"]').count()).toBe(0)
}

/** The film begins anew with the camera; the bench begins at once. */
async function beginAnew(): Promise<void> {
  await page.locator('[data-live="camera"]').click()
  await page.locator('[data-live="camera"]').click()
  await soon(() => page.locator('[data-live="begin"]').isEnabled()).toBe(true)
  await page.locator('[data-live="begin"]').click()
}

async function intervals(selector: string): Promise<[number, number]> {
  const text = await page.locator(selector).innerText()
  const found = /interval ([\d.−-]+) to ([\d.−-]+)/.exec(text)
  if (!found) throw new Error(`no interval in: ${text}`)
  return [found[1]!, found[2]!].map((each) => Number(each.replace('−', '-'))) as [number, number]
}

const saved = (index: number) => libraryAt(library.folder).value('library.open', { chassisId: `live-car-${index}` })

describe('the live bench', () => {
  beforeAll(async () => {
    library = await libraryFolderForTest()
    for (const index of [1, 2]) await libraryAt(library.folder).value('exchange.import', { text: carFor(index) })
  })
  afterEach(async () => {
    await leave()
  })
  afterAll(async () => {
    await library?.remove()
    rmSync(folder, { recursive: true, force: true })
  })

  it.each([1, 2])('walks a whole squat test and a blower run of world %d with no typed height', async (index) => {
    const world = drawFilmWorld(index, WIDTH, PER_S)
    const squat = squatScript(world, index, 7)
    const air = airScript(world, index)
    const film = (name: string, script: Script): string => {
      const file = join(folder, `${name}-${index}.y4m`)
      writeFilm(file, world, script, index)
      return file
    }
    await atBench(film('squat', squat), index)
    await setUp(world)
    expect(await page.locator('[data-live="lamp"]').innerText()).toContain('The camera is on')
    await beginAnew()
    await soon(() => page.locator('[data-live="instruction"]').innerText(), 120_000).toContain('All steps are read')
    await page.locator('[data-live="end"]').click()
    await soon(async () => {
      const { sessions } = await saved(index)
      return sessions.flatMap((each) => (each.kind === 'squat' ? each.readings : [])).length
    }).toBe(4 * SQUAT_KG.length)
    await page.evaluate((id) => { location.hash = `#/car/${id}/curve` }, `live-car-${index}`)
    await page.getByText('interval').first().waitFor()
    const text = await page.locator('main').innerText()
    for (const [axle, name] of [['front', /Front/], ['rear', /Rear/]] as const) expect([axle, name.test(text)]).toEqual([axle, true])
    await leave()

    await atBench(film('air', air), index)
    await page.getByLabel('What is read').selectOption('air')
    await page.locator('[data-live="new-run"]').click()
    await setUp(world)
    await beginAnew()
    await soon(() => page.locator('[data-live="air"]').getAttribute('data-air'), 40_000).toBe('on')
    await page.waitForTimeout(4500)
    for (const axle of ['front', 'rear'] as const) {
      const [low, high] = await intervals(`[data-load="${axle}"]`)
      expect([axle, low < air.loadN[axle], high > air.loadN[axle]]).toEqual([axle, true, true])
    }
    await soon(() => page.locator('[data-live="kept"]').innerText(), 60_000).toContain('air off, air on')
    await page.waitForTimeout(4000)
    await page.locator('[data-live="end"]').click()
    await soon(async () => {
      const { sessions } = await saved(index)
      const [run] = sessions.flatMap((each) => (each.kind === 'airflow' ? each.runs : []))
      return run?.states.filter(({ id }) => run.readings.some(({ stepId }) => stepId === id)).map((each) => each.air)
    }).toEqual(['off', 'on', 'off'])
  }, 400_000)

  it('lets no frame leave the machine, and no fault happen', () => {
    expect(asked.filter((url) => !origins.some((each) => url.startsWith(each)) && !/^(blob|data):/.test(url))).toEqual([])
    expect(faults).toEqual([])
  })
})
