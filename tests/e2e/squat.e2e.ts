/** The squat test under the hands: emptied fields, slips caught where they are made, steps added by key. */
import type { BrowserContext, Page } from 'playwright-core'
import { beforeAll, expect, it } from 'vitest'
import { admit, importDemo, show, type ScreenName } from '../screenshots/visit'
import { useApp } from './appUnderTest'

const app = useApp()
let storageState: Awaited<ReturnType<BrowserContext['storageState']>>
beforeAll(async () => { storageState = await admit(app.browser, app.host.address) })

interface Open { page: Page; chassisId: string; faults: string[]; close: () => Promise<void> }

/** The demo car at a screen, in a window of its own. */
async function open(screen: ScreenName = 'squat'): Promise<Open> {
  const context = await app.browser.newContext({ viewport: { width: 1280, height: 800 }, storageState })
  const page = await context.newPage()
  const faults: string[] = []
  page.on('pageerror', (error) => faults.push(error.message))
  page.on('console', (message) => {
    if (message.type() === 'error' && !message.text().includes('Permissions-Policy')) faults.push(message.text())
  })
  await page.goto(app.host.origin)
  await page.waitForSelector('main h1')
  const chassisId = await importDemo(page)
  await show(page, screen, chassisId)
  return { page, chassisId, faults, close: () => context.close() }
}
const field = (page: Page, name: string) => page.getByRole('textbox', { name })
const said = (page: Page, text: string) => page.getByRole('status').getByText(text).waitFor({ state: 'attached' })
const saved = (page: Page) => page.waitForFunction(() => document.querySelector('.saved')?.getAttribute('data-state') === 'saved')

it('takes a reading out when its field is emptied, by Enter and by Tab, and gives it back by undo', async () => {
  const { page, chassisId, faults, close } = await open()
  for (const [name, key] of [['Step 2, front left', 'Enter'], ['Step 3, rear right', 'Tab']] as const) {
    const cell = field(page, name)
    const before = await cell.inputValue()
    await cell.press('Control+A')
    await cell.press('Delete')
    await cell.press(key)
    await page.getByText(new RegExp(`Read ${name.split(', ')[1]!}`)).first().waitFor()
    await saved(page)
    await show(page, 'loads', chassisId)
    await show(page, 'squat', chassisId)
    expect(await cell.inputValue()).toBe('')
    await page.keyboard.press('Control+Z')
    await said(page, `Taken back: ${name}: emptied`)
    await expect.poll(() => cell.inputValue()).toBe(before)
  }
  expect(faults).toEqual([])
  await close()
})

it('takes a reading out in bench mode too', async () => {
  const { page, close } = await open()
  await page.getByRole('button', { name: 'Bench mode' }).click()
  const dialog = page.getByRole('dialog', { name: 'Bench mode' })
  const now = dialog.locator('.now input[type="text"]')
  await expect.poll(() => now.inputValue()).not.toBe('')
  await now.press('Control+A')
  await now.press('Delete')
  await now.press('PageDown')
  expect(await dialog.getByRole('button', { name: 'Go to front left' }).innerText()).toContain('–')
  await page.keyboard.press('Escape')
  await dialog.waitFor({ state: 'detached' })
  expect(await field(page, 'Step 21, front left').inputValue()).toBe('')
  await close()
})

it('takes a reading of a run in moving air out when its field is emptied', async () => {
  const { page, chassisId, close } = await open('airflow')
  const cell = field(page, 'State 2, front left').first()
  const before = await cell.inputValue()
  await cell.press('Control+A')
  await cell.press('Delete')
  await cell.press('Enter')
  await saved(page)
  await show(page, 'loads', chassisId)
  await show(page, 'airflow', chassisId)
  expect(await cell.inputValue()).not.toBe(before)
  await page.keyboard.press('Control+Z')
  await said(page, 'Taken back: State 2, front left: emptied')
  await expect.poll(() => cell.inputValue()).toBe(before)
  await close()
})
