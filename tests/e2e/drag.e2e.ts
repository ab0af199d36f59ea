/** What downforce costs, in the built app: the demo's answer, a coast typed at gates, coasts out of a log. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { driveRound } from '../worlds/circuit'
import { coastDown, momentAt, normals, uniforms } from '../worlds/coast'
import { openDemo, useApp } from './appUnderTest'

const app = useApp()
const folder = mkdtempSync(join(tmpdir(), 'squatbench-coast-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

/** A logger's file: standing, speeding up, coasting, braking; three times over. */
function speedLog(): string {
  const random = normals(uniforms(9))
  const world = {
    massKg: 1.48, turningKg: 0.08, rollingCoefficient: 0.05, dragAreaM2: 0.0118, liftAreaM2: 0, airKgM3: 1.2, windMs: 0,
    gustMs: 0, rise: 0,
  }
  const speeds = [0, 1, 2].flatMap(() => [
    ...Array.from({ length: 20 }, () => 0), ...Array.from({ length: 28 }, (_, i) => 0.5 * (i + 1)),
    ...coastDown(world, 1, 0, 14, 7).filter((_, i) => i % 10 === 0).map(({ v }) => v),
    ...Array.from({ length: 10 }, (_, i) => Math.max(0, 7 - 0.8 * (i + 1))),
  ])
  return ['time (s),speed (m/s)', ...speeds.map((v, i) =>
    `${(i / 10).toFixed(1)},${Math.max(0, v + (v > 0 ? 0.05 * random() : 0)).toFixed(3)}`)].join('\n')
}

/** Laps of an oval, standing at first: time, speed, lateral acceleration. */
function lapLog(): string {
  const pieces = [30, 6 * Math.PI, 30, 6 * Math.PI].map((lengthM, i) => ({ lengthM, bend: i % 2 === 0 ? 0 : 1 / 6 }))
  const shown = driveRound(pieces, 3, 20, { zero: 0.1, noise: 0.2, speedNoise: 0.05 }, normals(uniforms(4)))
  return ['time (s),speed (m/s),lateral (g)', ...shown.t.map((t, i) =>
    [t, shown.v[i]!, shown.lateral[i]! / 9.80665].map((each) => each.toFixed(4)).join(','))].join('\n')
}

const path = coastDown({
  massKg: 1.48, turningKg: 0.08, rollingCoefficient: 0.05, dragAreaM2: 0.0118, liftAreaM2: 0, airKgM3: 1.2, windMs: 0,
  gustMs: 0, rise: 0,
}, 1, 0, 14, 5)
const pulses = (): string[] =>
  Array.from({ length: 200 }, (_, k) => momentAt(path, 0.2 * k)!.toFixed(4))
/** At the demo's own gates, which a new run takes over. */
const gateTimes = (): string[] => [0, 12, 26, 42, 60].map((x) => (1 + momentAt(path, x)!).toFixed(3))

let page: Page
beforeAll(async () => {
  page = await app.browser.newPage({ viewport: { width: 1280, height: 800 } })
  await openDemo(page, app)
})

