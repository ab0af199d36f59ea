/**
 * The demo car from squat test to decision, without leaving the keyboard: which set-up, at which
 * speed does it touch, and what did the track say. The screen and the headless command agree.
 */
import { execFileSync } from 'node:child_process'
import type { Page } from 'playwright-core'
import { expect, it } from 'vitest'
import { useApp } from './appUnderTest'
import { enter, tabTo } from './keyboard'

const app = useApp()

const heading = (page: Page, name: string): Promise<void> => page.getByRole('heading', { level: 1, name }).waitFor()
const words = (page: Page): Promise<string> => page.locator('main').innerText()
const spaced = (text: string): string => text.replace(/[\s\u00a0]+/g, ' ')

it('tells which set-up, at which speed it touches, and what the track said', async () => {
  const printed = spaced(execFileSync('npx', ['tsx', 'electron/headless/analyse.ts', 'seeds/demo.json'], { encoding: 'utf8' }))
  const page = await app.browser.newPage({ viewport: { width: 1280, height: 800 } })
  const faults: string[] = []
  page.on('pageerror', (error) => faults.push(error.message))
  await page.goto(app.host.address)
  await enter(page, /^Open the demo car$/)
  await heading(page, 'Overview')
  await enter(page, /^Squat test/)
  await heading(page, 'Squat test')
  await enter(page, /^Curves/)
  await heading(page, 'Curves')
  await page.getByText('progressive').first().waitFor()

  await enter(page, /^Downforce/)
  await heading(page, 'Downforce')
  await page.locator('tbody tr').first().waitFor()
  const loads = spaced(await words(page))
  expect(loads).toMatch(/Wing and skirts.*at least/)

  await enter(page, /^Decide/)
  await heading(page, 'Decide')
  await page.getByText('clearly different').first().waitFor()
  const rows = page.locator('tbody').first().locator('tr')
  const best = spaced(await rows.first().innerText())
  expect(best).toContain('Wing and skirts')
  const cla = /([\d.]+) cm²/.exec(best)![1]!

  expect(printed).toMatch(new RegExp(`${cla.replace('.', '\\.')} cm²`))

  // The answer comes first, in newtons; asked at another speed it says that one; the drawing goes along by keyboard.
  const answer = async () => spaced(await page.locator('section.answer').innerText())
  expect(await answer()).toMatch(/Presses hardest at 19.3 m\/s.*Wing and skirts 8\.\d+ N.*Clearly more than every other/)
  await tabTo(page, /^Speed/)
  await page.keyboard.type('21')
  await page.keyboard.press('Enter')
  await expect.poll(answer).toMatch(/Presses hardest at 21 m\/s \(the speed you asked for/)
  const slider = page.getByRole('slider', { name: 'Speed' })
  await slider.focus()
  await page.keyboard.press('End')
  await expect.poll(() => page.locator('.picture [aria-live]').innerText())
    .toMatch(/Rear axle: at least .*tray on the ground/)

  // The pair in the order asked: the worst less the best is a loss, in the whole and on each axle.
  await tabTo(page, /^This/)
  await page.keyboard.type('Tray, no')
  await tabTo(page, /^against/)
  await page.keyboard.type('Wing and')
  const pair = async () => spaced(await page.locator('section[aria-labelledby="pair"]').innerText())
  await expect.poll(pair).toMatch(/Tray, no skirts less Wing and skirts\..*whole car \u2212[\d.]+ cm².*Front axle \u2212.*Rear axle \u2212/)
  expect(await pair()).toContain('Probability that Tray, no skirts has more downforce: < 1 %')

  await tabTo(page, /^Set-up/)
  await page.keyboard.type('Wing and')
  await page.waitForFunction(() => /Touches the ground at[\s\S]*m\/s/.test(document.querySelector('main')?.innerText ?? ''))
  const touches = printed.slice(printed.indexOf('Touches the ground at'))
  const printedFirst = / Wing and skirts (?:.*? m\/s \[.*?\](?: \(beyond your readings: a rough estimate\))? ){2}([\d.]+) m\/s/.exec(touches)?.[1]
  expect(printedFirst).toMatch(/^\d+\.\d+$/)
  const shownFirst = async () => /end comes first ([\d.]+) m\/s/.exec(spaced(await words(page)))?.[1]
  await expect.poll(shownFirst, { timeout: 20_000 }).toBe(printedFirst)

  await enter(page, /^Track check/)
  await heading(page, 'Track check')
  await page.getByText('Bench and track agree.').waitFor()
  expect(printed).toMatch(/Tray, no skirts Tray with skirts [\d.]+ %.*They agree within their uncertainties/)

  // Asked once, and still there after a look elsewhere.
  await enter(page, /^Decide/)
  await heading(page, 'Decide')
  await expect.poll(pair).toContain('Tray, no skirts less Wing and skirts.')
  await expect.poll(shownFirst).toBe(printedFirst)
  // What was asked is told on paper too.
  await enter(page, /^Report/)
  await heading(page, 'Report')
  await page.getByText('Presses hardest at 21 m/s').waitFor()
  expect(faults).toEqual([])
  await page.close()
})
