/**
 * From each key to the frame that shows it, in the built window in a real Chromium: by the browser's own event
 * timing (W3C Event Timing, to 8 ms), and the longest task of the page's main thread, from the browser's trace.
 */
import type { Page } from 'playwright-core'

export interface KeyTimes {
  readonly keys: number
  readonly medianMs: number
  /** 95 of 100 keys were answered within it. */
  readonly slowMs: number
  readonly worstMs: number
  /** Longest task of the page in processor time: what other programs take does not count. */
  readonly taskMs: number
}

/** Times the keys that `work` presses; it answers how many. */
export async function timeKeys(page: Page, work: () => Promise<number>): Promise<KeyTimes> {
  await watch(page)
  // The beginning of a trace holds every frame up for half a second.
  await page.waitForTimeout(1500)
  const keys = await work()
  await page.waitForTimeout(500)
  const trace = await page.context().browser()?.stopTracing()
  const noted = await page.evaluate(() => (globalThis as unknown as { keyMs: number[] }).keyMs)
  // Keys whose frame came within 16 ms are not told by the browser and count as 16.
  const all = [...noted, ...Array.from({ length: Math.max(0, keys - noted.length) }, () => 16)].sort((a, b) => a - b)
  const at = (share: number): number => all[Math.min(all.length - 1, Math.floor(share * all.length))] ?? NaN
  return { keys, medianMs: at(0.5), slowMs: at(0.95), worstMs: at(1), taskMs: longestTaskMs(String(trace)) }
}

/** Begins to note keys in the page, and what its main thread does. */
async function watch(page: Page): Promise<void> {
  await page.evaluate(() => {
    const keyMs: number[] = []
    Object.assign(globalThis, { keyMs })
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) if (entry.name === 'keydown') keyMs.push(entry.duration)
    }).observe({ type: 'event', durationThreshold: 16 } as PerformanceObserverInit)
  })
  await page.context().browser()?.startTracing(page, { categories: ['__metadata', 'disabled-by-default-devtools.timeline'] })
}

interface TraceEvent { name: string; ph: string; pid: number; tid: number; tdur?: number; args?: { name?: string } }

function longestTaskMs(trace: string): number {
  const { traceEvents } = JSON.parse(trace) as { traceEvents: TraceEvent[] }
  const place = ({ pid, tid }: TraceEvent): string => `${pid} ${tid}`
  const mains = new Set(traceEvents
    .filter((each) => each.name === 'thread_name' && each.args?.name === 'CrRendererMain').map(place))
  const tasks = traceEvents.filter((each) => each.name === 'RunTask' && each.tdur !== undefined && mains.has(place(each)))
  if (tasks.length === 0) throw new Error('the trace holds no task of the page')
  return Math.max(...tasks.map((each) => each.tdur ?? 0)) / 1000
}

/** Types as a quick builder does, some keys a second. */
export async function typeSlowly(page: Page, text: string): Promise<void> {
  for (const key of text) {
    await page.keyboard.press(key === ' ' ? 'Space' : key)
    await page.waitForTimeout(120)
  }
}

/** Opens a part of a long squat test that is folded, in its middle. */
export async function openMiddle(page: Page): Promise<void> {
  const folded = page.locator('tr.folded button')
  await folded.nth(Math.floor(await folded.count() / 2)).click()
}

const IN_A_ROW = 6
let rounds = 0

/** Whoever goes to another place of a long table looks before typing, ms. */
const LOOK_MS = 800

/**
 * Readings typed over ones that are there, near the beginning and at the end, each taken with Enter. Values differ from
 * call to call, so that each is a change.
 */
export async function typeReadings(page: Page): Promise<{ keys: number; typedMm: number[] }> {
  const rows = page.locator('[data-step]')
  rounds = (rounds + 1) % 20
  const texts = Array.from({ length: IN_A_ROW }, (_, index) => (19 + rounds / 10 + index / 100).toFixed(2))
  const typedMm: number[] = []
  let keys = 0
  for (const place of ['middle', 'end']) {
    const row = place === 'middle' ? 3 : await rows.count() - 3
    const field = rows.nth(row).locator('input[type="text"]').first()
    await field.focus()
    // What is out of sight draws nothing, and its keys would be timed by the next frame that something else draws.
    await field.evaluate((element) => { element.scrollIntoView({ block: 'center' }) })
    await page.waitForTimeout(LOOK_MS)
    await page.keyboard.press('Control+a')
    for (const text of texts) {
      typedMm.push(Number(text))
      await typeSlowly(page, text)
      await page.keyboard.press('Enter')
      await page.waitForTimeout(250)
      keys += text.length + 1
    }
  }
  return { keys, typedMm }
}
