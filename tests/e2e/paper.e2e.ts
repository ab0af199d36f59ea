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
/** Names of the faces in a PDF file, without the tag of a subset (ISO 32000-1, 9.6.4). */
const facesOf = (bytes: Uint8Array): string[] => [...new Set(
  [...new TextDecoder('latin1').decode(bytes).matchAll(/\/(?:BaseFont|FontName)\s*\/([^\s/<>[\]()]+)/g)]
    .map(([, name]) => name!.replace(/^[A-Z]{6}\+/, '')),
)].sort()
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
  const paper = await page.pdf({ preferCSSPageSize: true, format: 'A4', printBackground: true })
  const printed = pagesOf(paper)
  const faces = [facesOf(paper)]
  await page.emulateMedia({ media: 'screen' })

  const [download] = await Promise.all([page.waitForEvent('download'), enter(page, /^HTML$/)])
  const sheet = await app.browser.newPage()
  const asPaper = async (text: string) => {
    await sheet.setContent(text)
    const bytes = await sheet.pdf({ preferCSSPageSize: true, format: 'A4', printBackground: true })
    faces.push(facesOf(bytes))
    return pagesOf(bytes)
  }
  const taken = await asPaper(await readFile(await download.path(), 'utf8'))
  // How much of its one page it fills: 297 mm less the margins of the style, in CSS px of 1/96 inch.
  await sheet.setViewportSize({ width: Math.round(((210 - 28) / 25.4) * 96), height: 900 })
  await sheet.emulateMedia({ media: 'print' })
  const tall = await sheet.evaluate(() => document.querySelector('.page')!.getBoundingClientRect().height)
  const full = tall / (((297 - 32) / 25.4) * 96)

  await page.getByLabel('Paper').selectOption('annex')
  await page.getByText('Limits of this method').waitFor()
  const [second] = await Promise.all([page.waitForEvent('download'), enter(page, /^HTML$/)])
  expect(second.suggestedFilename()).toBe('Heron 10 annex.html')
  const annex = await asPaper(await readFile(await second.path(), 'utf8'))
  console.log(`report: ${printed.count} page from the window, ${taken.count} from the document, ${
    Math.round(full * 100)} % full; annex: ${annex.count}`)
  for (const { width, height } of [printed, taken, annex]) {
    expect(Math.abs(width - A4.width)).toBeLessThan(1)
    expect(Math.abs(height - A4.height)).toBeLessThan(1)
  }
  // None of the system's, whatever it has: three papers, each with the faces that come with the program.
  expect(faces).toHaveLength(3)
  for (const each of faces) {
    expect(each.filter((name) => name.startsWith('SofiaSans'))).not.toEqual([])
    expect(each.filter((name) => !/^(SofiaSans|NotoSansMath)/.test(name))).toEqual([])
  }
  expect([printed.count, taken.count]).toEqual([1, 1])
  expect(full).toBeGreaterThan(0.8)
  expect(annex.count).toBeGreaterThan(2)
  await page.close()
  await sheet.close()
})
