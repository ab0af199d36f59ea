/**
 * The traverse by keyboard: Enter runs down the speeds of one repeat and on to the next, never into the
 * coordinates; the mean of V² follows the areas, and one step back takes them away.
 */
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { useApp } from './appUnderTest'
import { enter, tabTo } from './keyboard'

const app = useApp()
/** On a machine that may be busy. */
const BUSY = { timeout: 30_000 }

let page: Page
const faults: string[] = []

beforeAll(async () => {
  page = await app.browser.newPage({ viewport: { width: 1280, height: 800 } })
  page.on('pageerror', (error) => faults.push(error.message))
  await page.goto(app.host.address)
  await enter(page, /^Open the demo car$/)
  await page.getByRole('heading', { level: 1, name: 'Overview' }).waitFor()
  await enter(page, /^Airflow/)
})
afterAll(async () => { await page?.close() })

it('lets points stand for unequal areas', async () => {
  await page.getByRole('heading', { name: 'Speed across the jet' }).waitFor()
  const speed = (): Promise<number> => airSpeed(page)
  await expect.poll(speed, BUSY).toBeGreaterThan(5)
  const equal = await speed()
  expect(await page.getByRole('textbox', { name: 'Point 1, area' }).count()).toBe(0)

  await tabTo(page, /^Points stand for unequal areas/)
  await page.keyboard.press('Space')
  await tabTo(page, /^Point 1, area/)
  // As many areas as there are points; equal ones change nothing.
  expect(await speed()).toBeCloseTo(equal, 6)

  await page.keyboard.type('100')
  await page.keyboard.press('Enter')
  await expect.poll(speed, BUSY).not.toBeCloseTo(equal, 1)
  // Point 1 lies at the jet's edge: with nearly all the area there, the stream is slower.
  expect(await speed()).toBeLessThan(equal)

  await page.keyboard.press('Escape')
  await tabTo(page, /^Points stand for unequal areas/, true)
  await page.keyboard.press('Space')
  await expect.poll(speed, BUSY).toBeCloseTo(equal, 6)
  expect(await page.getByRole('textbox', { name: 'Point 1, area' }).count()).toBe(0)
  expect(faults).toEqual([])
})

it('takes speeds down the column of a repeat, then of the next, and leaves the coordinates alone', async () => {
  await enter(page, /^\+ Another airflow session$/)
  await enter(page, /^Blower run$/)
  const texts = (name: RegExp): Promise<string[]> =>
    page.getByRole('textbox', { name }).evaluateAll((all) => all.map((each) => (each as HTMLInputElement).value))
  const coordinates = await texts(/^Point \d+, [yz]/)

  await tabTo(page, /^Point 1, speed 1/)
  const first = ['19.1', '19.2', '19.3', '19.4', '19.5', '19.6']
  const second = ['18.1', '18.2', '18.3', '18.4', '18.5', '18.6']
  for (const speed of [...first, ...second]) {
    for (const key of speed) await page.keyboard.press(key)
    await page.keyboard.press('Enter')
  }
  expect(await texts(/^Point \d+, speed 1/)).toEqual(first)
  expect(await texts(/^Point \d+, speed 2/)).toEqual(second)
  expect(await texts(/^Point \d+, [yz]/)).toEqual(coordinates)

  // Emptied, a speed goes; the next of that point moves up, and the field shows it.
  await page.getByRole('textbox', { name: 'Point 2, speed 1' }).focus()
  await page.keyboard.press('Control+A')
  await page.keyboard.press('Delete')
  await page.keyboard.press('Enter')
  expect(await texts(/^Point 2, speed/)).toEqual(['18.2', ''])
  expect(faults).toEqual([])
})

it('keeps the grid for the next run and no speed, until the builder takes them over', async () => {
  const texts = (name: RegExp): Promise<string[]> =>
    page.getByRole('textbox', { name }).evaluateAll((all) => all.map((each) => (each as HTMLInputElement).value))
  const [grid, speeds] = [await texts(/^Point \d+, [yz]/), await texts(/^Point \d+, speed/)]
  await enter(page, /^\+ Blower run$/)
  const focused = (): Promise<string | null | undefined> =>
    page.evaluate(() => (document.activeElement as HTMLInputElement).labels?.[0]?.textContent)
  expect(await focused()).toMatch(/^Run/)
  expect(await texts(/^Point \d+, [yz]/)).toEqual(grid)
  expect(await texts(/^Point \d+, speed/)).toEqual(grid.slice(0, 6).map(() => ''))
  await enter(page, /^Take the speeds of /)
  expect(await texts(/^Point \d+, speed/)).toEqual(speeds)

  await enter(page, /^\+ air on$/)
  expect(await focused()).toMatch(/^State 4, front left/)
  expect(faults).toEqual([])
})

it('marks the speed in which the decimal mark slipped', async () => {
  const field = page.getByRole('textbox', { name: 'Point 3, speed 1' })
  await field.focus()
  await page.keyboard.press('Control+A')
  await page.keyboard.type('190')
  await page.keyboard.press('Enter')
  const said = page.locator(`#${await field.getAttribute('aria-describedby')}`)
  expect((await said.innerText()).replace(/\s+/g, ' ')).toMatch(/Point 3, speed 1: 190(\.\d)? m\/s stands far off .* it is 19 m\/s/)
  expect(faults).toEqual([])
})

/** Root mean square of the air speed, as the screen states it, m/s. */
async function airSpeed(page: Page): Promise<number> {
  const said = (await page.locator('main').innerText()).replace(/\s+/g, ' ')
  return Number(/Air speed, root mean square ([\d.]+) m\/s/.exec(said)?.[1] ?? NaN)
}