describe('what downforce costs', () => {
  it('answers first, in seconds a lap, and takes coasts by gates and out of a log, and says what a log lacks', async () => {
    await page.getByRole('link', { name: /Drag and lap/ }).first().click()
    const answer = page.locator('.answer')
    await answer.waitFor()
    expect(await answer.textContent()).toMatch(/a lap quicker on Yard course than .* \(.* to .*\)/)
    await page.getByText('What a lap assumes').click()
    expect(await page.getByText('no load transfer').isVisible()).toBe(true)

    const runs = page.locator('[data-run]')
    const before = await runs.count()
    await page.getByRole('button', { name: '+ Coast timed at gates' }).click()
    await page.waitForFunction((count) => document.querySelectorAll('[data-run]').length === count, before + 1)
    await page.getByText('Takes no part yet').waitFor()
    expect(await page.getByText('Takes no part yet').count()).toBe(1)

    const file = join(folder, 'straight.csv')
    writeFileSync(file, speedLog())
    await page.locator('input[type=file]').first().setInputFiles(file)
    await page.getByText('3 stretches found; 0 rows could not be read.').waitFor()
    await page.getByRole('button', { name: 'Take over 3 runs' }).click()
    await page.waitForFunction((count) => document.querySelectorAll('[data-run]').length === count, before + 4)
    await page.getByText(/From straight.csv: \d+ speeds/).last().waitFor()

    const silent = join(folder, 'nothing.csv')
    writeFileSync(silent, 'time (s),ax (g)\n0,0.1\n1,0.2\n2,0.3\n')
    await page.locator('input[type=file]').first().setInputFiles(silent)
    expect(await page.getByRole('alert').textContent()).toContain('No speed column')

    // A course out of a log of laps, corrected piece by piece afterwards.
    const laps = join(folder, 'oval.csv')
    writeFileSync(laps, lapLog())
    await page.getByText('Take a course from a log').click()
    await page.getByLabel('Log of laps').setInputFiles(laps)
    await page.getByText('its corners turn by 3').waitFor()
    await page.getByRole('button', { name: 'Take over this course' }).click()
    await page.getByText(/^From oval.csv, /).waitFor()
    expect(await page.locator('.pieces li').count()).toBe(4)
  })

  it('takes coasts typed and pasted by hand to a result', async () => {
    await page.getByRole('link', { name: /Drag and lap/ }).first().click()
    const runs = page.locator('[data-run]')
    await runs.first().waitFor()
    const cda = page.locator('section', { has: page.getByRole('heading', { name: 'What downforce costs' }) })
    await cda.getByText('CdA').first().waitFor()
    const before = await cda.textContent()

    // Pulses of a wheel, pasted: a slip is named and nothing lost, then they are taken.
    const count = await runs.count()
    await page.getByRole('button', { name: '+ Coast by wheel pulses' }).click()
    await page.waitForFunction((now) => document.querySelectorAll('[data-run]').length === now, count + 1)
    const box = page.getByLabel('Moments of the pulses, s').last()
    const moments = pulses()
    await box.fill([...moments.slice(0, 3), 'slip', ...moments.slice(3)].join('\n'))
    await box.blur()
    await page.getByText('Number 4, “slip”, is no time').waitFor()
    await box.fill(moments.join('\n'))
    await box.blur()
    await page.getByText(`${moments.length} pulses typed or pasted`).waitFor()
    await page.locator('[data-run]').last().getByText('Rolled from').waitFor()

    // A coast typed at its gates changes the drag that is told.
    await page.getByRole('button', { name: '+ Coast timed at gates' }).click()
    await page.waitForFunction((now) => document.querySelectorAll('[data-run]').length === now, count + 2)
    const times = page.locator('[data-run]').last().locator('[data-times] input')
    for (const [i, time] of gateTimes().entries()) {
      await times.nth(i).fill(time)
      await times.nth(i).press('Enter')
    }
    await page.locator('[data-run]').last().getByText('Rolled from').waitFor()
    expect(await cda.textContent()).not.toBe(before)
  })

  it('puts set-ups in order by what is chosen on Decide, one sentence first', async () => {
    await page.getByRole('link', { name: /Decide/ }).first().click()
    const order = page.getByRole('combobox', { name: 'Put in order by' })
    await order.selectOption({ label: 'lap of a course' })
    await page.getByText(/: \d.* a lap quicker on Yard course than .* \(.* to .*\)/).waitFor()
    await order.selectOption({ label: 'load per drag' })
    await page.getByText(/newtons of load for each newton of drag, (clearly more|but too close)/).waitFor()
    await order.selectOption({ label: 'level in a corner' })
    await page.getByText(/(holds most|seems to hold most): /).waitFor()
  })

  it('tells drag by the pull of a line that is entered with a run', async () => {
    await page.getByRole('link', { name: /Airflow/ }).first().click()
    await page.getByRole('combobox', { name: 'Kept from rolling back by' }).first().selectOption({ label: 'a line' })
    const pull = page.getByRole('group', { name: 'Pull read' }).first().getByRole('textbox').first()
    await pull.fill('2.5')
    await pull.press('Enter')
    await page.getByRole('link', { name: /Drag and lap/ }).first().click()
    await page.getByRole('heading', { name: 'Drag on the bench' }).waitFor()
    await page.getByText('1 pull', { exact: true }).waitFor()
  })
})
