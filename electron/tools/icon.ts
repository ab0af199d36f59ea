/** `tsx electron/tools/icon.ts`: draws the program's icon from the app's own mark, with the tests' browser. */
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { launchBrowser } from '../../tests/e2e/browser'
import { ICON_FILE } from './builderConfig'

const SIZE_PX = 1024

const mark = readFileSync(new URL('../../renderer/look/mark.svg', import.meta.url), 'utf8')
const browser = await launchBrowser()
try {
  const page = await browser.newPage({ viewport: { width: SIZE_PX, height: SIZE_PX } })
  await page.setContent(`<style>body{margin:0}svg{display:block;width:100vw;height:100vh}</style>${mark}`)
  await page.screenshot({ path: fileURLToPath(new URL(`../../${ICON_FILE}`, import.meta.url)), omitBackground: true })
} finally {
  await browser.close()
}
console.log(ICON_FILE)
