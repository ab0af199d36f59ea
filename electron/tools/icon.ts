/** `tsx electron/tools/icon.ts`: draws the program's icons from the app's own mark, with the tests' browser. */
import { readFileSync, writeFileSync } from 'node:fs'
import { launchBrowser } from '../../tests/e2e/browser'
import { ICON_FILES } from './builderConfig'
import { icns, ico, ICON_SIDES_PX } from './iconFiles'
import type { IconPicture } from './iconFiles'

const LARGEST_PX = 1024

const fromRoot = (path: string): URL => new URL(`../../${path}`, import.meta.url)

const mark = readFileSync(fromRoot('renderer/look/mark.svg'), 'utf8')
const browser = await launchBrowser()
const pictures: IconPicture[] = []
try {
  for (const sidePx of ICON_SIDES_PX) {
    const page = await browser.newPage({ viewport: { width: sidePx, height: sidePx } })
    await page.setContent(`<style>body{margin:0}svg{display:block;width:100vw;height:100vh}</style>${mark}`)
    pictures.push({ sidePx, png: await page.screenshot({ omitBackground: true }) })
    await page.close()
  }
} finally {
  await browser.close()
}
const largest = pictures.find(({ sidePx }) => sidePx === LARGEST_PX)
if (largest === undefined) throw new Error(`no picture of ${LARGEST_PX} px`)
writeFileSync(fromRoot(ICON_FILES.linux), largest.png)
writeFileSync(fromRoot(ICON_FILES.mac), icns(pictures))
writeFileSync(fromRoot(ICON_FILES.win), ico(pictures))
console.log(Object.values(ICON_FILES).join('\n'))
