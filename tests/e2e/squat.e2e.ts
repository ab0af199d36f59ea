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

const inView = (page: Page, text: string): Promise<boolean> => page.getByText(text).first().evaluate((element) => {
  const { top, bottom } = element.getBoundingClientRect()
  return top >= 0 && bottom <= innerHeight
})
/** What stands under a field for screen readers. */
const describing = (page: Page, name: string): Promise<string> => field(page, name).evaluate((input) =>
  document.getElementById(input.getAttribute('aria-describedby') ?? '')?.textContent?.trim() ?? '')

it('asks about a slipped point where it was typed, and puts it right by one press', async () => {
  const { page, faults, close } = await open()
  const cell = field(page, 'Step 5, front left')
  const before = await cell.inputValue()
  const slip = String(Math.round(Number(before) * 1000) / 100)
  await cell.fill(slip)
  await cell.press('Enter')
  const note = page.getByRole('group', { name: 'Step 5, front left' })
  await note.getByRole('button', { name: /^Use / }).waitFor()
  expect(await inView(page, `Step 5, front left: ${slip} mm can’t be`)).toBe(true)
  expect(await describing(page, 'Step 5, front left')).toContain('can’t be')
  // The picture says which way the corner went, with all digits inside the drawing.
  const picture = page.locator('aside figure svg:has(.station)')
  expect(await picture.locator('.hub').first().innerHTML()).toMatch(/>up</)
  const cut = await picture.evaluate((svg) => {
    const frame = svg.getBoundingClientRect()
    return [...svg.querySelectorAll('text')].some((text) => {
      const { left, right } = text.getBoundingClientRect()
      return left < frame.left || right > frame.right
    })
  })
  expect(cut).toBe(false)

  await note.getByRole('button', { name: /^Use / }).click()
  await expect.poll(async () => Number(await cell.inputValue())).toBe(Number(before))
  await note.waitFor({ state: 'detached' })
  expect(await cell.getAttribute('aria-describedby')).toBeNull()
  expect(await field(page, 'Step 5, front right').evaluate((input) => input === document.activeElement)).toBe(true)
  await page.keyboard.press('Control+Z')
  await expect.poll(async () => Number(await cell.inputValue())).toBe(Number(slip))
  expect(faults).toEqual([])
  await close()
})

it('lets an odd reading be kept or put aside, and taken back', async () => {
  const { page, close } = await open()
  const cell = field(page, 'Step 5, front left')
  const note = page.getByRole('group', { name: 'Step 5, front left' })
  await cell.fill('119.8')
  await cell.press('Enter')
  await note.getByRole('button', { name: 'Keep it: it is right' }).click()
  await note.waitFor({ state: 'detached' })
  await saved(page)
  await page.waitForTimeout(1500)
  expect(await page.getByText('119.8 mm can’t be').count()).toBe(0)
  await page.keyboard.press('Control+Z')
  await said(page, 'Taken back: Step 5, front left: kept')
  await note.getByRole('button', { name: 'Put it aside' }).click()
  await expect.poll(() => cell.inputValue()).toBe('')
  await page.getByRole('button', { name: 'Take back: Step 5, front left' }).click()
  await expect.poll(async () => Number(await cell.inputValue())).toBe(119.8)
  await close()
})

it('asks in bench mode at once, aloud where that is wished', async () => {
  const { page, chassisId, close } = await open('preferences')
  await page.evaluate(() => {
    SpeechSynthesis.prototype.speak = ({ text }) => { document.body.dataset['spoken'] = `${document.body.dataset['spoken'] ?? ''}|${text}` }
  })
  await page.getByLabel(/cue/i).selectOption('speech')
  await show(page, 'squat', chassisId)
  await page.getByRole('button', { name: 'Bench mode' }).click()
  const dialog = page.getByRole('dialog', { name: 'Bench mode' })
  const now = dialog.locator('.now input[type="text"]')
  await expect.poll(() => now.inputValue()).not.toBe('')
  const before = Number(await now.inputValue())
  await now.fill(String(before * 10))
  await now.press('PageDown')
  await dialog.getByText(/Step 21, front left: .* can’t be/).waitFor()
  await expect.poll(() => page.evaluate(() => document.body.dataset['spoken'])).toMatch(/Step 21, front left: .* can’t be/)
  await dialog.getByText('look again').waitFor()
  await dialog.getByRole('button', { name: /^Use / }).click()
  await expect.poll(async () => Number(await now.inputValue())).toBe(before)
  expect(await now.evaluate((input) => input === document.activeElement)).toBe(true)
  await close()
})

