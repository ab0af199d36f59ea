/** Areas of the traverse by keyboard: the mean of V² follows them, and one step back takes all away. */
import type { Page } from 'playwright-core'
import { expect, it } from 'vitest'
import { useApp } from './appUnderTest'
import { enter, tabTo } from './keyboard'

const app = useApp()
/** On a machine that may be busy. */
const BUSY = { timeout: 30_000 }

it('lets points stand for unequal areas', async () => {
  const page = await app.browser.newPage({ viewport: { width: 1280, height: 800 } })
  const faults: string[] = []
  page.on('pageerror', (error) => faults.push(error.message))
  await page.goto(app.host.address)
  await enter(page, /^Open the demo car$/)
  await page.getByRole('heading', { level: 1, name: 'Car' }).waitFor()
  await enter(page, /^Airflow/)
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
  await page.close()
})

/** Root mean square of the air speed, as the screen states it, m/s. */
async function airSpeed(page: Page): Promise<number> {
  const said = (await page.locator('main').innerText()).replace(/\s+/g, ' ')
  return Number(/Air speed, root mean square ([\d.]+) m\/s/.exec(said)?.[1] ?? NaN)
}
