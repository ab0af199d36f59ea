/**
 * The live bench in Chromium against the built app: the browser's stand-in camera plays drawn films of simulated
 * benches. A whole squat test and a blower run without one typed height; the truth of the film, which shares no code
 * with the app, lies in what the app states.
 */
import { mkdtempSync, readFileSync, renameSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { libraryAt } from '../harness/libraryAt'
import { airScript, squatScript, troubledScript } from '../worlds/film/scripts'
import { writeFilm } from '../worlds/film/drawn'
import { drawFilmWorld, WHEELBASE_MM, type Script } from '../worlds/film/world'
import { launchBrowser } from './browser'
import { beginWithFilm, cameraFlags, openBench, setUpBench } from './liveSteps'
import { libraryFolderForTest, startHostFor, type StartedHost } from './startedHost'

const WIDTH = 640
const PER_S = 15
/** How many bags of how much each world has. */
const BAGS: Readonly<Record<number, { readonly count: number; readonly kg: number }>> = {
  1: { count: 3, kg: 0.5 }, 2: { count: 2, kg: 0.75 }, 3: { count: 2, kg: 0.75 },
}
/** Laid on one after the other and taken off again. */
function massesOf(index: number): number[] {
  const { count, kg } = BAGS[index]!
  const up = Array.from({ length: count + 1 }, (_, bags) => kg * bags)
  return [...up, ...up.slice(0, -1).reverse()]
}
const soon = <T>(ask: () => Promise<T>, timeout = 30_000) => expect.poll(ask, { timeout, interval: 100 })

const folder = mkdtempSync(join(tmpdir(), 'squatbench-live-'))
let library: Awaited<ReturnType<typeof libraryFolderForTest>>
const benches: { host: StartedHost; browser: Browser }[] = []
const origins: string[] = []
const faults: string[] = []
const asked: string[] = []

/** The demo car with the bags of its world, as long as the world's car, nothing read yet. */
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
  const { count, kg } = BAGS[index]!
  chassis.loads = ['One', 'Two', 'Three'].slice(0, count).map((name, i) => ({
    ...bag, id: `bag-${i}`, name: `Bag ${name}`,
    weighings: bag.weighings.map((each: object, k: number) => ({ ...each, id: `w-${i}-${k}`, massKg: kg })),
  }))
  demo.sessions = []
  return JSON.stringify(demo)
}

/** A browser of such flags on the live bench of a car. */
async function atBench(index: number, flags: readonly string[]): Promise<Page> {
  // Each address is good for one browser.
  const host = await startHostFor(library.folder)
  const browser = await launchBrowser(flags)
  benches.push({ host, browser })
  origins.push(host.origin)
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } })
  page.on('pageerror', (error) => faults.push(error.message))
  page.on('request', (request) => asked.push(request.url()))
  await openBench(page, host.address, `live-car-${index}`)
  return page
}

/** Ends of what is stated at a place of the screen: an interval, or bounds where two bags tell the curve too little. */
async function intervalAt(page: Page, selector: string): Promise<[number, number]> {
  const text = await page.locator(selector).innerText()
  const found = /interval ([\d.−-]+) to ([\d.−-]+)/.exec(text) ?? /between ([\d.−-]+)\D+and ([\d.−-]+)/.exec(text)
  if (!found) throw new Error(`no interval in: ${text}`)
  return [found[1]!, found[2]!].map((each) => Number(each.replace('−', '-'))) as [number, number]
}

const saved = (index: number) => libraryAt(library.folder).value('library.open', { chassisId: `live-car-${index}` })

/** The ends of an interval lie on both sides of the truth. */
const around = ([low, high]: [number, number], truth: number) => [low < truth, high > truth]

/** A squat test and a blower run of a world; what the app states is held to what was true in the film. */
async function walk(index: number): Promise<{ page: Page; play: (script: Script) => void }> {
  const world = drawFilmWorld(index, WIDTH, PER_S)
  const squat = squatScript(world, index, { stayS: 5, leadS: 1, massesKg: massesOf(index) })
  const air = airScript(world, index, { restS: 4, airS: 6 })
  const film = join(folder, `bench-${index}.y4m`)
  const play = (script: Script): void => {
    writeFilm(`${film}.new`, world, script, index)
    renameSync(`${film}.new`, film)
  }
  play(squat)
  const page = await atBench(index, cameraFlags(film))
  await setUpBench(page, world)
  expect(await page.locator('[data-live="lamp"]').innerText()).toContain('The camera is on')
  await page.locator('[data-live="camera"]').click()
  await beginWithFilm(page)
  await soon(() => page.locator('[data-live="instruction"]').innerText(), 60_000).toContain('All steps are read')
  await page.locator('[data-live="end"]').click()
  await page.locator('[data-live="camera"]').click()
  await soon(async () => {
    const { sessions } = await saved(index)
    return sessions.flatMap((each) => (each.kind === 'squat' ? each.readings : [])).length
  }).toBe(4 * massesOf(index).length)
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
  // Somebody sees the tray come down: from then on there is no plain number.
  for (const said of [true, false]) {
    await page.keyboard.press('f')
    for (const axle of ['front', 'rear']) {
      await soon(async () => /at least/i.test(await page.locator(`[data-load="${axle}"]`).innerText())).toBe(said)
    }
  }
  await soon(() => page.locator('[data-live="kept"]').innerText()).toContain('air off, air on')
  await page.locator('[data-live="air"][data-air="off"][data-phase="held"]').waitFor()
  await page.waitForTimeout(500)
  await page.locator('[data-live="end"]').click()
  await soon(async () => {
    const { sessions } = await saved(index)
    const [run] = sessions.flatMap((each) => (each.kind === 'airflow' ? each.runs : []))
    const read = run?.states.filter(({ id }) => run.readings.some(({ stepId }) => stepId === id))
    const airs = read?.map((each) => each.air)
    // On a busy machine frames go missing, which cuts a stretch in two, and the film may begin anew.
    return airs?.filter((air, i) => air !== airs[i - 1]).slice(0, 3)
  }).toEqual(['off', 'on', 'off'])
  await page.locator('[data-live="camera"]').click()
  return { page, play }
}

