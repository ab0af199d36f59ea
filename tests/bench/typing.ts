/** How soon a key is answered while readings are typed into a squat test of thousands, in the built window. */
import { fileURLToPath } from 'node:url'
import type { Page } from 'playwright-core'
import type { Exchange } from '@core/schema'
import { ensureBuilt } from '../../electron/freshBuild'
import { launchBrowser } from '../e2e/browser'
import { libraryFolderForTest, startHostFor } from '../e2e/startedHost'
import { longExchange } from '../harness/longSession'
import { openMiddle, timeKeys, typeReadings, type KeyTimes } from './keys'

/** Imports a file from inside the page; answers the id of its chassis. */
export const take = (page: Page, file: Exchange): Promise<string> => page.evaluate(async (text) => {
  const answer = await fetch('/service/exchange.import', {
    method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify({ text }),
  })
  const { value, error } = await answer.json() as { value?: { chassisId: string }; error?: unknown }
  if (value === undefined) throw new Error(JSON.stringify(error))
  return value.chassisId
}, JSON.stringify(file))

/** Types into a squat test of so many readings, so many times over; the times of each go. */
export async function typingTimes(readings: number, goes: number): Promise<KeyTimes[]> {
  ensureBuilt(fileURLToPath(new URL('../..', import.meta.url)))
  const library = await libraryFolderForTest()
  const host = await startHostFor(library.folder)
  const browser = await launchBrowser()
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 860 } })
    await page.goto(host.address)
    await page.getByRole('heading', { level: 1 }).first().waitFor()
    await page.goto(`${host.origin}/#/car/${await take(page, longExchange('long', readings))}/squat`)
    await page.locator('[data-step]').first().waitFor()
    await openMiddle(page)
    await page.waitForTimeout(3000)
    const times: KeyTimes[] = []
    for (let go = 0; go < goes; go += 1) {
      times.push(await timeKeys(page, async () => (await typeReadings(page)).keys))
    }
    return times
  } finally {
    await browser.close()
    await host.stop()
    await library.remove()
  }
}

if (import.meta.url === `file://${process.argv[1]}`) console.log(await typingTimes(5000, 3))
