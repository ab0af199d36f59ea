/** Readings by the table: pasted, dropped, refused by the cell, taken back at once; fields that answer as one types. */
import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { admit, ask, importDemo, show } from '../screenshots/visit'
import { useApp } from './appUnderTest'

const app = useApp()
let page: Page
let car = ''
const faults: string[] = []
beforeAll(async () => {
  const storageState = await admit(app.browser, app.host.address)
  const context = await app.browser.newContext({ viewport: { width: 1366, height: 900 }, storageState })
  page = await context.newPage()
  page.setDefaultTimeout(15_000)
  page.on('pageerror', (error) => faults.push(error.message))
  await page.goto(app.host.origin)
  await page.waitForSelector('main h1')
  car = await importDemo(page)
})
afterAll(() => page.context().close())

const field = (name: string) => page.getByRole('textbox', { name })
const said = (text: string) => page.getByRole('status').getByText(text).waitFor()
async function paste(at: Locator, text: string): Promise<void> {
  await at.click()
  await page.evaluate((copied) => navigator.clipboard.writeText(copied), text)
  await page.keyboard.press('Control+V')
}

it('takes rows of corners from where they are pasted, and gives all back by one undo', async () => {
  await show(page, 'squat', car)
  const cells = [field('Step 2, front left'), field('Step 3, rear left')]
  const before = await Promise.all(cells.map((each) => each.inputValue()))
  await paste(cells[0]!, '4,41\t4,42\t\t4,44\n3,91\t\t3,93\t3,94\n')
  await said('Taken in: 2 rows, 6 readings. 6 of them corrected what stood there.')
  expect(await Promise.all(cells.map((each) => each.inputValue()))).toEqual(['4.41', '3.93'])
  await page.keyboard.press('Control+Z')
  await expect.poll(() => Promise.all(cells.map((each) => each.inputValue()))).toEqual(before)
})

it('names a refused cell, lets it be put right where it stands, and takes nothing in before', async () => {
  const rows = page.locator('tr[data-step]')
  const count = await rows.count()
  await paste(field('Step 21, front left'), 'load\tFL\tFR\tRL\tRR\n0\t5,5\t5,5\t6,0\t6,0\n119,8\t5,4\t5,3o\t5,9\t5,9\n')
  const dialog = page.getByRole('dialog', { name: 'Table of a squat test' })
  await dialog.getByText('Row 3, column 3 (front right): “o” is no unit for this field').waitFor()
  expect(await dialog.getByRole('button', { name: 'Take it in' }).isDisabled()).toBe(true)
  expect(await rows.count()).toBe(count)
  const cell = dialog.getByRole('textbox', { name: 'Row 3, column 3' })
  expect(await cell.inputValue()).toBe('5,3o')
  await cell.fill('5,3')
  await cell.press('Tab')
  await dialog.getByRole('button', { name: 'Take it in' }).click()
  await said('Taken in: 2 rows, 8 readings.')
  expect(await rows.count()).toBe(count + 2)
  await page.keyboard.press('Control+Z')
  await expect.poll(() => rows.count()).toBe(count)
})

it('asks once what the columns of a file hold, and remembers it', async () => {
  await show(page, 'loads', car)
  const file = (names: string[]) => ({
    name: 'shot.csv', mimeType: 'text/csv', buffer: Buffer.from(`Sack;Wert\n${names.map((name) => `${name};0,3005`).join('\n')}\n`),
  })
  await page.locator('input[type="file"][accept*="csv"]').setInputFiles(file(['Lead 1']))
  const dialog = page.getByRole('dialog', { name: 'Table of loads' })
  await dialog.getByRole('combobox', { name: 'Column 1', exact: true }).selectOption('name')
  await dialog.getByRole('combobox', { name: 'Column 2', exact: true }).selectOption('mass')
  await dialog.getByRole('combobox', { name: 'Unit of column 2' }).selectOption('kilogram')
  await dialog.getByRole('button', { name: 'Take it in' }).click()
  await said('Taken in: 1 row, 1 reading.')
  await page.locator('input[type="file"][accept*="csv"]').setInputFiles(file(['Lead 2', 'Lead 3']))
  await said('Taken in: 2 rows, 2 readings.')
  expect(await field('Lead 3, weighing 1').inputValue()).toBe('300.5')
})