it('goes from the wished force to its width, whose field always stands', async () => {
  const { page, close } = await open()
  await page.getByRole('button', { name: 'Another squat test' }).click()
  await page.locator('details.setup summary').click()
  const force = page.getByLabel(/^Good enough: at a force of/)
  const width = page.getByLabel(/^… within ±/)
  await width.waitFor()
  for (const [key, typed] of [['Tab', '0.25'], ['Enter', '0.35']] as const) {
    await force.fill(key === 'Tab' ? '5' : '6')
    await force.press(key)
    await page.keyboard.type(typed)
    await page.keyboard.press('Tab')
    await expect.poll(() => width.inputValue()).toBe(typed)
  }
  expect(await page.getByLabel(/^Assumed friction, front/).inputValue()).toBe('')
  expect(await page.locator('details.setup summary').innerText()).toMatch(/±0\.35.*at 6/)
  await close()
})

it('adds a step by digits and Ctrl Enter, from the loads and from a field', async () => {
  const { page, faults, close } = await open()
  await field(page, 'Step 21, rear right').press('Enter')
  const loads = page.getByRole('group', { name: 'Next step: what lies on the car' })
  await expect.poll(() => loads.evaluate((group) => group.contains(document.activeElement))).toBe(true)
  await page.keyboard.type('130')
  const pressed = await loads.locator('[aria-pressed=true]').allInnerTexts()
  expect(pressed.map((text) => text.replace(/^\d\s*/, '').slice(0, 5))).toEqual(['Bag A', 'Bag C', 'Bag J'])
  await page.keyboard.type('3')
  await page.getByRole('button', { name: /^Add step: \d+\sg, loading$/ }).waitFor()
  await page.keyboard.press('Control+Enter')
  const cell = field(page, 'Step 22, front left')
  await expect.poll(() => cell.evaluate((input) => input === document.activeElement)).toBe(true)
  await page.keyboard.type('4.7')
  await page.keyboard.press('Control+Enter')
  await field(page, 'Step 23, front left').waitFor()
  expect(await cell.inputValue()).toBe('4.7')
  // A wrong entry keeps the builder at it.
  await field(page, 'Step 23, front left').fill('4,7,1x')
  await page.keyboard.press('Control+Enter')
  await page.getByRole('alert').first().waitFor()
  expect(await field(page, 'Step 24, front left').count()).toBe(0)
  await page.keyboard.press('Escape')
  await page.keyboard.press('Control+Z')
  await said(page, 'Taken back: Step 23, loading')
  expect(faults).toEqual([])
  await close()
})

it('shows the loads of the next step as the page of the loads does', async () => {
  const { page, chassisId, close } = await open()
  const chip = await page.getByRole('button', { name: /^Bag A/ }).locator('.mass').innerText()
  await show(page, 'loads', chassisId)
  expect(await page.locator('tbody tr').first().locator('.result strong').innerText()).toBe(chip)
  await close()
})

it('says the gravest remark beside the heading of the table, in view', async () => {
  const { page, close } = await open()
  await page.setViewportSize({ width: 1280, height: 800 })
  for (const step of [1, 11, 21]) {
    await field(page, `Step ${step}, rear right`).fill('')
    await field(page, `Step ${step}, rear right`).press('Tab')
  }
  await page.locator('.first').getByText('No zero was read at rear right').waitFor()
  await page.evaluate(() => scrollTo(0, 0))
  expect(await inView(page, 'No zero was read at rear right')).toBe(true)
  await close()
})
