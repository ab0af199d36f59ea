/** What downforce costs, in the built app: the demo's answer, a coast typed at gates, coasts out of a log. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { coastDown, normals, uniforms } from '../worlds/coast'
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

describe('what downforce costs', () => {
  it('answers first, in seconds a lap, and takes coasts by gates and out of a log, and says what a log lacks', async () => {
    const page = await app.browser.newPage({ viewport: { width: 1280, height: 800 } })
    await openDemo(page, app)
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
    await page.locator('input[type=file]').setInputFiles(file)
    await page.getByText('3 stretches found; 0 rows could not be read.').waitFor()
    await page.getByRole('button', { name: 'Take over 3 runs' }).click()
    await page.waitForFunction((count) => document.querySelectorAll('[data-run]').length === count, before + 4)
    await page.getByText(/From straight.csv: \d+ speeds/).last().waitFor()

    const silent = join(folder, 'nothing.csv')
    writeFileSync(silent, 'time (s),ax (g)\n0,0.1\n1,0.2\n2,0.3\n')
    await page.locator('input[type=file]').setInputFiles(silent)
    expect(await page.getByRole('alert').textContent()).toContain('No speed column')
    await page.close()
  })
})