it('takes heights, speeds and laps where they are pasted', async () => {
  await show(page, 'airflow', car)
  await paste(field('State 1, front left'), '5,51\t5,52\t5,93\t5,94\n')
  await said('Taken in: 1 row, 4 readings.')
  expect(await field('State 1, rear right').first().inputValue()).toBe('5.94')
  await show(page, 'track', car)
  const laps = page.locator('[data-lap]')
  const count = await laps.count()
  await paste(page.locator('[data-run]').last().locator('.next input'), '6,41\n6,38\n6,4\n')
  await said('Taken in: 1 row, 3 readings.')
  await expect.poll(() => laps.count()).toBe(count + 3)
})

it('has bench mode for airflow and laps: units at the numbers, keys for a thumb, Enter goes on', async () => {
  await page.getByRole('button', { name: 'Bench mode' }).click()
  const dialog = page.getByRole('dialog', { name: 'Bench mode' })
  const now = dialog.locator('.now input')
  await now.fill('6,39')
  await now.press('Enter')
  await expect.poll(() => dialog.locator('.other .figure').last().innerText()).toContain('6.39')
  await expect.poll(() => now.inputValue()).toBe('')
  await page.keyboard.press('Escape')
  await show(page, 'airflow', car)
  await page.getByRole('button', { name: 'Bench mode' }).click()
  expect(await dialog.locator('.now .unit').innerText()).toBe('mm')
  const first = await dialog.locator('.now').getAttribute('aria-label')
  await dialog.getByRole('button', { name: 'Next' }).click()
  await expect.poll(() => dialog.locator('.now').getAttribute('aria-label')).not.toBe(first)
  const boxes = await dialog.getByRole('button').evaluateAll((all) => all.map((each) => each.getBoundingClientRect().height))
  expect(Math.min(...boxes)).toBeGreaterThanOrEqual(56)
  await page.keyboard.press('Escape')
})

it('answers while a drop is typed, and keeps nothing of it', async () => {
  await show(page, 'curve', car)
  const section = page.locator('section[aria-labelledby="try"]').first()
  const drop = section.getByRole('textbox', { name: /^Drop/ }).first()
  await drop.click()
  await page.keyboard.type('1.5')
  await expect.poll(() => section.innerText(), { timeout: 10_000 }).toMatch(/\d\s*N/)
  const at15 = await section.innerText()
  await page.keyboard.type('5')
  await expect.poll(() => section.innerText()).not.toBe(at15)
  expect(await drop.getAttribute('data-typing')).toBe('yes')
})

it('goes on to the next field after a slip was put right, and a click takes hold of what stands there', async () => {
  await show(page, 'squat', car)
  await field('Step 2, front left').click()
  await page.keyboard.type('44')
  await page.keyboard.press('Enter')
  const use = page.getByRole('button', { name: /^Use 4/ }).first()
  await use.click()
  await page.keyboard.type('4.5')
  await page.keyboard.press('Enter')
  expect(await field('Step 2, front left').inputValue()).toBe('4.40')
  expect(await field('Step 2, front right').inputValue()).toBe('4.5')
})

it('says that a file was taken in before and offers to open it, and leads home from a car that is not there', async () => {
  await page.goto(`${app.host.origin}/#/`)
  await page.getByRole('heading', { level: 1, name: 'Your cars' }).or(page.getByRole('heading', { level: 1 })).first().waitFor()
  const { text } = await ask(page, 'exchange.export', { chassisId: car }) as { text: string }
  await page.locator('input[type="file"][accept*="json"]').setInputFiles({ name: 'again.json', mimeType: 'application/json', buffer: Buffer.from(text) })
  const dialog = page.getByRole('dialog', { name: /is in your library already/ })
  await dialog.getByRole('button', { name: 'Open the car' }).click()
  await page.waitForFunction((id) => location.hash.includes(id), car)
  await page.evaluate(() => { location.hash = '#/car/no-such-car/squat' })
  await page.getByRole('alert').getByText('could not be opened').waitFor()
  expect(await page.getByRole('navigation').count()).toBe(0)
  await page.getByRole('link', { name: 'To all cars' }).click()
  await page.getByRole('link', { name: 'Heron 10' }).waitFor()
})

it('says at the first click that the host is dead, also where the page was not fetched yet', async () => {
  await page.reload()
  await page.getByRole('link', { name: 'Heron 10' }).waitFor()
  await app.host.stop()
  await page.getByRole('link', { name: 'Help' }).click()
  await page.getByRole('alert').getByText('Squatbench does not answer').waitFor()
  expect(faults.filter((each) => !/fetch|preload|module/i.test(each))).toEqual([])
})
