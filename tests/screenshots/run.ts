/**
 * `npm run screenshots`: every screen at two sizes in two themes, into `test-results/screenshots`, and the
 * README's pictures into `docs/pictures`. Pictures are for looking at; nothing is locked to their pixels.
 */
import { mkdirSync, rmSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import type { Page } from 'playwright-core'
import { launchBrowser } from '../e2e/browser'
import { libraryFolderForTest, startHostFor } from '../e2e/startedHost'
import { beginStill, cameraFiles, endStill, followFilm, type CameraFiles } from './cameraRun'
import { admit, importDemo, overflowPx, SCREENS, show, type Size, type Theme } from './visit'

const ALL = fileURLToPath(new URL('../../test-results/screenshots/', import.meta.url))
const PICTURES = fileURLToPath(new URL('../../docs/pictures/', import.meta.url))
const SIZES: readonly Size[] = [{ width: 1280, height: 800 }, { width: 1920, height: 1080 }]
const THEMES: readonly Theme[] = ['light', 'dark']
const IN_README: readonly string[] = ['library', 'squat', 'curve', 'airflow', 'load', 'decide', 'track', 'drag']

/** Windows tall enough to hold a camera run without scrolling. */
const CAMERA_TALL = { still: 1370, film: 2120 } as const

const library = await libraryFolderForTest()
const host = await startHostFor(library.folder)
const browser = await launchBrowser()
const files = await cameraFiles(browser)
try {
  rmSync(ALL, { recursive: true, force: true })
  mkdirSync(ALL, { recursive: true })
  mkdirSync(PICTURES, { recursive: true })
  const storageState = await admit(browser, host.address)
  let chassisId: string | null = null
  for (const theme of THEMES) {
    for (const viewport of SIZES) {
      const context = await browser.newContext({ viewport, colorScheme: theme, storageState, reducedMotion: 'reduce' })
      const page = await context.newPage()
      await page.goto(host.origin)
      chassisId ??= await importDemo(page)
      await page.reload()
      for (const screen of SCREENS) {
        await show(page, screen, chassisId)
        const name = `${screen}-${viewport.width}x${viewport.height}-${theme}.png`
        await page.screenshot({ path: `${ALL}${name}` })
        if (theme === 'light' && viewport === SIZES[0] && IN_README.includes(screen)) {
          await page.screenshot({ path: `${PICTURES}${screen}.png` })
        }
        const over = await overflowPx(page)
        console.log(`${name}${over > 0 ? `  wider than its window by ${over} px` : ''}`)
      }
      await cameraRun(page, chassisId, viewport, theme, files)
      await context.close()
    }
  }
} finally {
  files.remove()
  await browser.close()
  await host.stop()
  await library.remove()
}

/** A still half marked and marked, and a followed clip: as they stand in the window, and whole for the README. */
async function cameraRun(
  page: Page, chassisId: string, viewport: Size, theme: Theme, files: CameraFiles,
): Promise<void> {
  const forReadme = theme === 'light' && viewport === SIZES[0]
  const shoot = async (step: string, tall: number): Promise<void> => {
    const name = `camera-${step}-${viewport.width}x${viewport.height}-${theme}.png`
    await page.screenshot({ path: `${ALL}${name}` })
    console.log(name)
    if (!forReadme) return
    await page.setViewportSize({ width: viewport.width, height: tall })
    await page.evaluate(() => window.scrollTo(0, 0))
    await page.waitForTimeout(300)
    await page.screenshot({ path: `${PICTURES}camera-${step}.png` })
    await page.setViewportSize(viewport)
  }
  await show(page, 'camera', chassisId)
  await page.getByLabel('Pictures kept in').selectOption({ label: 'Airflow: Blower, four set-ups' })
  await beginStill(page, files)
  await shoot('marking', viewport.height)
  await endStill(page)
  await shoot('still', CAMERA_TALL.still)
  await followFilm(page, files)
  await shoot('film', CAMERA_TALL.film)
  // The next size and theme begin with no picture again.
  while (await page.locator('.pictures button.quiet').count() > 0) await page.locator('.pictures button.quiet').first().click()
}
