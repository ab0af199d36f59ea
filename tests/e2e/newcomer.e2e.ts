/**
 * Somebody who has never seen the program, with a car of their own and its readings in a spreadsheet: from the empty
 * library to the comparison of two set-ups. Every click and every key that a person would press is counted; a paste is
 * two keys. The truth that the readings were drawn from lies in what the program states.
 */
import type { Locator, Page } from 'playwright-core'
import { expect, it } from 'vitest'
import { analyse, DEFAULT_OPTIONS } from '@core/analysis'
import { exchange } from '@core/schema'
import type { Statement } from '@core/uncertainty'
import { newcomersSheets } from '../worlds/newcomer'
import { useApp } from './appUnderTest'

const MOST_CLICKS = 25
const MOST_KEYS = 300
const app = useApp()

/** Hands that count what they do. */
class Hands {
  clicks = 0
  keys = 0

  constructor(private readonly page: Page) {}

  async click(what: Locator): Promise<void> {
    this.clicks += 1
    await what.click()
  }

  async type(text: string): Promise<void> {
    this.keys += text.length
    await this.page.keyboard.type(text)
  }

  async press(key: string): Promise<void> {
    this.keys += key.split('+').length
    await this.page.keyboard.press(key)
  }

  /** What was copied in the spreadsheet, by Ctrl V. */
  async paste(text: string): Promise<void> {
    await this.page.evaluate((copied) => navigator.clipboard.writeText(copied), text)
    await this.press('Control+V')
  }
}

const interval = (statement: Statement): readonly [number, number] => {
  if (statement.kind !== 'interval') throw new Error(`stated as ${statement.kind}`)
  return [statement.interval.low, statement.interval.high]
}

it('brings a newcomer to the comparison of two set-ups by few clicks and keys, and holds the truth', async () => {
  const { bags, squat, heights, speeds, wheelbaseMm, truth } = newcomersSheets(20_310_704)
  const page = await app.browser.newPage({ viewport: { width: 1366, height: 768 } })
  const faults: string[] = []
  page.on('pageerror', (error) => faults.push(error.message))
  page.setDefaultTimeout(10_000)
  await page.goto(app.host.address)
  const hands = new Hands(page)
  const title = (name: string) => page.getByRole('heading', { level: 1, name, exact: true }).waitFor()
  const step = (name: string) => page.getByRole('link', { name: new RegExp(`^${name}`) }).first()
  const taken = (rows: number) => page.getByText(`Taken in: ${rows} row`).waitFor()

  await hands.click(page.getByRole('textbox', { name: 'Name of a new car' }))
  await hands.type('Marrow')
  await hands.press('Enter')
  await title('Car')
  // A click takes hold of what stands in the field, so that it need not be cleared.
  await hands.click(page.getByRole('textbox', { name: /^Wheelbase/ }).first())
  await hands.type(String(wheelbaseMm))
  await hands.press('Enter')

  await hands.click(step('Loads'))
  await title('Loads')
  await hands.paste(bags)
  await taken(4)

  await hands.click(step('Squat test'))
  await title('Squat test')
  await hands.paste(squat)
  await taken(25)

  await hands.click(step('Airflow'))
  await title('Airflow')
  await hands.paste(heights)
  await hands.click(page.getByRole('button', { name: 'Take it in' }))
  await taken(30)
  await hands.paste(speeds)
  await taken(36)

  await hands.click(step('Decide'))
  await title('Decide')
  await page.locator('section[aria-labelledby="pair"] p', { hasText: 'Long diffuser' }).first().waitFor()
  console.log(`newcomer: ${hands.clicks} clicks, ${hands.keys} keys`)
  expect(hands.clicks).toBeLessThanOrEqual(MOST_CLICKS)
  expect(hands.keys).toBeLessThan(MOST_KEYS)
  expect(faults).toEqual([])

  const chassisId = /car\/([a-z0-9-]+)\//.exec(page.url())![1]!
  await page.waitForFunction(() => document.querySelector('.saved')?.getAttribute('data-state') === 'saved')
  const text = await page.evaluate(async (id) => {
    const answer = await fetch('/service/exchange.export', {
      method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ chassisId: id }),
    })
    return ((await answer.json()) as { value: { text: string } }).value.text
  }, chassisId)
  const found = analyse(exchange.parse(JSON.parse(text)), DEFAULT_OPTIONS)
  for (const { name, aero } of found.configurations.filter((each) => each.name in truth.claM2)) {
    const { front, rear } = truth.claM2[name as keyof typeof truth.claM2]
    for (const [end, value] of [['front', front], ['rear', rear]] as const) {
      const [low, high] = interval(aero.axles[end].claM2.statement)
      expect(value, `${name}, ${end}`).toBeGreaterThan(low)
      expect(value, `${name}, ${end}`).toBeLessThan(high)
    }
  }
  const setUps = new Map(found.configurations.map(({ configurationId, name }) => [configurationId, name]))
  const [pair] = found.matrix!.cells
  const sign = setUps.get(pair!.comparison.configurationA) === 'Long diffuser' ? 1 : -1
  const [low, high] = interval(pair!.comparison.total.differenceM2.statement)
  expect(sign * truth.moreM2).toBeGreaterThan(low)
  expect(sign * truth.moreM2).toBeLessThan(high)
  // And the whole interval lies on one side: the newcomer is told which one presses harder.
  expect(Math.sign(low)).toBe(Math.sign(high))
  await page.close()
})
