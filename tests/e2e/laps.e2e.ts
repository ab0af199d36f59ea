/**
 * Laps of a circle typed one after the other, each taken with Enter, as fast as keys can come; and a face of the
 * sensor at rest, pasted and kept.
 */
import { expect, it } from 'vitest'
import { openDemo, useApp } from './appUnderTest'
import { enter } from './keyboard'

const app = useApp()
const LAPS = ['6.12', '6.08', '6.1', '6.15', '6.09', '6.11', '6.13', '6.07']

it('keeps eight laps in the order typed, and a face of the sensor that was pasted', async () => {
  const page = await app.browser.newPage({ viewport: { width: 1280, height: 800 } })
  const faults: string[] = []
  page.on('pageerror', (error) => faults.push(error.message))
  await openDemo(page, app)
  await enter(page, /^Track check/)
  await enter(page, /^\+ Circle run$/)
  const name = await page.locator('fieldset[data-run]').last().locator('input').first().inputValue()
  const fields = page.getByRole('group', { name: `Laps of ${name}` }).getByRole('textbox')
  await fields.first().focus()
  expect(await fields.count()).toBe(1)

  for (const lap of LAPS) {
    for (const key of lap) await page.keyboard.press(key)
    await page.keyboard.press('Enter')
  }
  const kept = await fields.evaluateAll((all) => all.map((each) => (each as HTMLInputElement).value))
  expect(kept).toEqual([...LAPS, ''])
  expect(await page.evaluate(() => (document.activeElement as HTMLInputElement).labels?.[0]?.textContent)).toMatch(/lap 9/)

  // One lap typed again leaves the others and their order alone.
  await fields.nth(2).focus()
  await page.keyboard.press('Control+A')
  await page.keyboard.type('6.2')
  await page.keyboard.press('Enter')
  const again = await fields.evaluateAll((all) => all.map((each) => (each as HTMLInputElement).value))
  expect(again).toEqual([...LAPS.slice(0, 2), '6.2', ...LAPS.slice(3), ''])

  // The decimal mark slips in one lap: the lap is marked, it is said, and nothing is told to agree.
  await fields.nth(4).focus()
  await page.keyboard.press('Control+A')
  await page.keyboard.type('61.1')
  await page.keyboard.press('Enter')
  await page.getByText(/lap 5: 61(\.\d+)?\ss is far off the other laps/).first().waitFor()
  const saidIn = await fields.nth(4).getAttribute('aria-describedby')
  expect(await page.locator(`#${saidIn}`).innerText()).toContain('lap 5')
  expect(await page.getByText('Bench and track agree.').count()).toBe(0)

  // A face of the sensor out of pasted rows: what gravity tells is said, and kept with its own u.
  const sensor = page.locator('section[aria-labelledby="sensor-title"]')
  await sensor.getByRole('button', { name: '+ Sensor' }).click()
  const rows = Array.from({ length: 60 }, (_, i) =>
    [i / 100, 0.1 + 0.01 * Math.sin(7 * i), -0.2 + 0.01 * Math.sin(3 * i), 9.9 + 0.01 * Math.cos(5 * i)].join(','))
  await sensor.getByLabel('or paste its lines here').fill(rows.join('\n'))
  await sensor.getByRole('button', { name: 'Read what was pasted' }).click()
  await sensor.getByText(/By gravity it lay with z up/).waitFor()
  await sensor.getByRole('button', { name: 'Keep this face' }).click()
  const face = sensor.getByRole('row', { name: /z up/ })
  expect(await face.innerText()).toMatch(/mean of 60, u [\d.]+/)
  expect(await sensor.getByText(/Still missing:/).innerText()).not.toContain('z up')
  expect(faults).toEqual([])
  await page.close()
})
