/**
 * `npm run screenshots`: every screen at two sizes in two themes, into `test-results/screenshots`, and the
 * README's pictures into `docs/pictures`. Pictures are for looking at; nothing is locked to their pixels.
 */
import { mkdirSync, rmSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { launchBrowser } from '../e2e/browser'
import { libraryFolderForTest, startHostFor } from '../e2e/startedHost'
import { admit, importDemo, overflowPx, SCREENS, show, type Size, type Theme } from './visit'

const ALL = fileURLToPath(new URL('../../test-results/screenshots/', import.meta.url))
const PICTURES = fileURLToPath(new URL('../../docs/pictures/', import.meta.url))
const SIZES: readonly Size[] = [{ width: 1280, height: 800 }, { width: 1920, height: 1080 }]
const THEMES: readonly Theme[] = ['light', 'dark']
const IN_README: readonly string[] = ['library', 'squat', 'curve', 'airflow', 'camera', 'load', 'decide', 'track']

const library = await libraryFolderForTest()
const host = await startHostFor(library.folder)
const browser = await launchBrowser()
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
      await context.close()
    }
  }
} finally {
  await browser.close()
  await host.stop()
  await library.remove()
}
