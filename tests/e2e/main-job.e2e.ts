/**
 * The main job as a builder does it: a new car, weighed loads, a whole squat test and a blower run,
 * all by keyboard; then the host ends and starts again, and the same result is read back. The
 * headless command gives the same numbers as the screen.
 */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { expect, it } from 'vitest'
import { useApp } from './appUnderTest'
import { enter, tabTo, typeEach } from './keyboard'

/** The invented car: straight curves, N per mm for the whole axle, heights at rest in mm. */
const RATE = { front: 1.8, rear: 2.3 }
const REST = { front: 5.5, rear: 6 }
const G = 9.80665
const BAGS = [150, 180, 220, 260]

const height = (axle: 'front' | 'rear', forceN: number): string => (REST[axle] - forceN / RATE[axle]).toFixed(2)
const corners = (front: number, rear: number): string[] =>
  [height('front', front), height('front', front), height('rear', rear), height('rear', rear)]
/** Loads lie at half the wheelbase: half their weight on either axle. */
const under = (grams: number): string[] => corners(grams * G / 2000, grams * G / 2000)

const app = useApp()

async function openPage(): Promise<{ page: Page; faults: string[] }> {
  const page = await app.browser.newPage({ viewport: { width: 1280, height: 800 } })
  const faults: string[] = []
  page.on('pageerror', (error) => faults.push(error.message))
  await page.goto(app.host.address)
  await page.getByRole('heading', { level: 1 }).waitFor()
  return { page, faults }
}

async function saved(page: Page): Promise<void> {
  await page.waitForFunction(() => document.body.innerText.includes('Saved'))
}

const loadTexts = async (page: Page): Promise<string[]> => {
  await page.getByRole('heading', { level: 1, name: 'Downforce' }).waitFor()
  const rows = page.locator('tbody tr').first()
  await rows.waitFor()
  return rows.locator('td').allInnerTexts()
}

it('carries a new car from loads to downforce by keyboard, and finds it again', async () => {
  const { page, faults } = await openPage()
  await tabTo(page, /^Name of a new car/)
  await page.keyboard.type('Keyboard car')
  await page.keyboard.press('Enter')
  await page.getByRole('heading', { level: 1, name: 'Car' }).waitFor()

  await enter(page, /^Loads/)
  await page.getByRole('heading', { level: 1, name: 'Loads' }).waitFor()
  await tabTo(page, /^New load/)
  // Enter takes the proposed name and goes on to the mass; the next load begins at its name.
  await typeEach(page, BAGS.flatMap((grams) => ['', String(grams)]))
  await page.getByRole('textbox', { name: 'Bag 4, weighing 1' }).waitFor()

  await enter(page, /^Squat test/)
  await enter(page, /^Start a squat test$/)
  await page.waitForFunction(() => document.activeElement?.tagName === 'INPUT')
  await typeEach(page, corners(0, 0))
  let grams = 0
  for (const [index, mass] of BAGS.entries()) {
    await tabTo(page, new RegExp(`^Bag ${index + 1}`))
    await page.keyboard.press('Space')
    grams += mass
    await addStep(page, under(grams))
  }
  for (const [index, mass] of [...BAGS.entries()].reverse().slice(0, 3)) {
    await tabTo(page, new RegExp(`^Bag ${index + 1}`))
    await page.keyboard.press('Space')
    grams -= mass
    await addStep(page, under(grams))
  }
  await enter(page, /^All off: zero$/)
  await page.waitForTimeout(100)
  await typeEach(page, corners(0, 0))

  // A slip of the finger is named at the field and kept; then it is put right, and undone.
  await page.keyboard.press('Shift+Tab')
  await tabTo(page, /^Step 9, rear right/, true)
  await page.keyboard.type('6,0o')
  await page.keyboard.press('Enter')
  await page.getByRole('alert').first().waitFor()
  expect(await page.evaluate(() => (document.activeElement as HTMLInputElement).value)).toBe('6,0o')
  await page.keyboard.press('Control+A')
  await page.keyboard.type('6,04')
  await page.keyboard.press('Enter')
  await page.keyboard.press('Control+Z')
  await expect.poll(() => page.getByLabel('Step 9, rear right').inputValue()).toBe('6.00')

  await enter(page, /^Airflow/)
  await enter(page, /^\+? ?Blower run$/)
  await tabTo(page, /^State 1, front left/)
  await typeEach(page, [...corners(0, 0), ...corners(1.4, 2.1), ...corners(0, 0)])
  await tabTo(page, /^Point 1, speed 1/)
  await typeEach(page, [1, 2, 3, 4, 5, 6].map((point) => String(18 + point / 10)))
  await enter(page, /^Downforce/)
  const shown = await loadTexts(page)
  await saved(page)

  const { front, total, exchangeText } = await headless(page)
  expect(shown.join(' ')).toContain(front)
  expect(shown.join(' ')).toContain(total)
  expect(Number.parseFloat(front)).toBeGreaterThan(1.2)
  expect(Number.parseFloat(front)).toBeLessThan(1.6)
  expect(exchangeText).toContain('Keyboard car')
  expect(faults).toEqual([])
  await page.close()

  expect(await app.restart()).toBe(0)
  const again = await openPage()
  await enter(again.page, /^Keyboard car$/)
  await again.page.getByRole('heading', { level: 1, name: 'Overview' }).waitFor()
  await enter(again.page, /^Downforce/)
  expect(await loadTexts(again.page)).toEqual(shown)
  await again.page.close()
})

async function addStep(page: Page, heights: readonly string[]): Promise<void> {
  await enter(page, /^Add step/)
  await page.waitForFunction(() => document.activeElement?.tagName === 'INPUT')
  await typeEach(page, heights)
}

/** The same file through the headless command: the run's loads as its table prints them. */
async function headless(page: Page): Promise<{ front: string; total: string; exchangeText: string }> {
  const chassisId = /car\/([a-z0-9-]+)\//.exec(page.url())![1]!
  const exchangeText = await page.evaluate(async (id) => {
    const response = await fetch('/service/exchange.export', {
      method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ chassisId: id }),
    })
    return ((await response.json()) as { value: { text: string } }).value.text
  }, chassisId)
  const folder = mkdtempSync(join(tmpdir(), 'squatbench-headless-'))
  const file = join(folder, 'car.json')
  writeFileSync(file, exchangeText)
  const printed = execFileSync('npx', ['tsx', 'electron/headless/analyse.ts', file], { encoding: 'utf8' })
  rmSync(folder, { recursive: true })
  const row = printed.split('\n').find((line) => line.startsWith('Run 1'))!
  const [front, , total] = [...row.matchAll(/([\d.]+)\sN \[/g)].map(([, value]) => value!)
  return { front: front!, total: total!, exchangeText }
}
