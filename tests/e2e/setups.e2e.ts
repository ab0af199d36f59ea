/** Set-ups and springs by keyboard: a new one has the focus, a name is there once, one in use stays and says why. */
import { expect, it } from 'vitest'
import { openDemo, useApp } from './appUnderTest'
import { enter } from './keyboard'

const app = useApp()

it('adds, names, takes out and brings back', async () => {
  const page = await app.browser.newPage({ viewport: { width: 1280, height: 800 } })
  const faults: string[] = []
  page.on('pageerror', (error) => faults.push(error.message))
  await openDemo(page, app)
  await enter(page, /^Car, /)
  const list = page.locator('section[aria-labelledby="configurations"]')
  const names = (): Promise<string[]> => list.getByRole('textbox', { name: 'Set-up' })
    .evaluateAll((all) => all.map((each) => (each as HTMLInputElement).value))
  await list.getByRole('textbox', { name: 'Set-up' }).first().waitFor()
  const before = await names()
  const focused = (): Promise<string> => page.evaluate(() => (document.activeElement as HTMLInputElement).value)

  await enter(page, /^\+ Set-up$/)
  expect(await focused()).toBe(`Set-up ${before.length + 1}`)
  await page.keyboard.type(before[0]!.toUpperCase())
  await page.keyboard.press('Enter')
  expect(await page.getByRole('alert').first().innerText()).toContain('already')
  expect(await focused()).toBe(before[0]!.toUpperCase())
  await page.keyboard.press('Control+A')
  await page.keyboard.type('Splitter')
  await page.keyboard.press('Enter')
  expect(await names()).toEqual([...before, 'Splitter'])

  await enter(page, new RegExp(`^Take out: ${before[0]!}$`))
  expect(await list.getByRole('status').innerText()).toContain(`“${before[0]!}” stays`)
  await enter(page, /^Take out: Splitter$/)
  expect(await names()).toEqual(before)
  await page.keyboard.press('Control+Z')
  await expect.poll(names).toEqual([...before, 'Splitter'])

  const springs = page.locator('section[aria-labelledby="springs"] fieldset')
  const count = await springs.count()
  await enter(page, /^\+ Spring$/)
  const spring = await focused()
  expect(await springs.count()).toBe(count + 1)
  expect(await springs.last().getByRole('textbox').first().inputValue()).toBe(spring)
  await springs.last().getByRole('checkbox').check()
  await enter(page, new RegExp(`^Take out: ${spring}$`))
  expect(await springs.count()).toBe(count + 1)
  await springs.last().getByRole('checkbox').uncheck()
  await enter(page, new RegExp(`^Take out: ${spring}$`))
  expect(await springs.count()).toBe(count)
  expect(faults).toEqual([])
  await page.close()
})
