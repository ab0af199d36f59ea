/** The steps of a camera run in the window, for browser tests and for the pictures of it. */
import type { Locator, Page } from 'playwright-core'

export interface Place { readonly x: number; readonly y: number }

export const board = (page: Page): Locator => page.locator('svg[data-camera="board"]')
export const frameShown = (page: Page): Locator => page.locator('[data-camera="frame"]')
/** How many marks of the shown picture or frame stand. */
export const marksMade = (page: Page): Promise<number> => page.locator('[data-mark]').filter({ hasText: '●' }).count()

export const chooseFile = (page: Page, file: string): Promise<void> =>
  page.locator('.camera input[type="file"]').setInputFiles(file)

/** Opens a file and waits until it stands on the stage. */
export async function openPicture(page: Page, file: string): Promise<void> {
  const name = file.split(/[\\/]/).at(-1)!
  await chooseFile(page, file)
  await page.locator('.pictures button[aria-pressed="true"]').filter({ hasText: name }).waitFor({ timeout: 60_000 })
  await board(page).waitFor()
  if (/\.(webm|mp4)$/.test(name)) await frameShown(page).waitFor()
  await page.waitForTimeout(400)
  await sayWhatIsSeen(page)
}

/** A phone's main camera, and round stickers at the rule's ends, too: what `tests/synthetic` draws. */
export async function sayWhatIsSeen(page: Page): Promise<void> {
  const kind = page.getByLabel('Kind of camera')
  if ((await kind.inputValue()) === '') await kind.selectOption('phoneMain')
  await page.locator('[data-camera="snap-all"]').check()
}

/** Clicks a place of the picture, given in its own pixels; `off` is how badly the hand aims. */
export async function clickAt(page: Page, at: Place, widthPx: number, off = 0): Promise<void> {
  const box = (await board(page).boundingBox())!
  const scale = box.width / widthPx
  await board(page).click({ position: { x: (at.x + off) * scale, y: (at.y - off) * scale } })
}

/** Puts marks one after the other, from the one that is next. */
export async function markAll(page: Page, places: readonly Place[], widthPx: number): Promise<void> {
  for (const [i, at] of places.entries()) await clickAt(page, at, widthPx, (i % 3) - 1)
}

export async function typeInto(page: Page, label: RegExp, text: string): Promise<void> {
  const field = page.getByRole('textbox', { name: label })
  await field.fill(text)
  await field.press('Enter')
}

/** Both ends of the interval that stands in a result. @throws where there is none */
export async function intervalOf(result: Locator): Promise<[number, number]> {
  const text = await result.innerText()
  const found = /interval ([\d.−-]+) to ([\d.−-]+)/.exec(text)
  if (!found) throw new Error(`no interval in: ${text}`)
  return [found[1]!, found[2]!].map((each) => Number(each.replace('−', '-'))) as [number, number]
}
