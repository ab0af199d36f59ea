/**
 * A newcomer's way from two logs to whether bench and track agree: the demo's bench without its laps, two logs of
 * a phone (drives of `tests/worlds`, at the levels that the demo's truth has), guesses shown as guesses, the
 * circle's radius, the set-up of each, the verdict; and a third log that does not agree.
 */
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { expect, it } from 'vitest'
import type { DemoTruth } from '../../seeds/demo'
import { CALM, drive } from '../worlds/logs/drive'
import { useApp } from './appUnderTest'
import { enter } from './keyboard'
import { libraryFolderForTest } from './startedHost'

const app = useApp()
const RADIUS_M = 9
const { circleMs2 } = JSON.parse(readFileSync('seeds/demo-truth.json', 'utf8')) as DemoTruth

/** A phone's plain names: no unit told, the axes in an order of its own. */
function phoneLog(levelMs2: number, seed: number): string {
  const { timeS, x, y, z } = drive({ ...CALM, rateHz: 50, radiusM: RADIUS_M, levelMs2, seed, turnedDeg: [4, -3, 0] })
  const rows = Array.from(timeS, (t, i) => [t, z[i]!, y[i]!, x[i]!].map((each) => each.toFixed(4)).join(','))
  return ['seconds_elapsed,z,y,x', ...rows, ''].join('\n')
}

const main = async (page: Page): Promise<string> =>
  (await page.locator('main').innerText()).replace(/[\s\u00a0\u202f]+/g, ' ')

it('leads from two logs to a verdict, and to another one where a log does not agree', async () => {
  const { folder, remove } = await libraryFolderForTest()
  const page = await app.browser.newPage({ viewport: { width: 1280, height: 800 } })
  const faults: string[] = []
  page.on('pageerror', (error) => faults.push(error.message))
  const write = (name: string, text: string): string => {
    writeFileSync(join(folder, name), text)
    return join(folder, name)
  }
  const demo = JSON.parse(readFileSync('seeds/demo.json', 'utf8')) as { sessions: { kind: string }[] }
  const bench = write('bench.json', JSON.stringify({
    ...demo, sessions: demo.sessions.filter(({ kind }) => kind !== 'track'),
  }))
  await page.goto(app.host.address)
  await page.locator('input[type="file"]').setInputFiles(bench)
  await page.getByRole('heading', { level: 1, name: 'Car' }).waitFor()
  await enter(page, /^Track check/)
  await page.getByRole('heading', { name: 'Does the track agree?' }).waitFor()

  const section = page.locator('section[aria-labelledby="log-title"]')
  async function keep(file: string, setUp: string, guesses: boolean): Promise<void> {
    await section.locator('input[type="file"]').setInputFiles(file)
    const guess = section.getByText('The unit of the accelerations, by the size of the figures.')
    await guess.waitFor()
    if (guesses) {
      expect(await section.getByText('Guessed, no name tells it:').count()).toBe(1)
      await section.getByRole('button', { name: 'That is right' }).first().click()
      await guess.waitFor({ state: 'detached' })
    }
    await section.getByRole('button', { name: 'Read it', exact: true }).click()
    await section.locator('[data-log="level"]').waitFor()
    const radius = section.getByRole('textbox', { name: /^Radius of the path/ }).first()
    await radius.fill(String(RADIUS_M))
    await radius.press('Enter')
    await section.getByText(/from \d+ whole laps/).waitFor()
    await section.getByLabel('Set-up').selectOption({ label: setUp })
    await section.getByRole('button', { name: new RegExp(`^Keep \\d+ levels of ${setUp}$`) }).click()
    await section.getByText(/^Kept as run/).waitFor()
  }
  await keep(write('before.csv', phoneLog(circleMs2['tray-plain']!, 71)), 'Tray, no skirts', true)
  await page.getByText('One set-up only: drive another to compare.').waitFor()
  await keep(write('after.csv', phoneLog(circleMs2['tray-skirts']!, 72)), 'Tray with skirts', false)
  await page.locator('[data-verdict="agrees"]').waitFor()
  const said = await main(page)
  expect(said).toContain('Bench and track agree.')
  expect(said).toMatch(/Load needed [\d.]+ N 95 % interval/)
  // Each driven once: what the order may have done is said, not hidden.
  expect(said).toContain('a change of tyres or surface looks the same as a gain')

  await enter(page, /^Put aside: after$/)
  await page.locator('[data-verdict]').waitFor({ state: 'detached' })
  await keep(write('odd.csv', phoneLog(1.1 * circleMs2['tray-skirts']!, 73)), 'Tray with skirts', false)
  await page.locator('[data-verdict="trackHigher"]').waitFor()
  expect(await main(page)).toContain('The track shows more than the bench expected.')
  expect(faults).toEqual([])
  await page.close()
  await remove()
})
