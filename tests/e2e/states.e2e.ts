/** A slip of the pen in a state of a blower run: asked about in its row, one press from being right. */
import { expect, it } from 'vitest'
import { openDemo, useApp } from './appUnderTest'
import { enter } from './keyboard'

const app = useApp()

it('marks a height that can’t be, says what was meant, and takes it', async () => {
  const page = await app.browser.newPage({ viewport: { width: 1280, height: 800 } })
  const faults: string[] = []
  page.on('pageerror', (error) => faults.push(error.message))
  await openDemo(page, app)
  await enter(page, /^Airflow/)
  await page.getByRole('button', { name: /^Tray, no skirts, half throttle/ }).click()
  const field = page.getByRole('textbox', { name: /^State 2, front left/ })
  const was = await field.inputValue()
  const load = page.getByText('Downforce, front').locator('..')
  await expect.poll(() => load.innerText(), { timeout: 20_000 }).toMatch(/\d\sN/)
  const before = await load.innerText()

  await field.fill(String(Number(was) * 10))
  await page.keyboard.press('Enter')
  const use = page.getByRole('button', { name: new RegExp(`^Use ${was}`) })
  await use.waitFor({ timeout: 20_000 })
  expect(await field.getAttribute('aria-describedby')).toMatch(/doubt-/)
  expect(await load.innerText()).not.toMatch(/at least/)
  await use.click()
  await use.waitFor({ state: 'detached', timeout: 20_000 })
  expect(await field.inputValue()).toBe(was)
  await expect.poll(() => load.innerText(), { timeout: 20_000 }).toBe(before)

  await field.fill(String(Number(was) * 10))
  await page.keyboard.press('Enter')
  await page.getByRole('button', { name: /^Keep it/ }).click({ timeout: 20_000 })
  await use.waitFor({ state: 'detached', timeout: 20_000 })
  expect(Number(await field.inputValue())).toBeCloseTo(Number(was) * 10, 6)
  expect(faults).toEqual([])
  await page.close()
})