/** Steps by key and typed over, what is said of other light and of a tripod that slips; a film is kept for once. */
async function workByKey({ page, play }: Awaited<ReturnType<typeof walk>>): Promise<void> {
  const step = (number: number) => soon(() => page.locator('.wall').innerText()).toContain(`Step ${number} of`)
  const trouble = (kind: string) => page.locator(`[data-trouble="${kind}"]`)
  play(troubledScript)
  await page.getByLabel('What is read').selectOption('squat')
  await page.locator('[data-live="new-squat"]').click()
  await page.locator('[data-live="film"]').check()
  await beginWithFilm(page)
  await step(2)
  await page.keyboard.press('t')
  await step(3)
  await page.keyboard.press('p')
  await step(2)
  await page.keyboard.press('Control+z')
  await step(3)
  await trouble('lightChanged').waitFor()
  await page.keyboard.press('l')
  await trouble('lightChanged').waitFor({ state: 'detached' })
  await trouble('tripodMoved').waitFor()
  await page.keyboard.press('t')
  await page.waitForTimeout(300)
  await step(3)
  await page.keyboard.press('l')
  await trouble('tripodMoved').waitFor({ state: 'detached' })
  await page.keyboard.press('l')
  await step(4)
  const [film] = await Promise.all([page.waitForEvent('download'), page.locator('[data-live="end"]').click()])
  expect(film.suggestedFilename()).toMatch(/\.webm$/)
  expect([...readFileSync(await film.path()).subarray(0, 4)]).toEqual([0x1a, 0x45, 0xdf, 0xa3])

  await page.getByRole('link', { name: /^Squat test/ }).first().click()
  const field = page.getByRole('textbox', { name: 'Step 2, front left' })
  const read = Number(await field.inputValue())
  await field.fill(String(read + 0.05))
  await field.press('Enter')
  await soon(async () => {
    const { sessions } = await saved(2)
    const [reading] = sessions.flatMap((each) => (each.kind === 'squat' ? each.readings : []))
      .filter(({ corrections }) => corrections.length > 0)
    return reading && [reading.from.kind, Math.abs(reading.corrections[0]!.was - read) < 0.01]
  }).toEqual(['picture', true])
}

describe('the live bench', () => {
  beforeAll(async () => {
    library = await libraryFolderForTest()
    for (const index of [1, 2, 3]) await libraryAt(library.folder).value('exchange.import', { text: carFor(index) })
  })
  // The car of a bench that is still open would be waited for.
  afterEach(async () => {
    for (const { host, browser } of benches.splice(0)) {
      await browser.close()
      await host.stop()
    }
  })
  afterAll(async () => {
    await library?.remove()
    rmSync(folder, { recursive: true, force: true })
  })

  it.each([
    ['refused', ['--use-fake-device-for-media-stream'], 'The camera was not allowed. Allow it for this page'],
    ['not there', [], 'No camera was found. Plug one in'],
  ])('says what to do where the camera is %s', async (_, flags, words) => {
    const page = await atBench(3, flags)
    // No permission is granted, and what is asked for is refused at once.
    await page.context().grantPermissions([])
    await page.locator('[data-live="camera"]').click()
    await soon(() => page.locator('p[role="alert"]').innerText()).toContain(words)
    expect(await page.locator('[data-live="lamp"]').innerText()).toContain('The camera is off')
  })

  it('walks a whole squat test and a blower run of two worlds with no typed height', async () => {
    // Both at once: they mostly wait for their films.
    await Promise.all([walk(1), walk(2).then(workByKey)])
  }, 240_000)

  it('keeps numbers and one small picture of each set-up, no frames', async () => {
    for (const index of [1, 2]) {
      const { chassis, sessions } = await saved(index)
      const pictures = sessions.flatMap((each) => ('pictures' in each ? each.pictures : []))
      expect(pictures.length).toBeGreaterThan(0)
      for (const { thumbnail } of pictures) expect(thumbnail?.length).toBeLessThan(100_000)
      const rest = { chassis, sessions: sessions.map((each) => ({ ...each, pictures: [] })) }
      expect(JSON.stringify(rest).length).toBeLessThan(100_000)
    }
  })

  it('lets no frame leave the machine, and no fault happen', () => {
    expect(origins).toHaveLength(4)
    expect(asked.filter((url) => !origins.some((each) => url.startsWith(each)) && !/^(blob|data):/.test(url))).toEqual([])
    expect(faults).toEqual([])
  })
})
