/** The report on paper, as Chromium prints it: from the window, and from the document that is taken away. */
import { readFile } from 'node:fs/promises'
import { expect, it } from 'vitest'
import { openDemo, useApp } from './appUnderTest'
import { enter } from './keyboard'

const app = useApp()

/** Pages and their size in points, from the objects of a PDF file. */
function pagesOf(bytes: Uint8Array): { count: number; width: number; height: number } {
  const text = new TextDecoder('latin1').decode(bytes)
  const box = /\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/.exec(text)
  return { count: text.match(/\/Type\s*\/Page\b/g)?.length ?? 0, width: Number(box?.[1]), height: Number(box?.[2]) }
}
/** ISO 216 A4, 210 x 297 mm, in points of 1/72 inch. */
const A4 = { width: (210 / 25.4) * 72, height: (297 / 25.4) * 72 }

it('prints on A4 with its own margins and foot, and nothing of the window around it', async () => {
  const page = await app.browser.newPage({ viewport: { width: 1280, height: 800 }, colorScheme: 'dark', acceptDownloads: true })
  await openDemo(page, app)
  await enter(page, /^Report/)
  await page.getByText('Data fingerprint').first().waitFor()
  const rules = await page.evaluate(() => document.adoptedStyleSheets
    .flatMap((sheet) => [...sheet.cssRules].map(({ cssText }) => cssText)))
  expect(rules.join('\n')).toMatch(/@page[\s\S]*@bottom-right[\s\S]*counter\(page\)/)

  await page.emulateMedia({ media: 'print' })
  expect(await page.getByRole('navigation').filter({ visible: true }).count()).toBe(0)
  expect(await page.getByRole('button').filter({ visible: true }).count()).toBe(0)
  expect(await page.evaluate(() => getComputedStyle(document.body).backgroundColor)).toBe('rgb(255, 255, 255)')
  const printed = pagesOf(await page.pdf({ preferCSSPageSize: true, format: 'A4', printBackground: true }))
  await page.emulateMedia({ media: 'screen' })

  const [download] = await Promise.all([page.waitForEvent('download'), enter(page, /^HTML$/)])
  const text = await readFile(await download.path(), 'utf8')
  const sheet = await app.browser.newPage()
  await sheet.setContent(text)
  const summary = await sheet.evaluate(() => document.querySelector('.annex')!.getBoundingClientRect().top)
  expect(summary).toBeGreaterThan(0)
  const taken = pagesOf(await sheet.pdf({ preferCSSPageSize: true, format: 'A4', printBackground: true }))
  await sheet.evaluate(() => document.querySelector('.annex')!.remove())
  const short = pagesOf(await sheet.pdf({ preferCSSPageSize: true, format: 'A4', printBackground: true }))
  console.log(`report: ${printed.count} pages from the window, ${taken.count} from the document, ${short.count} without the annex`)
  for (const { width, height } of [printed, taken]) {
    expect(Math.abs(width - A4.width)).toBeLessThan(1)
    expect(Math.abs(height - A4.height)).toBeLessThan(1)
  }
  expect(short.count).toBeLessThanOrEqual(2)
  expect(taken.count).toBeGreaterThan(2)
  expect(Math.abs(printed.count - taken.count)).toBeLessThanOrEqual(1)
  await page.close()
  await sheet.close()
})
